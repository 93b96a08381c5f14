// Meter logs and the kiosk's own meters: what is entered, and what the readings say.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <tuple>

#include "cli/meter_watch.hpp"
#include "example_site.hpp"
#include "flows/air.hpp"
#include "flows/air_reading.hpp"
#include "hazard/room_air.hpp"
#include "records/records.hpp"
#include "run_program.hpp"

using namespace holdpin;

namespace {

// The words of `holdpin air`, with standard error, and its exit code.
std::pair<std::string, int> air(const std::string& words) {
    const Ran ran = run("air " + words, true);
    return {ran.said, ran.code};
}

bool has(const std::string& text, std::string_view words) {
    return text.find(words) != std::string::npos;
}

// The example site and a log beside it, of a morning that is over on every machine that runs this.
struct Hall {
    ExampleSite example;
    std::string log = example.temp / "log.csv";

    Hall() { REQUIRE(example.init().ok()); }
    void write(const std::string& lines) {
        REQUIRE(write_file(log, "time,ppm\n" + lines).ok());
    }
    std::pair<std::string, int> import(const std::string& room = "dock-hall",
                                       const std::string& instrument = "CO-3") {
        return air("import " + log + " --room " + room + " --instrument " + instrument +
                   " --data " + example.data);
    }
    std::pair<std::string, int> fit(const std::string& more = "") {
        return air("fit --room dock-hall --data " + example.data + more);
    }
    std::vector<Entry> entries_of(const std::string& kind) {
        auto site = example.open();
        REQUIRE(site.ok());
        return entries_in(*site.value(), kind);
    }
    static std::vector<Entry> entries_in(OpenSite& site, const std::string& kind) {
        std::vector<Entry> found;
        const auto last = static_cast<std::int64_t>(site.ledger->size());
        REQUIRE(site.ledger->each(1, last, [&](const Entry& entry) -> Result<void> {
            if (entry.kind == kind) found.push_back(entry);
            return {};
        }).ok());
        return found;
    }
};

// Readings of the dock hall every two minutes while an engine gives off 20 L/min, by the balance of
// one room, with a scatter of a tenth of a ppm.
std::string morning() {
    RoomAir room;
    room.volume_m3 = 9000;
    room.airflow_m3h = 12'000;
    room.source_lmin = 20;
    const AirCourse course = air_course(room).value();
    std::string lines;
    for (int minute = 0; minute <= 60; minute += 2) {
        const double scatter = (minute / 2 % 3 - 1) * 0.1;
        lines += fmt::format("2020-01-15T{:02}:{:02}:00-06:00,{:.2f}\n", 8 + minute / 60,
                             minute % 60, std::max(0.0, course.at(minute) + scatter));
    }
    return lines;
}

}  // namespace

TEST_CASE("every reading of a log is entered with its time and place, zeros among them") {
    Hall hall;
    hall.write("2020-01-15T08:00:00-06:00,0\n2020-01-15T08:01:00-06:00,12.50\n");
    const auto [said, code] = hall.import();
    CHECK(code == 0);
    CHECK(has(said, "2 readings are entered"));
    const auto entries = hall.entries_of("air-read");
    REQUIRE(entries.size() == 2);
    CHECK(entries[0].by.empty());
    CHECK(entries[0].data == nlohmann::json{{"room", "dock-hall"},
                                            {"ppm", "0"},
                                            {"instrument", "CO-3"},
                                            {"source", "csv"},
                                            {"present", nlohmann::json::array()},
                                            {"read_ms", 1579096800000}});
    CHECK(entries[1].data["ppm"] == "12.50");
}

TEST_CASE("a second import of the same log adds nothing, a longer log adds what is new") {
    Hall hall;
    hall.write("2020-01-15T08:00:00-06:00,0\n");
    CHECK(hall.import().second == 0);
    CHECK(has(hall.import().first, "0 readings are entered as exposure records; 1 were there"));
    hall.write("2020-01-15T08:00:00-06:00,0.0\n2020-01-15T08:01:00-06:00,1\n");
    CHECK(has(hall.import().first, "1 readings are entered as exposure records; 1 were there"));
    CHECK(has(hall.import("dock-hall", "CO-4").first, "2 readings are entered"));
    CHECK(hall.entries_of("air-read").size() == 4);
}

TEST_CASE("another value for a reading that is known stops the whole import") {
    Hall hall;
    hall.write("2020-01-15T08:00:00-06:00,5\n");
    CHECK(hall.import().second == 0);
    hall.write("2020-01-15T07:59:00-06:00,5\n2020-01-15T08:00:00-06:00,6\n");
    const auto [said, code] = hall.import();
    CHECK(code == 1);
    CHECK(has(said, "it stands in the records with 5 ppm, not 6"));
    CHECK(hall.entries_of("air-read").size() == 1);
}

TEST_CASE("a log with a fault, a reading from the future and a room that is none enter nothing") {
    Hall hall;
    hall.write("2020-01-15T08:00:00-06:00,5\n2020-01-15T08:01:00-06:00,-1\nnow,3\n");
    auto [said, code] = hall.import();
    CHECK(code == 1);
    CHECK(has(said, "log.csv:3: \"-1\" is no reading in ppm"));
    CHECK(has(said, "log.csv:4: \"now\" is no time"));
    hall.write("2999-01-15T08:00:00-06:00,5\n");
    std::tie(said, code) = hall.import();
    CHECK(code == 1);
    CHECK(has(said, "lies in the future"));
    hall.write("2020-01-15T08:00:00-06:00,5\n");
    CHECK(hall.import("attic").second == 2);
    CHECK(hall.import("dock-hall", "' '").second == 2);
    CHECK(air("import /no/such.csv --room dock-hall --instrument A").second == 2);
    CHECK(air("import " + hall.log + " --room dock-hall").second == 2);
    CHECK(hall.entries_of("air-read").empty());
}

TEST_CASE("a reading at the ceiling raises the air alarm, once, and no low one ends it") {
    Hall hall;
    hall.write(
        "2020-01-15T08:00:00-06:00,199.9\n2020-01-15T08:01:00-06:00,200\n"
        "2020-01-15T08:02:00-06:00,230.5\n2020-01-15T08:03:00-06:00,0\n");
    CHECK(has(hall.import().first, "the air alarm of dock-hall stands"));
    const auto raised = hall.entries_of("air-alarm-raised");
    REQUIRE(raised.size() == 1);
    CHECK(raised[0].data["ppm"] == "230.5");
    hall.write("2020-01-15T08:05:00-06:00,300\n");
    CHECK_FALSE(has(hall.import().first, "air alarm"));
    CHECK(hall.entries_of("air-alarm-raised").size() == 1);
    CHECK(hall.entries_of("air-alarm-lifted").empty());
}

TEST_CASE("source and airflow that made the readings lie in the intervals of the fit") {
    Hall hall;
    hall.write(morning());
    REQUIRE(hall.import().second == 0);
    const auto [said, code] = hall.fit(" --json");
    REQUIRE_MESSAGE(code == 0, said);
    const auto json = nlohmann::json::parse(said);
    CHECK(json["readings"] == 31);
    CHECK(json["fitted_readings"] == 31);
    CHECK(json["source_low_lmin"] < 20);
    CHECK(json["source_high_lmin"] > 20);
    CHECK(json["airflow_low_m3h"] < 12'000);
    CHECK(json["airflow_high_m3h"] > 12'000);
    // The early shift ends at 14:00; the last reading is of 09:00.
    CHECK(json["minutes_left"] == 300);
    CHECK(json["covered_15min"] == 15);
    CHECK(json["covered_8h_min"] == 60);
    // 20 L/min in 200 m³/min come to 100 ppm, less what is still to come after six hours.
    CHECK(json["end_ppm"].get<double>() == doctest::Approx(100).epsilon(0.02));
    // Of 8 h, an hour of build-up is measured, five are forecast and two were not measured.
    CHECK(json["end_mean_8h_ppm"].get<double>() == doctest::Approx(65.6).epsilon(0.02));
    CHECK(json["end_mean_8h_unfavourable_ppm"] >= json["end_mean_8h_ppm"]);
    CHECK(has(hall.fit().first, "no measurement, no clearance to enter"));
}

TEST_CASE("where readings do not tell a room, the means are given and the reason for no fit") {
    Hall hall;
    CHECK(hall.fit().second == 1);
    hall.write("2020-01-15T08:00:00-06:00,10\n2020-01-15T08:15:00-06:00,20\n");
    REQUIRE(hall.import().second == 0);
    const auto [said, code] = hall.fit(" --json");
    CHECK(code == 1);
    const auto json = nlohmann::json::parse(said);
    CHECK(json["mean_15min_ppm"] == 15);
    CHECK(json["no_fit"] == "the last hour has fewer than 5 readings");
    CHECK_FALSE(json.contains("source_lmin"));
    CHECK(air("fit --room attic --data " + hall.example.data).second == 2);
}

TEST_CASE("a meter that the kiosk reads enters each reading once, and an alarm with it") {
    Hall hall;
    auto opened = hall.example.open();
    REQUIRE(opened.ok());
    OpenSite& site = *opened.value();
    site.content.site.meters = {RoomMeter{"dock-hall", "CO-9", "192.0.2.40", 502, 1, 0, false, 1}};
    MemoryMeter* meter = nullptr;
    MeterWatch watch(site.world(), [&](const RoomMeter&) {
        auto twin = std::make_unique<MemoryMeter>();
        meter = twin.get();
        return twin;
    });
    REQUIRE(meter != nullptr);
    CHECK_FALSE(watch.enter_new());
    meter->give(0, kExampleStart - 60'000);
    CHECK(watch.enter_new());
    CHECK_FALSE(watch.enter_new());
    meter->fail("no answer", kExampleStart - 30'000);
    CHECK_FALSE(watch.enter_new());
    meter->give(0.1 * 3, kExampleStart - 20'000);
    CHECK(watch.enter_new());
    meter->give(205, kExampleStart - 10'000);
    CHECK(watch.enter_new());
    const auto read = Hall::entries_in(site, "air-read");
    REQUIRE(read.size() == 3);
    CHECK(read[0].data["ppm"] == "0");
    CHECK(read[0].data["source"] == "modbus");
    CHECK(read[1].data["ppm"] == "0.3");
    CHECK(Hall::entries_in(site, "air-alarm-raised").size() == 1);
    CHECK(air_alarm_of(*site.db, "dock-hall").value().has_value());
}

TEST_CASE("a meter that gave nothing for three minutes is silent since its last reading") {
    Hall hall;
    auto opened = hall.example.open();
    REQUIRE(opened.ok());
    OpenSite& site = *opened.value();
    site.content.site.meters = {RoomMeter{"dock-hall", "CO-9", "192.0.2.40", 502, 1, 0, false, 1}};
    World world = site.world();
    const Session session(site.world());
    CHECK(silent_meters(session, "dock-hall").value() == "Meter CO-9: no reading yet");
    CHECK(silent_meters(session, "hall-2").value().empty());
    REQUIRE(enter_device_reading(world, "dock-hall", 0, "CO-9", kExampleStart).ok());
    CHECK(silent_meters(session, "dock-hall").value().empty());
    hall.example.clock.pass(180'000);
    CHECK(silent_meters(session, "dock-hall").value().empty());
    hall.example.clock.pass(1);
    CHECK(has(silent_meters(session, "dock-hall").value(), "Meter CO-9 silent since"));
    CHECK(has(silent_meters(session, "dock-hall").value(), "05:40"));
}

TEST_CASE("the last five readings of an hour are fitted, four and older ones are not") {
    Room room;
    room.volume_m3 = 9000;
    std::vector<AirReading> readings;
    for (const double ppm : {0.0, 40.0, 60.0, 70.0}) {
        AirReading reading;
        reading.ppm = ppm;
        reading.at_ms = static_cast<std::int64_t>(readings.size()) * 600'000;
        readings.push_back(reading);
    }
    CHECK_FALSE(measured_air({}, room, 60, 200));
    CHECK_FALSE(measured_air(readings, room, 60, 200)->forecast);
    readings.push_back({0, 75.0, 2'400'000, "", ""});
    const auto fitted = measured_air(readings, room, 60, 200);
    REQUIRE(fitted->forecast);
    CHECK(fitted->fit->readings == 5);
    CHECK(fitted->forecast->likely.end_ppm == doctest::Approx(80).epsilon(0.02));
    readings.push_back({0, 78.0, 5'400'000, "", ""});
    CHECK_FALSE(measured_air(readings, room, 60, 200)->forecast);
}
