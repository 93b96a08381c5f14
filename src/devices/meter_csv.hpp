// The log of a carbon monoxide meter as a table, read strictly: see FORMAT.md. Every fault comes
// with its line and how to mend it, and one fault makes the whole log unusable: half a log would
// look like a whole one. Zeros are readings and are kept. The table says nothing of room or
// instrument.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/local_time.hpp"

namespace holdpin {

struct LogReading {
    int line = 0;
    std::int64_t read_ms = 0;  // UTC
    std::string ppm;           // as it was written, a decimal number from 0 to 100,000
};

struct LogFault {
    int line = 0;
    std::string what;
    std::string mend;
};

struct MeterLog {
    std::vector<LogReading> readings;  // each later than the one before
    std::vector<LogFault> faults;      // not empty: do not use the readings
};

// Times without an offset are those of `zone`.
MeterLog read_meter_log(std::string_view text, const Zone& zone);

}  // namespace holdpin
