// Carbon monoxide in the table of estimates: the room, its airing, the body, the shift.
#include <algorithm>

#include "hazard/calc_tables.hpp"
#include "hazard/carbon_monoxide.hpp"
#include "hazard/exposure.hpp"
#include "hazard/purge.hpp"
#include "hazard/room_air.hpp"
#include "hazard/uptake.hpp"

namespace holdpin {
namespace {

using enum CalcKind;
using enum CalcNeed;
using enum CalcRounding;

CalcAnswer answer_of(const std::optional<double>& value) {
    return value ? CalcAnswer(*value) : CalcAnswer(std::monostate{});
}

// ---- room-air ----

constexpr CalcKey kRoomKeys[] = {
    {.name = "volume_m3", .unit = "m³"},
    {.name = "airflow_m3h", .unit = "m³/h", .note = "outdoor air"},
    {.name = "source_lmin", .unit = "L/min", .need = either, .note = "carbon monoxide; or source_gh"},
    {.name = "source_gh", .unit = "g/h", .need = either, .note = "or source_lmin"},
    {.name = "start_ppm", .unit = "ppm", .need = optional, .fallback = "0"},
    {.name = "outdoor_ppm", .unit = "ppm", .need = optional, .fallback = "0"},
    {.name = "mixing", .unit = "", .need = optional, .fallback = "1", .note = "K, 1 well mixed to 10"},
    {.name = "minutes", .unit = "min"},
    {.name = "limit_ppm", .unit = "ppm", .need = optional},
};
constexpr CalcResultKey kRoomResults[] = {
    {"end_ppm", "carbon monoxide at the end", "ppm", up},
    {"steady_ppm", "where it would settle", "ppm", up},
    {"minutes_to_limit", "time to the limit", "min", down},
    {"mean_ppm", "mean on the way", "ppm", up},
};

Result<double> source_of(const CalcInput& in) {
    if (in.has("source_lmin") == in.has("source_gh")) {
        return calc_misuse("source_lmin", "one source is needed, in one unit",
                           "give source_lmin in L/min or source_gh in g/h; 0 for none");
    }
    if (in.has("source_lmin")) return in.number("source_lmin");
    return co_lmin_of_gh(in.number("source_gh"));
}

Result<CalcAnswers> run_room(const CalcInput& in) {
    RoomAir room;
    room.volume_m3 = in.number("volume_m3");
    room.airflow_m3h = in.number("airflow_m3h");
    room.source_lmin = TRY(source_of(in));
    room.outdoor_ppm = in.number("outdoor_ppm");
    room.start_ppm = in.number("start_ppm");
    room.mixing = in.number("mixing");
    const auto limit = in.given("limit_ppm");
    const RoomAirForecast air = TRY(room_air(room, in.number("minutes"), limit));
    CalcAnswers answers{{"end_ppm", air.end_ppm},
                        {"steady_ppm", answer_of(air.steady_ppm)},
                        {"mean_ppm", air.mean_ppm}};
    if (limit) answers.emplace_back("minutes_to_limit", answer_of(air.minutes_to_limit));
    return answers;
}

// ---- purge ----

constexpr CalcKey kPurgeKeys[] = {
    {.name = "ach", .unit = "air changes/h", .need = either, .note = "or volume_m3 and airflow_m3h"},
    {.name = "volume_m3", .unit = "m³", .need = either},
    {.name = "airflow_m3h", .unit = "m³/h", .need = either},
    {.name = "mixing", .unit = "", .need = optional, .fallback = "1", .note = "K, 1 well mixed to 10"},
    {.name = "from_ppm", .unit = "ppm", .need = either, .note = "with to_ppm; or removal_percent"},
    {.name = "to_ppm", .unit = "ppm", .need = either},
    {.name = "removal_percent", .unit = "%", .need = either},
};
constexpr CalcResultKey kPurgeResults[] = {{"minutes", "time to air the room", "min", up}};

Result<double> changes_of(const CalcInput& in) {
    const bool room = in.has("volume_m3") || in.has("airflow_m3h");
    if (in.has("ach") && !room) return in.number("ach");
    if (in.has("ach") || !in.has("volume_m3") || !in.has("airflow_m3h")) {
        return calc_misuse("ach", "the air changes are needed, said in one way",
                           "give ach, or volume_m3 and airflow_m3h");
    }
    return air_changes(in.number("volume_m3"), in.number("airflow_m3h"));
}

Result<CalcAnswers> run_purge(const CalcInput& in) {
    const Airing airing{TRY(changes_of(in)), in.number("mixing")};
    const bool ends = in.has("from_ppm") || in.has("to_ppm");
    if (in.has("removal_percent") && !ends) {
        return CalcAnswers{
            {"minutes", TRY(removal_minutes(airing, in.number("removal_percent")))}};
    }
    if (in.has("removal_percent") || !in.has("from_ppm") || !in.has("to_ppm")) {
        return calc_misuse("from_ppm", "what is to be aired out is needed, said in one way",
                           "give from_ppm and to_ppm, or removal_percent");
    }
    return CalcAnswers{
        {"minutes", TRY(purge_minutes(airing, in.number("from_ppm"), in.number("to_ppm")))}};
}

// ---- uptake ----

constexpr CalcKey kUptakeKeys[] = {
    {.name = "ppm", .unit = "ppm", .need = either, .note = "or find=ppm with end_percent"},
    {.name = "minutes", .unit = "min"},
    {.name = "start_percent", .unit = "% COHb", .need = optional, .fallback = "0.75"},
    {.name = "activity", .unit = "rest light moderate heavy very-heavy", .kind = word, .need = either,
     .note = "light where nothing is said; or dl_ml_min_mmhg and va_l_min"},
    {.name = "dl_ml_min_mmhg", .unit = "mL/min/mmHg", .need = either, .note = "as in the equation"},
    {.name = "va_l_min", .unit = "L/min", .need = either, .note = "as in the equation"},
    {.name = "pressure_mmhg", .unit = "mmHg", .need = either, .note = "760 where nothing is said; or altitude_m"},
    {.name = "altitude_m", .unit = "m", .need = either},
    {.name = "o2_percent", .unit = "%", .need = optional, .fallback = "21"},
    {.name = "hb_g_dl", .unit = "g/dL", .need = optional, .note = "15.8 for male, 14.2 for female"},
    {.name = "blood_l", .unit = "L", .need = either, .note = "5.5 where nothing is said; or height_m and mass_kg"},
    {.name = "height_m", .unit = "m", .need = either},
    {.name = "mass_kg", .unit = "kg", .need = either},
    {.name = "sex", .unit = "male female", .kind = word, .need = optional, .fallback = "male"},
    {.name = "find", .unit = "ppm", .kind = word, .need = optional, .note = "the steady air that leads to end_percent"},
    {.name = "end_percent", .unit = "% COHb", .need = optional, .note = "only with find=ppm"},
};
constexpr CalcResultKey kUptakeResults[] = {
    {"ppm", "steady air that leads there", "ppm"},
    {"end_percent", "COHb at the end", "% COHb"},
    {"equilibrium_percent", "COHb in the end, in this air", "% COHb"},
    {"half_time_min", "half-time of a low level in clean air", "min"},
};

Result<Ambient> ambient_of(const CalcInput& in) {
    Ambient ambient;
    ambient.o2_percent = in.number("o2_percent");
    if (in.has("pressure_mmhg") && in.has("altitude_m")) {
        return calc_misuse("altitude_m", "pressure and altitude are given", "give one of them");
    }
    if (in.has("pressure_mmhg")) ambient.pressure_mmhg = in.number("pressure_mmhg");
    if (in.has("altitude_m")) {
        ambient.pressure_mmhg = TRY(pressure_mmhg_at(in.number("altitude_m")));
    }
    return ambient;
}

Result<Lungs> lungs_of(const CalcInput& in, const Ambient& ambient) {
    const bool dl = in.has("dl_ml_min_mmhg");
    const bool va = in.has("va_l_min");
    if (dl != va || (dl && in.has("activity"))) {
        return calc_misuse("activity", "the lungs are needed, said in one way",
                           "give activity, or dl_ml_min_mmhg and va_l_min");
    }
    if (dl) return Lungs{in.number("dl_ml_min_mmhg"), in.number("va_l_min")};
    return lungs_at(activity_named(in.word("activity")).value_or(Activity::light), ambient);
}

Result<double> blood_of(const CalcInput& in, Sex sex) {
    const bool height = in.has("height_m");
    const bool mass = in.has("mass_kg");
    if (height != mass || (height && in.has("blood_l"))) {
        return calc_misuse("blood_l", "the blood is needed, said in one way",
                           "give blood_l, or height_m and mass_kg");
    }
    if (height) return blood_l_of({in.number("height_m"), in.number("mass_kg"), sex});
    return in.given("blood_l").value_or(Breather{}.blood_l);
}

Result<Breather> breather_of(const CalcInput& in) {
    const Sex sex = in.word("sex") == "female" ? Sex::female : Sex::male;
    Breather breather;
    breather.ambient = TRY(ambient_of(in));
    breather.lungs = TRY(lungs_of(in, breather.ambient));
    breather.hb_g_dl = in.given("hb_g_dl").value_or(usual_hb_g_dl(sex));
    breather.blood_l = TRY(blood_of(in, sex));
    return breather;
}

Result<CalcAnswers> run_uptake(const CalcInput& in) {
    const bool find = in.has("find");
    if (find == in.has("ppm") || find != in.has("end_percent")) {
        return calc_misuse("ppm", "it is not clear what is looked for",
                           "give ppm for the COHb, or find=ppm and end_percent for the air");
    }
    const Breather breather = TRY(breather_of(in));
    Exposed exposed{in.given("ppm").value_or(0), in.number("minutes"), in.number("start_percent")};
    CalcAnswers answers;
    if (find) {
        exposed.ppm = TRY(ppm_for(breather, exposed, in.number("end_percent")));
        answers.emplace_back("ppm", exposed.ppm);
    }
    const Uptake body = TRY(uptake(breather, exposed));
    answers.emplace_back("end_percent", body.end_percent);
    answers.emplace_back("equilibrium_percent", body.equilibrium_percent);
    answers.emplace_back("half_time_min", body.half_time_min);
    return answers;
}

// ---- exposure ----

constexpr CalcKey kExposureKeys[] = {
    {.name = "intervals", .unit = "hours@ppm", .kind = timed, .note = "once for every interval"},
    {.name = "shift_h", .unit = "h", .need = optional, .note = "8, or the intervals together if longer"},
};
constexpr CalcResultKey kExposureResults[] = {
    {"twa_8h_ppm", "mean of the worst 8 hours", "ppm", up},
    {"worst_15min_ppm", "mean of the worst 15 minutes", "ppm", up},
    {"share_osha", "share of OSHA's 50 ppm over 8 h", "", up},
    {"share_niosh", "share of NIOSH's 35 ppm over 8 h", "", up},
    {"share_niosh_ceiling", "share of NIOSH's ceiling of 200 ppm", "", up},
    {"share_eu", "share of the EU's 20 ppm over 8 h", "", up},
    {"share_eu_15min", "share of the EU's 100 ppm over 15 min", "", up},
    {"share_acgih", "share of ACGIH's 25 ppm over 8 h", "", up},
    {"reduction", "factor for the shift, Brief and Scala", "", down},
    {"extended_osha_ppm", "OSHA's limit over this shift", "ppm", down},
    {"extended_niosh_ppm", "NIOSH's limit over this shift", "ppm", down},
    {"extended_eu_ppm", "the EU's limit over this shift", "ppm", down},
    {"extended_acgih_ppm", "ACGIH's limit over this shift", "ppm", down},
    {"shift_mean_ppm", "mean of this shift, to hold against them", "ppm", up},
};

struct LimitNames {
    std::string_view id;
    std::string_view share;
    std::string_view extended;  // empty: not a limit over 8 hours
};
constexpr LimitNames kLimitNames[] = {
    {"osha", "share_osha", "extended_osha_ppm"},
    {"niosh", "share_niosh", "extended_niosh_ppm"},
    {"niosh-ceiling", "share_niosh_ceiling", ""},
    {"eu", "share_eu", "extended_eu_ppm"},
    {"eu-15min", "share_eu_15min", ""},
    {"acgih", "share_acgih", "extended_acgih_ppm"},
};

Result<CalcAnswers> run_exposure(const CalcInput& in) {
    std::vector<ExposureInterval> intervals;
    double hours = 0;
    for (const TimedLevel& part : in.day()) {
        intervals.push_back({part.hours, part.level});
        hours += part.hours;
    }
    const double shift_h = in.given("shift_h").value_or(std::max(8.0, hours));
    const Exposure shift = TRY(exposure(intervals, shift_h));
    CalcAnswers answers{{"twa_8h_ppm", shift.twa_8h_ppm},
                        {"worst_15min_ppm", shift.worst_15min_ppm},
                        {"reduction", shift.reduction},
                        {"shift_mean_ppm", shift.shift_mean_ppm}};
    for (const LimitShare& share : shift.shares) {
        for (const LimitNames& names : kLimitNames) {
            if (names.id != share.limit.id) continue;
            answers.emplace_back(names.share, share.share);
            if (!names.extended.empty()) {
                answers.emplace_back(names.extended, share.extended_limit_ppm);
            }
        }
    }
    return answers;
}

constexpr Calc kCalcs[] = {
    {"room-air", "how fast carbon monoxide builds up in a room", kRoomKeys, kRoomResults,
     "mass balance of a room, ACGIH Industrial Ventilation ch. 2 (from memory); mixing: CDC MMWR 1994;43(RR-13)",
     "35 ppm is an average over 8 hours, no instant limit. Without a tailpipe test in date take the upper value.",
     true, run_room},
    {"purge", "how long to air a room with every engine off", kPurgeKeys, kPurgeResults,
     "CDC MMWR 1994;43(RR-13) table S3-1",
     "The room is opened again by a measured reading, never by this time.", true, run_purge},
    {"uptake", "what an exposure to carbon monoxide does to a body", kUptakeKeys, kUptakeResults,
     "Coburn-Forster-Kane, non-linear, as in the method note COHb of the OSHA Salt Lake Technical Center",
     "It diagnoses nobody: who has symptoms goes out, and to a doctor.", true, run_uptake},
    {"exposure", "a shift against the limits for carbon monoxide", kExposureKeys, kExposureResults,
     "29 CFR 1910.1000(d); limits of OSHA, NIOSH, the EU and ACGIH; long shifts: Brief and Scala",
     "An exposure record comes from a meter, with place, instrument and time.", true, run_exposure},
};

}  // namespace

std::span<const Calc> air_calcs() { return kCalcs; }

}  // namespace holdpin
