// A small site with records of every sort, and a binder of it in a folder that goes away again.
#pragma once

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "binder/binder.hpp"
#include "binder/csv.hpp"
#include "ledger/sealer.hpp"
#include "records/book.hpp"
#include "store/tables.hpp"
#include "support/temp_dir.hpp"

namespace holdpin {

// 2026-11-25T11:40:00Z, 05:40 in Chicago (UTC-6 in winter).
inline constexpr std::int64_t kBound = 1795606800000;
inline constexpr std::int64_t kDay = 86'400'000;

// Two classes with a topic in common: a scrubber, and a lift truck to which truck law applies.
inline Content small_content() {
    Content content;
    content.site.id = "ash-lane";
    content.site.region = "US";
    content.site.air.footing = "niosh-co";
    content.site.cylinders.footing = "osha-110-f4";
    for (const auto& [plate, machine_class] : {std::pair("SW-14", "scrubber"), {"LT-2", "truck"}}) {
        Machine machine;
        machine.plate = plate;
        machine.machine_class = machine_class;
        content.site.machines.push_back(machine);
    }
    const auto footing = [&](const char* id, FootingKind kind, bool trucks_only) {
        content.pack.footings.push_back(
            {id, kind, trucks_only, "US", "R", {{{"en", std::string("Source of ") + id}}}});
    };
    for (const char* id : {"osha-178-q7", "osha-178-q1", "osha-178-p1", "osha-178-l",
                           "osha-178-l2", "osha-178-l4", "osha-178-l3"}) {
        footing(id, FootingKind::law, true);
    }
    footing("osha-147", FootingKind::law, false);
    footing("niosh-co", FootingKind::guidance, false);
    footing("osha-110-f4", FootingKind::law, false);
    footing("site-policy", FootingKind::site, false);
    for (const char* id : {"scrubber", "truck"}) {
        MachineClass machine_class;
        machine_class.id = id;
        machine_class.name.by_language = {{"en", std::string("A ") + id}, {"es", "Una"}};
        machine_class.short_name.by_language = {{"en", id}};
        machine_class.is_truck = machine_class.id == "truck";
        Topic controls;
        controls.id = "controls";
        controls.name.by_language = {{"en", "Controls; levers, pedals"}};
        controls.footing = "osha-178-l3";
        machine_class.topics.push_back(controls);
        content.pack.classes.push_back(machine_class);
    }
    return content;
}

struct Bound {
    HandClock clock{kBound};
    SeededRandom random{7};
    Zone zone = Zone::load("America/Chicago").value();
    KioskKey key = kiosk_key_of(Bytes(32, 5)).value();
    std::unique_ptr<Database> db = Database::open(":memory:", {}).value();
    std::unique_ptr<Ledger> ledger =
        Ledger::open(*db, clock, random, {"ash-lane", key.kiosk_id(), zone}).value();
    std::unique_ptr<Book> book = Book::open(*db, *ledger, random).value();
    Sealer sealer{*db, *ledger, clock, {key, "", nullptr}};
    Content content = small_content();
    std::vector<BinderWriter> writers;
    TempDir temp;
    const std::filesystem::path& dir = temp.path();

    Bound() {
        record();
        REQUIRE(sealer.seal().ok());
    }

    std::int64_t enter(const Fact& fact) {
        const auto entry = book->enter(fact);
        if (!entry) FAIL(entry.error().sentence());
        return entry.value().n;
    }
    std::string hidden(const char* text, const char* about) {
        return keep_private(*db, random, text, about).value();
    }
    std::string out() const { return temp / "out"; }
    Result<BinderSummary> make(const BinderScope& scope = {}, const std::string& to = "",
                               const BinderProgress& progress = nullptr) {
        return make_binder({*db, *ledger, content, zone, key, clock.now_ms(), writers}, scope,
                           to.empty() ? out() : to, progress);
    }
    void made(const BinderScope& scope = {}) {
        const auto summary = make(scope);
        if (!summary) FAIL(summary.error().sentence());
    }
    std::string file(const std::string& name) const {
        const auto text = read_file(out() + "/" + name);
        return text ? text.value() : "(no file " + name + ")";
    }
    std::vector<CsvRow> table(const std::string& name) const {
        return read_csv(file("tables/" + name + ".csv")).value();
    }
    std::string cell(const std::string& name, std::size_t row, const std::string& column) const {
        const auto rows = table(name);
        if (row >= rows.size()) return "(no such row)";
        for (std::size_t i = 0; i < rows[0].cells.size(); ++i) {
            if (rows[0].cells[i] == column) return rows[row].cells[i];
        }
        return "(no such column)";
    }

  private:
    std::int64_t finding_ = 0;  // of SW-14
    void record();
    void record_people();
    void record_work();
    void record_room();
};

inline void Bound::record_people() {
    using nlohmann::json;
    const auto enrol = [&](const char* id, const char* name, const char* listed) {
        const std::string hash = hidden(name, id);
        enter({"person-enrolled", {}, "", 0,
               {{"person", id}, {"name", hash}, {"badge", std::string("H-") + id},
                {"language", "en"}, {"duties", {"operator", "trainer"}},
                {"endorsements", json::array()}, {"extension", "+49 1"}, {"competence", ""},
                {"listed_until", listed}}});
        return hash;
    };
    const std::string ann = enrol("p-ann", "=Ann, \"the lead\"", "2027-06-30");
    enrol("p-ben", "Ben\nQuispe-Morán", "");
    for (const char* plate : {"SW-14", "LT-2"}) {
        enter({"machine-enrolled", {}, "", 0,
               {{"machine", plate},
                {"class", std::string(plate) == "LT-2" ? "truck" : "scrubber"},
                {"room", "hall"}, {"hours", "1284.6"}, {"fuel", 80}, {"service_every", "250.0"},
                {"service_done", "1200.0"}, {"inspection_due", "2027-03-01"},
                {"approved_as_truck", false}}});
    }
    const json signature{{"name", ann}, {"meaning", "evaluate"}, {"language", "en"}};
    enter({"guide-read", {"p-ben"}, "d0", 0,
           {{"person", "p-ben"}, {"guide", "hopper"}, {"language", "es"}}});
    enter({"quiz-finished", {"p-ben"}, "d2", 0,
           {{"person", "p-ben"}, {"quiz", "hopper"}, {"guide", "hopper"}, {"topics", {"controls"}},
            {"asked", 6}, {"right", 5}, {"must_pass_wrong", 0}, {"passed", true},
            {"signature", signature}}});
    enter({"practised", {"p-ann"}, "", 0,
           {{"person", "p-ben"}, {"class", "truck"}, {"topics", {"controls"}},
            {"trainee_signed_ms", kBound - 1000}, {"signature", signature}}});
    enter({"evaluated", {"p-ann"}, "", 0,
           {{"person", "p-ben"}, {"class", "truck"}, {"topics", {"controls"}}, {"passed", true},
            {"text", hidden("-cmd|' /C calc'!A0", "p-ben")}, {"signature", signature}}});
    enter({"authorised", {"p-ann"}, "", 0,
           {{"person", "p-ben"}, {"class", "truck"}, {"rooms", {"hall"}},
            {"shifts", json::array()}, {"signature", signature}}});
}

inline void Bound::record_work() {
    using nlohmann::json;
    const json signature{{"name", hidden("Ben Q.", "p-ben")}, {"meaning", "walked-and-read"},
                         {"language", "es"}};
    for (const char* plate : {"SW-14", "LT-2"}) {
        const std::int64_t finding =
            enter({"finding-entered", {"p-ben"}, "d1", 0,
                   {{"machine", plate}, {"point", "brake"}, {"reading", "creeps"},
                    {"outcome", "stop"}, {"hazard", "brake"}, {"source", "round"}}});
        if (finding_ == 0) finding_ = finding;
        const std::int64_t round =
            enter({"round-signed", {"p-ben"}, "d1", 0,
                   {{"machine", plate}, {"round", "before"}, {"round_kind", "before"},
                    {"purpose", "before"}, {"takeover", false}, {"started_ms", clock.now_ms()},
                    {"shift_end_ms", clock.now_ms() + 3'600'000}, {"findings", 1},
                    {"hours", "1284.9"}, {"signature", signature},
                    {"readings",
                     {{{"point", "brake"}, {"reading", "creeps"}, {"at_ms", clock.now_ms()},
                       {"finding", finding}},
                      {{"point", "hours"}, {"value", "1284.9"}, {"at_ms", clock.now_ms()}}}}}});
        enter({"repair-stated", {"p-ann"}, "", finding,
               {{"machine", plate}, {"findings", {finding}}, {"stated", {"place", "parts"}},
                {"text", hidden("New pads, \"set\"", "p-ann")}}});
        enter({"returned-to-service", {"p-ann"}, "", finding,
               {{"machine", plate}, {"findings", {finding}}}});
        enter({"release-given", {"p-ben"}, "", 0,
               {{"machine", plate}, {"person", "p-ben"}, {"room", "hall"},
                {"until_ms", clock.now_ms() + 3'600'000}, {"round", round},
                {"limits", json::array()}, {"air_until_ms", clock.now_ms() + 1'800'000},
                {"rooms", {"hall", "dock"}}, {"shifts", {"early"}}}});
    }
    enter({"disagreement-noted", {"p-ben"}, "", finding_,
           {{"text", hidden("It held for me", "p-ben")}}});
    enter({"override-placed", {"p-ann"}, "", 0,
           {{"machine", "SW-14"}, {"code", "service-overdue"}, {"until_ms", kBound + kDay},
            {"second", "p-ben"}, {"second_name", hidden("Ben Q.", "p-ben")},
            {"text", hidden("@once", "p-ann")}}});
}

inline void Bound::record_room() {
    enter({"lockout-placed", {"p-ann"}, "", 0, {{"machine", "SW-14"}}});
    enter({"air-read", {}, "", 0,
           {{"room", "hall"}, {"ppm", "0"}, {"instrument", "CO-3"}, {"source", "csv"},
            {"present", {"p-ben"}}, {"read_ms", clock.now_ms() - 1000}}});
    enter({"arm-alone-assessed", {"p-ann"}, "", 0,
           {{"machine_class", "scrubber"}, {"text", hidden("In the red binder", "p-ann")}}});
    enter({"lock-removed-for-absent", {"p-ann", "p-cec"}, "", 0,
           {{"machine", "SW-14"}, {"device", "L-07"}, {"owner", "p-ben"}}});
    for (const char* kind : {"zone-left", "engine-stopped", "rinse-left"}) {
        enter({kind, {"p-ann"}, "", 0, {{"machine", "SW-14"}}});
    }
    enter({"symptoms-reported", {}, "", 0,
           {{"room", "hall"}, {"count", 2}, {"source", "help"}}});
    for (const bool found : {false, true}) {
        enter({"heads-counted", {"p-ann"}, "", 0,
               {{"room", "hall"}, {"seen", {found ? "p-ben" : "p-ann"}},
                {"missing", {found ? "others" : "p-ben"}}}});
    }
    enter({"cylinder-received", {"p-ann"}, "", 0,
           {{"serial", "A1003"}, {"made", "2021-06"}, {"stamps", {"2024-05:visual"}},
            {"gas_kg", "15.2"}, {"due", "2033-02"}}});
    enter({"work-opened", {"p-ann"}, "", 0, {{"machine", "SW-14"}, {"work", "drain"}}});
    enter({"tag-issued", {}, "", 0, {{"machine", "SW-14"}, {"code", "K7M4QX"}}});
    enter({"sign-refused", {}, "", 0, {{"person", "p-ben"}, {"failures", 2}}});
}

// Three days, a seal at the end of each.
inline void Bound::record() {
    record_people();
    REQUIRE(sealer.seal().ok());
    clock.pass(kDay);
    record_work();
    REQUIRE(sealer.seal().ok());
    clock.pass(kDay);
    record_room();
}

}  // namespace holdpin
