// Carbon monoxide in a room: build-up while engines run, airing out, and what it does to the blood.
#include <algorithm>
#include <cmath>

#include "flows/air.hpp"
#include "flows/estimate_sums.hpp"
#include "hazard/purge.hpp"
#include "hazard/room_air.hpp"
#include "hazard/uptake.hpp"

namespace holdpin {
namespace {

constexpr double kAverageMinutes = 480;  // the time over which the average counts
constexpr double kNever = 1e9;
constexpr int kCurvePoints = 160;
// Idling, Fawcett and others 1992 (read): 450 L of exhaust a minute with 3.56 % on average.
constexpr double kIdle_lmin = 16;

RoomAir room_as_it_is(const Room& room, double airflow_m3h) {
    RoomAir air;
    air.volume_m3 = room.volume_m3;
    air.airflow_m3h = airflow_m3h;
    air.mixing = room.mixing;
    return air;
}

// Engines run, then stand still in the same airflow.
struct RunAndRest {
    AirCourse run;
    AirCourse rest;
    double run_min = 0;

    double at(double minutes) const {
        return minutes <= run_min ? run.at(minutes) : rest.at(minutes - run_min);
    }
    // ppm minutes breathed by who stays
    double dose(double minutes) const {
        if (minutes <= run_min) return run.mean(minutes) * minutes;
        const double after = minutes - run_min;
        return run.mean(run_min) * run_min + rest.mean(after) * after;
    }
    double average_so_far(double minutes) const { return dose(minutes) / kAverageMinutes; }
    // The minute in which the average of eight hours is used up; absent within them.
    std::optional<double> minutes_to_average(double ppm) const {
        if (average_so_far(kAverageMinutes) < ppm) return std::nullopt;
        double low = 0;
        double high = kAverageMinutes;
        while (high - low > 0.01) {
            const double middle = (low + high) / 2;
            (average_so_far(middle) < ppm ? low : high) = middle;
        }
        return low;
    }
};

Result<RunAndRest> run_and_rest(const RoomAir& room, double run_min) {
    RunAndRest both;
    both.run_min = run_min;
    both.run = TRY(air_course(room));
    RoomAir still = room;
    still.source_lmin = 0;
    still.start_ppm = both.run.at(run_min);
    both.rest = TRY(air_course(still));
    return both;
}

ChartAxis clock_axis(const Say& say, double to_min) {
    return {say("estimates.axis-time"), "h:min", 0, to_min, ChartTicks::clock};
}

ChartAxis ppm_axis(const Say& say, double highest) {
    return {say("estimates.axis-co"), "ppm", 0, highest * 1.12, ChartTicks::decimal};
}

ChartData room_air_chart(const EstimateAsk& ask, const RunAndRest& air) {
    const Say say = ask.session.say();
    const AirPolicy& policy = ask.session.content().site.air;
    ChartData chart;
    ChartLine now{say("estimates.line-air"), ChartStyle::solid, false, {}};
    ChartLine average{say("estimates.line-average"), ChartStyle::dashed, false, {}};
    double highest = std::max(policy.ceiling_ppm, policy.average_ppm);
    for (int i = 0; i <= kCurvePoints; ++i) {
        const double minute = kAverageMinutes * i / kCurvePoints;
        now.points.push_back({minute, air.at(minute)});
        average.points.push_back({minute, air.average_so_far(minute)});
        highest = std::max(highest, air.at(minute));
    }
    const ChartPoint off{air.run_min, air.at(air.run_min)};
    const auto after = std::find_if(now.points.begin(), now.points.end(),
                                    [&](const ChartPoint& point) { return point.x > off.x; });
    now.points.insert(after, off);
    chart.x = clock_axis(say, kAverageMinutes);
    chart.left = ppm_axis(say, std::max(highest, off.y));
    chart.lines = {now, average};
    if (policy.ceiling_ppm > 0) {
        chart.levels.push_back({policy.ceiling_ppm,
                                say("estimates.level-ceiling",
                                    {{"ppm", ppm_text(policy.ceiling_ppm)}}),
                                false});
    }
    if (policy.average_ppm > 0) {
        chart.bands.push_back({0, kAverageMinutes, policy.average_ppm,
                               say("estimates.level-average",
                                   {{"ppm", ppm_text(policy.average_ppm)}})});
    }
    if (air.run_min < kAverageMinutes) {
        chart.marks.push_back({off.x, off.y, say("estimates.mark-off"), false});
    }
    return chart;
}

std::string round_down(const Units& units, double minutes) {
    return units.text(Quantity::minutes, std::floor(minutes));
}
std::string round_up(const Units& units, double minutes) {
    return units.text(Quantity::minutes, std::ceil(minutes));
}

// The citation without what it says: the levels themselves stand in the curve.
std::string levels_source(const Session& session) {
    const Footing* footing = session.pack().footing(session.content().site.air.footing);
    const std::string citation = footing == nullptr ? "" : session.say()(footing->citation);
    return citation.substr(0, citation.find(": "));
}

// The last reading within the hour, else clean air.
double last_ppm(const Session& session, const Room& room) {
    const auto air = air_now(session, room.id);
    return air.ok() && air.value().last ? air.value().last->ppm : 0;
}

}  // namespace

// ---- room air -------------------------------------------------------------------------------

Result<std::vector<EstimateDial>> room_air_dials(const Session& session, const Room& room) {
    const RoomAirNow air = TRY(air_now(session, room.id));
    const double source =
        air.source_lmin > 0 ? air.source_lmin : engine_source_lmin(session, room);
    return std::vector<EstimateDial>{
        {"volume", Quantity::volume, room.volume_m3, 10, 1e6, 0, 0, {}},
        {"airflow", Quantity::airflow, std::max(1.0, air.airflow_m3h), 1, 1e6, 0, 0, {}},
        {"source", Quantity::gas_flow, std::max(0.1, source), 0.1, 1000, 0, 0, {}},
        {"running", Quantity::minutes, 120, 15, kAverageMinutes, 15, 0, {}}};
}

Result<EstimateBody> estimate_room_air(const EstimateAsk& ask) {
    const Say say = ask.session.say();
    const Room* room = ask.session.content().room(ask.room);
    const AirPolicy& policy = ask.session.content().site.air;
    RoomAir air = room_as_it_is(*room, ask.values[1]);
    air.volume_m3 = ask.values[0];
    air.source_lmin = ask.values[2];
    air.start_ppm = last_ppm(ask.session, *room);
    const double run_min = ask.values[3];
    const RunAndRest both = TRY(run_and_rest(air, run_min));
    const RoomAirForecast end = TRY(room_air(air, run_min, policy.ceiling_ppm));
    const auto average = both.minutes_to_average(policy.average_ppm);
    const bool peaks = end.minutes_to_limit.value_or(run_min + 1) <= run_min;
    const double to_ceiling = peaks ? *end.minutes_to_limit : kNever;
    const double to_average = average.value_or(kNever);
    EstimateBody body;
    body.chart = room_air_chart(ask, both);
    const Args args{{"ceiling", ppm_text(policy.ceiling_ppm)},
                    {"average", ppm_text(policy.average_ppm)},
                    {"end", ppm_text(std::ceil(end.end_ppm))},
                    {"mean", ppm_text(std::ceil(both.average_so_far(kAverageMinutes)))},
                    {"to-ceiling", round_down(ask.units, to_ceiling)},
                    {"to-average", round_down(ask.units, to_average)}};
    const std::string by_ceiling =
        say(peaks ? "estimates.ceiling-after" : "estimates.ceiling-kept", args);
    const std::string by_average =
        say(average ? "estimates.average-after" : "estimates.average-kept", args);
    body.results = peaks && to_ceiling <= to_average ? std::vector{by_ceiling, by_average}
                                                     : std::vector{by_average, by_ceiling};
    const double first = std::min(to_ceiling, to_average);
    body.advice = first < kNever
                      ? say("estimates.advice-passes", {{"time", round_down(ask.units, first)}})
                      : say("estimates.advice-stays", args);
    body.caution = say("estimates.caution");
    body.source = say("estimates.source-room-air", {{"levels", levels_source(ask.session)}});
    return body;
}

// ---- airing ---------------------------------------------------------------------------------

Result<std::vector<EstimateDial>> airing_dials(const Session& session, const Room& room) {
    const AirPolicy& policy = session.content().site.air;
    const double read = last_ppm(session, room);
    const double wanted = policy.average_ppm > 0 ? policy.average_ppm : 35;
    const double from = read > wanted ? read : std::max(policy.ceiling_ppm, wanted);
    return std::vector<EstimateDial>{
        {"volume", Quantity::volume, room.volume_m3, 10, 1e6, 0, 0, {}},
        {"airflow", Quantity::airflow, std::max(1.0, airflow_doors_open(room)), 1, 1e6, 0, 0, {}},
        {"from", Quantity::ppm, from, 1, 10'000, 0, 0, {}},
        {"to", Quantity::ppm, wanted, 1, 1000, 5, 0, {}}};
}

Result<EstimateBody> estimate_airing(const EstimateAsk& ask) {
    const Say say = ask.session.say();
    const Room* room = ask.session.content().room(ask.room);
    const double from = ask.values[2];
    const double to = std::min(ask.values[3], from);
    const Airing airing{TRY(air_changes(ask.values[0], ask.values[1])), room->mixing};
    const double minutes = TRY(purge_minutes(airing, from, to));
    EstimateBody body;
    const double shown = std::max(10.0, std::ceil(minutes * 1.35 / 10) * 10);
    ChartLine line{say("estimates.line-air"), ChartStyle::solid, false, {}};
    const double settling = airing.ach / airing.mixing / 60;
    for (int i = 0; i <= kCurvePoints; ++i) {
        const double minute = shown * i / kCurvePoints;
        line.points.push_back({minute, from * std::exp(-settling * minute)});
    }
    body.chart.x = clock_axis(say, shown);
    body.chart.left = ppm_axis(say, from);
    body.chart.lines = {line};
    const Args args{{"time", round_up(ask.units, minutes)},
                    {"from", ppm_text(from)},
                    {"to", ppm_text(to)},
                    {"ach", plain_number(airing.ach)}};
    body.chart.marks.push_back({minutes, to, say("estimates.mark-aired", args), false});
    body.results = {say("estimates.airing-time", args), say("estimates.airing-changes", args)};
    body.advice = say("estimates.advice-airing");
    body.caution = say("estimates.caution");
    body.source = say("estimates.source-airing");
    return body;
}

// ---- blood ----------------------------------------------------------------------------------

std::vector<EstimateDial> blood_dials() {
    EstimateDial effort{"effort", Quantity::percent, 1, 0, 2, 1, 0, {}};
    effort.words = {"estimates.effort-rest", "estimates.effort-light", "estimates.effort-moderate"};
    return {{"work", Quantity::minutes, 60, 0, 480, 15, 0, {}},
            {"idle", Quantity::minutes, 15, 0, 240, 5, 0, {}},
            {"stay", Quantity::minutes, 20, 0, 240, 5, 0, {}},
            effort};
}

namespace {

constexpr Activity kEfforts[] = {Activity::rest, Activity::light, Activity::moderate};

// Work, idling, airing with the doors open while the person stays, then out in clean air at rest.
Result<std::vector<Stretch>> day_of(const EstimateAsk& ask, const Room& room,
                                    const Lungs& working, const Lungs& resting) {
    RoomAir air = room_as_it_is(room, room.airflow_m3h);
    air.start_ppm = last_ppm(ask.session, room);
    std::vector<Stretch> day;
    const double sources[] = {engine_source_lmin(ask.session, room), kIdle_lmin, 0};
    for (std::size_t i = 0; i < 3; ++i) {
        air.source_lmin = sources[i];
        if (i == 2) air.airflow_m3h = airflow_doors_open(room);
        const AirCourse course = TRY(air_course(air));
        const double minutes = ask.values[i];
        if (minutes > 0) day.push_back({minutes, course, working});
        air.start_ppm = course.at(minutes);
    }
    const double inside = ask.values[0] + ask.values[1] + ask.values[2];
    const double whole = std::max(240.0, std::ceil((inside + 120) / 60) * 60);
    day.push_back({whole - inside, AirCourse{}, resting});
    return day;
}

// A point where the person walks out: the air drops at once.
ChartData blood_chart(const Say& say, const std::vector<BloodPoint>& course, double inside) {
    ChartData chart;
    ChartLine air{say("estimates.line-breathed"), ChartStyle::solid, false, {}};
    ChartLine blood{say("estimates.line-blood"), ChartStyle::dashed, true, {}};
    double highest_ppm = 50;
    double highest_percent = 8;
    for (const BloodPoint& point : course) {
        air.points.push_back({point.minutes, point.ppm});
        blood.points.push_back({point.minutes, point.percent});
        highest_ppm = std::max(highest_ppm, point.ppm);
        highest_percent = std::max(highest_percent, point.percent * 1.12);
    }
    chart.x = clock_axis(say, course.back().minutes);
    chart.left = ppm_axis(say, highest_ppm);
    chart.right = ChartAxis{say("estimates.axis-blood"), "%", 0, highest_percent,
                            ChartTicks::decimal};
    chart.lines = {air, blood};
    const auto out = std::find_if(course.begin(), course.end(), [&](const BloodPoint& point) {
        return point.minutes >= inside;
    });
    if (out != course.end()) {
        chart.marks.push_back({inside, out->percent, say("estimates.mark-out"), true});
    }
    return chart;
}

}  // namespace

Result<EstimateBody> estimate_blood(const EstimateAsk& ask) {
    const Say say = ask.session.say();
    const Room* room = ask.session.content().room(ask.room);
    const AirPolicy& policy = ask.session.content().site.air;
    Breather person;
    const Lungs resting = TRY(lungs_at(Activity::rest, person.ambient));
    const auto effort = static_cast<std::size_t>(ask.values[3]);
    const Lungs working = TRY(lungs_at(kEfforts[std::min<std::size_t>(effort, 2)],
                                       person.ambient));
    const auto day = TRY(day_of(ask, *room, working, resting));
    const auto course = TRY(follow_uptake(person, Exposed{}.start_percent, day, 2));
    const auto peak = std::max_element(course.begin(), course.end(),
                                       [](const BloodPoint& a, const BloodPoint& b) {
                                           return a.percent < b.percent;
                                       });
    person.lungs = resting;
    const double half = TRY(uptake(person, Exposed{})).half_time_min;
    person.lungs = TRY(lungs_at(Activity::light, person.ambient));
    const Uptake allowed = TRY(uptake(person, Exposed{policy.average_ppm, kAverageMinutes}));
    const double inside = ask.values[0] + ask.values[1] + ask.values[2];
    EstimateBody body;
    body.chart = blood_chart(say, course, inside);
    const Args args{{"percent", plain_number(std::ceil(peak->percent * 10) / 10)},
                    {"time", ask.units.text(Quantity::minutes, peak->minutes)},
                    {"half", round_up(ask.units, std::ceil(half / 10) * 10)},
                    {"average", ppm_text(policy.average_ppm)},
                    {"allowed", plain_number(std::floor(allowed.end_percent * 10) / 10)}};
    if (policy.average_ppm > 0) {
        body.chart.levels.push_back(
            {allowed.end_percent, say("estimates.level-blood", args), true});
    }
    body.results = {say("estimates.blood-peak", args), say("estimates.blood-half", args)};
    body.advice = say("estimates.advice-blood");
    body.caution = say("estimates.caution-blood");
    body.source = say("estimates.source-blood");
    return body;
}

}  // namespace holdpin
