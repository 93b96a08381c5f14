#include "flows/air_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/text.hpp"
#include "records/records.hpp"

namespace holdpin {
namespace {

// What the records hold of some rooms since a time, by room, instrument and time.
using Known = std::map<std::tuple<std::string, std::string, std::int64_t>, double>;

Result<Known> known_readings(Database& db, const std::vector<MeterReading>& readings) {
    std::map<std::string, std::int64_t> first;
    for (const MeterReading& reading : readings) {
        const auto [at, is_new] = first.emplace(reading.room, reading.read_ms);
        if (!is_new) at->second = std::min(at->second, reading.read_ms);
    }
    Known known;
    for (const auto& [room, from_ms] : first) {
        for (const AirReading& reading : TRY(air_readings(db, room, from_ms))) {
            known[{room, reading.instrument, reading.at_ms}] = reading.ppm;
        }
    }
    return known;
}

Error refused(const MeterReading& reading, std::string what, std::string mend) {
    return {ErrorKind::refused, std::move(what),
            fmt::format("{}, {}", reading.instrument, utc_text(reading.read_ms)), std::move(mend)};
}

Result<double> checked_ppm(const World& world, const MeterReading& reading) {
    const double ppm = TRY(parse_decimal(reading.ppm));
    if (ppm < 0) {
        return refused(reading, "a reading cannot be below zero", "set the meter to zero outdoors");
    }
    if (world.content.room(reading.room) == nullptr) {
        return Error{ErrorKind::absent, "the site has no room \"" + reading.room + "\"", "",
                     "name a [[room]] of the site"};
    }
    if (reading.read_ms > world.clock.now_ms()) {
        return refused(reading, "the reading lies in the future",
                       "look at the clock of the meter and at the offset of its times");
    }
    return ppm;
}

Result<Fact> reading_fact(const World& world, const MeterReading& reading) {
    Fact fact;
    fact.kind = "air-read";
    fact.data = {{"room", reading.room},
                 {"ppm", reading.ppm},
                 {"instrument", reading.instrument},
                 {"source", reading.source},
                 {"present", TRY(people_in(world.book.db(), reading.room, reading.read_ms))},
                 {"read_ms", reading.read_ms}};
    return fact;
}

}  // namespace

Result<bool> raises_alarm(const World& world, const std::string& room, double ppm) {
    const double ceiling = world.content.site.air.ceiling_ppm;
    if (ceiling <= 0 || ppm < ceiling) return false;
    return !TRY(air_alarm_of(world.book.db(), room)).has_value();
}

Result<Fact> air_alarm_fact(const World& world, const AlarmRaised& raised) {
    Fact fact;
    fact.kind = "air-alarm-raised";
    if (!raised.by.empty()) fact.by = {raised.by};
    const auto present = TRY(people_in(world.book.db(), raised.room, world.clock.now_ms()));
    fact.data = {{"room", raised.room},
                 {"cause", std::string(name_of(raised.cause))},
                 {"present", present}};
    if (!raised.ppm.empty()) fact.data["ppm"] = raised.ppm;
    return fact;
}

Result<ReadingsEntered> enter_device_readings(World& world,
                                              const std::vector<MeterReading>& readings) {
    ReadingsEntered done;
    std::vector<Fact> facts;
    std::map<std::string, std::pair<double, std::string>> highest;  // by room, what raises an alarm
    Known known = TRY(known_readings(world.book.db(), readings));
    for (const MeterReading& reading : readings) {
        const double ppm = TRY(checked_ppm(world, reading));
        const auto [at, is_new] =
            known.try_emplace({reading.room, reading.instrument, reading.read_ms}, ppm);
        if (!is_new && at->second != ppm) {
            return refused(reading,
                           fmt::format("it stands in the records with {:g} ppm, not {}", at->second,
                                       reading.ppm),
                           "nothing was entered; look which of the two is the meter's");
        }
        if (!is_new) {
            ++done.known;
            continue;
        }
        facts.push_back(TRY(reading_fact(world, reading)));
        auto& top = highest[reading.room];
        const bool is_top = top.second.empty() || ppm > top.first;
        if (is_top && TRY(raises_alarm(world, reading.room, ppm))) top = {ppm, reading.ppm};
    }
    done.entered = facts.size();
    for (const auto& [room, top] : highest) {
        if (top.second.empty()) continue;
        facts.push_back(
            TRY(air_alarm_fact(world, {room, AlarmCause::reading, top.second, ""})));
        done.alarm = true;
    }
    if (!facts.empty()) TRY(world.book.enter(std::move(facts)));
    return done;
}

Result<ReadingsEntered> enter_device_reading(World& world, const std::string& room, double ppm,
                                             const std::string& instrument,
                                             std::int64_t read_ms) {
    // Six digits are more than any meter has; without them a scale of 0.1 would leave a long tail.
    return enter_device_readings(
        world, {{room, fmt::format("{:.6g}", ppm), instrument, "modbus", read_ms}});
}

}  // namespace holdpin
