// A meter reading becomes an exposure record, zero or not, with place, instrument, time and who was
// there; what it means for the room follows in the same transaction. One at or above the ceiling
// raises the air alarm, unless one stands already. Nothing here ends an alarm: that takes a person.
// A reading is known by room, instrument and time, and is never entered twice.
#pragma once

#include <string>
#include <vector>

#include "flows/world.hpp"
#include "rules/air_alarm.hpp"

namespace holdpin {

struct MeterReading {
    std::string room;
    std::string ppm;  // a decimal number, as it comes to stand in the entry
    std::string instrument;
    std::string source;        // "csv", "modbus"
    std::int64_t read_ms = 0;  // not later than now
};

struct ReadingsEntered {
    std::size_t entered = 0;
    std::size_t known = 0;  // entered before, the same value
    bool alarm = false;     // raised by one of them
};

// All or none, in one transaction. Refused: a reading from the future, a room or a number that is
// none, and another value for a reading that is known.
Result<ReadingsEntered> enter_device_readings(World& world,
                                              const std::vector<MeterReading>& readings);

// One that the kiosk took from a meter itself.
Result<ReadingsEntered> enter_device_reading(World& world, const std::string& room, double ppm,
                                             const std::string& instrument, std::int64_t read_ms);

// Whether the site's ceiling is reached and no alarm stands yet.
Result<bool> raises_alarm(const World& world, const std::string& room, double ppm);

struct AlarmRaised {
    std::string room;
    AlarmCause cause = AlarmCause::reading;
    std::string ppm;  // of a reading; else empty
    std::string by;   // empty: nobody, or nobody who is to be named
};
// Who has a machine out in the room comes with it: those are to be counted.
Result<Fact> air_alarm_fact(const World& world, const AlarmRaised& raised);

}  // namespace holdpin
