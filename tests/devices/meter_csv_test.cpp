#include "devices/meter_csv.hpp"

#include <doctest/doctest.h>

#include <algorithm>

using namespace holdpin;

namespace {

Zone chicago() {
    auto zone = Zone::load("America/Chicago");
    REQUIRE(zone.ok());
    return std::move(zone).value();
}

MeterLog read(const std::string& text) { return read_meter_log(text, chicago()); }

// 2026-11-25T11:40:00Z, 05:40 in Chicago.
constexpr std::int64_t kMorning = 1795606800000;

// The only fault of a log with this line after the header.
LogFault fault_of(const std::string& line) {
    const MeterLog log = read("time,ppm\n" + line + "\n");
    REQUIRE(log.faults.size() == 1);
    CHECK(log.faults[0].line == 2);
    CHECK_FALSE(log.faults[0].mend.empty());
    return log.faults[0];
}

bool says(const LogFault& fault, std::string_view words) {
    return fault.what.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a log is read with its zeros, and every number as it was written") {
    const MeterLog log = read(
        "time,ppm\n2026-11-25T05:40:00-06:00,0\n2026-11-25T05:41,0.0\n2026-11-25 05:42:30,12.50\n");
    REQUIRE(log.faults.empty());
    REQUIRE(log.readings.size() == 3);
    CHECK(log.readings[0].read_ms == kMorning);
    CHECK(log.readings[0].ppm == "0");
    CHECK(log.readings[1].read_ms == kMorning + 60'000);
    CHECK(log.readings[1].ppm == "0.0");
    CHECK(log.readings[2].read_ms == kMorning + 150'000);
    CHECK(log.readings[2].ppm == "12.50");
    CHECK(log.readings[2].line == 4);
}

TEST_CASE("an offset, Z and the time of the site name the same instant") {
    for (const char* time : {"2026-11-25T05:40", "2026-11-25T11:40Z", "2026-11-25T11:40:00Z",
                             "2026-11-25T12:40+01:00", "2026-11-25T05:40:00-06:00"}) {
        CAPTURE(time);
        const MeterLog log = read(std::string("time,ppm\r\n") + time + ",3\r\n");
        REQUIRE(log.faults.empty());
        CHECK(log.readings[0].read_ms == kMorning);
    }
}

TEST_CASE("a byte order mark and a last line without its end are taken") {
    const MeterLog log = read("\xEF\xBB\xBFtime,ppm\n2026-11-25T05:40,3");
    CHECK(log.faults.empty());
    CHECK(log.readings.size() == 1);
}

TEST_CASE("another header, no header and a log without a reading are faults of the first line") {
    for (const char* text : {"", "ppm,time\n2026-11-25T05:40,3\n", "time;ppm\n2026-11-25T05:40;3\n",
                             "2026-11-25T05:40,3\n", "time,ppm\n", "Time,ppm\n1,2\n"}) {
        CAPTURE(text);
        const MeterLog log = read(text);
        REQUIRE(log.faults.size() == 1);
        CHECK(log.faults[0].line == 1);
        CHECK_FALSE(log.faults[0].mend.empty());
    }
}

TEST_CASE("what is no time is told") {
    for (const char* time :
         {"", "05:40", "25.11.2026 05:40", "2026-11-25", "2026-13-01T05:40", "2026-11-31T05:40",
          "2026-11-25T24:00", "2026-11-25T05:60", "2026-11-25T05:40:60", "2026-11-25T05:40:1",
          "2026-11-25T05:40Z05:00", "2026-11-25T05:40-6", "2026-11-25T05:40+15:00",
          "2026-11-25T05:40Zulu", "2026-11-25x05:40", " 2026-11-25T05:40", "2026-11-25T05:40 "}) {
        CAPTURE(time);
        fault_of(std::string(time) + ",3");
    }
}

TEST_CASE("what is no level is told, a number below zero among it") {
    for (const char* ppm : {"", "-1", "+1", "1,5", "1e3", ".5", "5.", "n/a", "nan", "3 ppm"}) {
        CAPTURE(ppm);
        fault_of(std::string("2026-11-25T05:40,") + ppm);
    }
    CHECK(says(fault_of("2026-11-25T05:40,100001"), "more than any meter shows"));
}

TEST_CASE("missing cells, further cells, quotes and blank lines are told") {
    CHECK(says(fault_of("2026-11-25T05:40"), "1 cells"));
    CHECK(says(fault_of("2026-11-25T05:40,3,4"), "3 cells"));
    CHECK(says(fault_of("2026-11-25T05:40,\"3\""), "no reading"));
    CHECK(says(fault_of(""), "cells"));
}

TEST_CASE("times go on from line to line, and none comes twice") {
    const MeterLog log = read(
        "time,ppm\n2026-11-25T05:40,3\n2026-11-25T05:40:00,3\n2026-11-25T05:39,4\n"
        "2026-11-25T05:41,5\n");
    REQUIRE(log.faults.size() == 2);
    CHECK(log.faults[0].line == 3);
    CHECK(log.faults[1].line == 4);
    CHECK(says(log.faults[1], "not after that of line 2"));
}

TEST_CASE("all faults are told at once, each with its line") {
    const MeterLog log =
        read("time,ppm\nyesterday,3\n2026-11-25T05:40,x\n2026-11-25T05:41,5\n1,2,3\n");
    std::vector<int> lines;
    for (const LogFault& fault : log.faults) lines.push_back(fault.line);
    CHECK(lines == std::vector<int>{2, 3, 5});
}

// The clocks of Chicago went forward on 2026-03-08 at 02:00 and back on 2026-11-01 at 02:00
// (IANA time zone database).
TEST_CASE("a site time that the clock change leaves out or brings twice needs its offset") {
    CHECK(says(fault_of("2026-03-08T02:30,3"), "leaves this time out"));
    CHECK(says(fault_of("2026-11-01T01:30,3"), "twice"));
    CHECK(says(fault_of("2026-11-01T01:00,3"), "twice"));
    const MeterLog log = read(
        "time,ppm\n2026-11-01T00:59,3\n2026-11-01T01:30-05:00,4\n2026-11-01T01:30-06:00,5\n"
        "2026-11-01T02:00,6\n");
    REQUIRE(log.faults.empty());
    CHECK(log.readings[2].read_ms - log.readings[1].read_ms == 3'600'000);
}
