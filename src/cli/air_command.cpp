#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "cli/commands.hpp"
#include "cli/new_site.hpp"
#include "cli/output.hpp"
#include "cli/stored_records.hpp"
#include "devices/meter_csv.hpp"
#include "flows/air.hpp"
#include "flows/air_reading.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

constexpr std::int64_t kEightHoursMs = 8 * 3'600'000LL;

Result<ReadingsEntered> import_log(OpenSite& site, const MeterLog& log, const std::string& room,
                                   const std::string& instrument) {
    std::vector<MeterReading> readings;
    for (const LogReading& reading : log.readings) {
        readings.push_back({room, reading.ppm, instrument, "csv", reading.read_ms});
    }
    World world = site.world();
    return enter_device_readings(world, readings);
}

void tell(const ReadingsEntered& done, const std::string& room) {
    say(fmt::format("{} readings are entered as exposure records; {} were there already.",
                    done.entered, done.known));
    if (done.alarm) {
        say(fmt::format("A reading reached the ceiling: the air alarm of {} stands. It holds every "
                        "engine there until a supervisor enters a reading below the level.",
                        room));
    }
}

// What `air fit` leans on, and what came out.
struct RoomFit {
    Room room;
    std::vector<AirReading> readings;  // of the 8 h up to the last one, at least one
    double minutes_left = 0;           // of the shift, from the last reading on
    AirPolicy policy;
    MeasuredAir measured;
    std::string at;                    // of the last reading, in site time
};

Result<Content> sound_content(const Common& common) {
    const ContentDirs dirs = resolved(common.asked, common.data);
    Loaded loaded = load_content(dirs.content, dirs.assets, common.data + "/site");
    TRY(refuse_faults(loaded.faults));
    return std::move(loaded.content);
}

Result<RoomFit> fit_of(const Common& common, const std::string& room_id) {
    const auto records = TRY(open_records(common.data));
    TRY(Book::open(*records->db, *records->ledger, records->random));
    const Content content = TRY(sound_content(common));
    const Room* room = content.room(room_id);
    if (room == nullptr) {
        return Error{ErrorKind::absent, "the site has no room \"" + room_id + "\"", "",
                     "name a [[room]] of the site"};
    }
    const auto last = TRY(last_air_reading(*records->db, room_id, ""));
    if (!last) {
        return Error{ErrorKind::refused, "no reading of this room was ever entered", room_id,
                     "enter some at the kiosk, or with holdpin air import"};
    }
    RoomFit fit;
    fit.room = *room;
    fit.policy = content.site.air;
    fit.readings = TRY(air_readings(*records->db, room_id, last->at_ms - kEightHoursMs));
    const Zone zone = TRY(Zone::load(content.site.zone));
    const auto shift = shift_at(content.site.shifts, zone, last->at_ms);
    if (shift) fit.minutes_left = static_cast<double>(shift->end_ms - last->at_ms) / 60'000.0;
    fit.at = local_text(zone.local(last->at_ms));
    const auto measured =
        measured_air(fit.readings, *room, fit.minutes_left, fit.policy.ceiling_ppm);
    if (!measured) {
        return Error{ErrorKind::invalid, "the readings cannot be averaged", room_id, ""};
    }
    fit.measured = *measured;
    return fit;
}

void add_fit(const RoomFit& fit, Json& json) {
    const FittedRoom& fitted = *fit.measured.fit;
    const ShiftForecast& forecast = *fit.measured.forecast;
    json["fitted_readings"] = fitted.readings;
    json["source_lmin"] = fitted.source_lmin.value;
    json["source_low_lmin"] = fitted.source_lmin.low;
    json["source_high_lmin"] = fitted.source_lmin.high;
    json["airflow_m3h"] = fitted.airflow_m3h.value;
    json["airflow_low_m3h"] = fitted.airflow_m3h.low;
    json["airflow_high_m3h"] = fitted.airflow_m3h.high;
    json["scatter_ppm"] = fitted.scatter_ppm;
    json["end_ppm"] = forecast.likely.end_ppm;
    json["end_unfavourable_ppm"] = forecast.unfavourable.end_ppm;
    json["end_mean_8h_ppm"] = forecast.likely_8h_ppm;
    json["end_mean_8h_unfavourable_ppm"] = forecast.unfavourable_8h_ppm;
    if (const auto& minutes = forecast.unfavourable.minutes_to_limit) {
        json["minutes_to_ceiling"] = std::floor(*minutes);
    }
}

Json json_of(const RoomFit& fit) {
    const RollingMean& means = fit.measured.means;
    Json json{{"room", fit.room.id},
              {"at", fit.at},
              {"readings", fit.readings.size()},
              {"mean_15min_ppm", means.mean_15min_ppm},
              {"covered_15min", means.covered_15min},
              {"mean_8h_ppm", means.mean_8h_ppm},
              {"covered_8h_min", means.covered_8h},
              {"minutes_left", fit.minutes_left}};
    if (fit.measured.fit) {
        add_fit(fit, json);
    } else {
        json["no_fit"] = fit.measured.no_fit;
    }
    return json;
}

void tell_fit(const RoomFit& fit) {
    const FittedRoom& fitted = *fit.measured.fit;
    const ShiftForecast& forecast = *fit.measured.forecast;
    say(fmt::format("Fitted to the {} readings of the last hour: source {:.3g} L/min ({:.3g} to "
                    "{:.3g}), airflow {:.0f} m³/h ({:.0f} to {:.0f}); 95 % intervals.",
                    fitted.readings, fitted.source_lmin.value, fitted.source_lmin.low,
                    fitted.source_lmin.high, fitted.airflow_m3h.value, fitted.airflow_m3h.low,
                    fitted.airflow_m3h.high));
    say(fmt::format("In {:.0f} minutes, at the end of the shift: {:.3g} ppm, unfavourable {:.3g} "
                    "ppm; 8-hour mean {:.3g} ppm, unfavourable {:.3g} ppm.",
                    fit.minutes_left, forecast.likely.end_ppm, forecast.unfavourable.end_ppm,
                    forecast.likely_8h_ppm, forecast.unfavourable_8h_ppm));
    if (const auto& minutes = forecast.unfavourable.minutes_to_limit) {
        say(fmt::format("The ceiling of {:g} ppm could be reached in {:.0f} minutes.",
                        fit.policy.ceiling_ppm, std::floor(*minutes)));
    }
    say("A planning estimate: no measurement, no clearance to enter, no exposure record.");
}

void tell(const RoomFit& fit) {
    const RollingMean& means = fit.measured.means;
    say(fmt::format("{}, {} readings in the 8 hours to {}.", fit.room.id, fit.readings.size(),
                    fit.at));
    say(fmt::format("Mean of 15 minutes: {:.3g} ppm, measured in {:.0f} of them. Mean of 8 hours: "
                    "{:.3g} ppm, measured in {:.0f} minutes.",
                    means.mean_15min_ppm, means.covered_15min, means.mean_8h_ppm,
                    means.covered_8h));
    if (fit.measured.fit) {
        tell_fit(fit);
    } else {
        say("No fit: " + fit.measured.no_fit + ".");
    }
}

}  // namespace

int run_air_import(const Common& common, const std::string& file, const std::string& room,
                   const std::string& instrument) {
    const auto text = read_file(file);
    if (!text) {
        complain(text.error());
        return kExitWrongUse;
    }
    if (trimmed(instrument).empty()) {
        complain({ErrorKind::invalid, "the instrument has no name", "--instrument",
                  "write what stands on the meter"});
        return kExitWrongUse;
    }
    RealClock clock;
    SystemRandom random;
    const auto site = open_site(common.data, resolved(common.asked, common.data), clock, random,
                                PinCost::interactive);
    if (!site) return complain(site.error());
    const MeterLog log = read_meter_log(text.value(), site.value()->zone);
    for (const LogFault& fault : log.faults) {
        complain({ErrorKind::invalid, fault.what, fmt::format("{}:{}", file, fault.line),
                  fault.mend});
    }
    if (!log.faults.empty()) return kExitWanting;
    const auto done =
        import_log(*site.value(), log, room, std::string(trimmed(instrument)));
    if (!done) {
        complain(done.error());
        return done.error().kind == ErrorKind::absent ? kExitWrongUse : kExitWanting;
    }
    tell(done.value(), room);
    return kExitFine;
}

int run_air_fit(const Common& common, const std::string& room) {
    const auto fit = fit_of(common, room);
    if (!fit) {
        complain(fit.error());
        return fit.error().kind == ErrorKind::absent ? kExitWrongUse : kExitWanting;
    }
    if (common.json) {
        say_json(json_of(fit.value()));
    } else {
        tell(fit.value());
    }
    return fit.value().measured.fit ? kExitFine : kExitWanting;
}

}  // namespace holdpin
