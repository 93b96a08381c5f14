#include "records/records.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "records/lockout.hpp"
#include "records/privacy.hpp"
#include "records/works.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

std::vector<std::string> list_of(const std::string& json) {
    const auto parsed = nlohmann::json::parse(json, nullptr, false);
    return parsed.is_array() ? parsed.get<std::vector<std::string>>() : std::vector<std::string>();
}

std::optional<Date> date_of(const std::string& text) {
    const auto parsed = parse_date(text);
    return parsed.ok() ? std::optional(parsed.value()) : std::nullopt;
}

Result<Person> person_of(Database& db, const Query& row) {
    Person person;
    person.id = row.text(0);
    person.name = TRY(private_text(db, row.text(1))).value_or(std::string(kErasedName));
    person.badge = row.text(2);
    person.language = row.text(3);
    for (const auto& name : list_of(row.text(4))) {
        if (const auto duty = duty_named(name)) person.duties.push_back(*duty);
    }
    person.endorsements = list_of(row.text(5));
    person.extension = row.text(6);
    person.competence = TRY(private_text(db, row.text(7))).value_or("");
    person.listed_until = date_of(row.text(8));
    return person;
}

constexpr std::string_view kPersonColumns =
    "SELECT id, name_hash, badge, language, duties, endorsements, extension, competence, "
    "listed_until FROM s_person";

Result<std::optional<Person>> one_person(Database& db, std::string_view where,
                                         std::string_view value) {
    Query query = db.query(std::string(kPersonColumns) + std::string(where));
    query.bind(value);
    if (!TRY(query.next())) return std::optional<Person>();
    return std::optional(TRY(person_of(db, query)));
}

constexpr std::string_view kFindingColumns =
    "SELECT entry, machine, point, reading, outcome, hazard, at_ms, by, source, open, allowed, "
    "allowed_until, repaired, rechecked, text_hash, told FROM s_finding";

FindingRow finding_of(const Query& row) {
    FindingRow out;
    out.finding.entry = row.integer(0);
    out.machine = row.text(1);
    out.finding.point = row.text(2);
    out.finding.reading = row.text(3);
    out.finding.outcome = outcome_named(row.text(4)).value_or(Outcome::stop);
    out.finding.hazard = hazard_named(row.text(5)).value_or(Hazard::none);
    out.finding.at_ms = row.integer(6);
    out.finding.by = row.text(7);
    out.source = row.text(8);
    out.open = row.integer(9) != 0;
    out.finding.allowed = row.integer(10) != 0;
    out.finding.allowed_until_ms = row.integer(11);
    out.finding.repaired = row.integer(12);
    out.finding.rechecked = row.integer(13);
    out.finding.text_hash = row.text(14);
    out.told = row.integer(15) != 0;
    return out;
}

Result<std::vector<FindingRow>> findings_where(Database& db, std::string_view where,
                                               std::string_view value) {
    Query query = db.query(std::string(kFindingColumns) + std::string(where));
    if (!value.empty()) query.bind(value);
    std::vector<FindingRow> rows;
    while (TRY(query.next())) rows.push_back(finding_of(query));
    return rows;
}

Result<std::optional<SignedRound>> last_round(Database& db, std::string_view plate) {
    Query query = db.query(
        "SELECT entry, person, digest, signed_ms, shift_end, full, used, voided FROM s_round "
        "WHERE machine=? AND kind='before' ORDER BY entry DESC LIMIT 1");
    query.bind(plate);
    if (!TRY(query.next())) return std::optional<SignedRound>();
    SignedRound round;
    round.entry = query.integer(0);
    round.person = query.text(1);
    round.digest = query.text(2);
    round.signed_ms = query.integer(3);
    round.shift_end_ms = query.integer(4);
    round.full = query.integer(5) != 0;
    round.used = query.integer(6) != 0;
    round.voided = query.integer(7) != 0;
    return std::optional(round);
}

Result<std::optional<ReleaseOut>> release_out(Database& db, std::string_view plate) {
    Query query = db.query(
        "SELECT entry, person, from_ms, until_ms, room FROM s_release "
        "WHERE machine=? AND returned=0 ORDER BY entry DESC LIMIT 1");
    query.bind(plate);
    if (!TRY(query.next())) return std::optional<ReleaseOut>();
    return std::optional(ReleaseOut{query.integer(0), query.text(1), query.integer(2),
                                    query.integer(3), query.text(4)});
}

Result<std::vector<Override>> overrides_of(Database& db, std::string_view plate) {
    Query query = db.query("SELECT code, until_ms FROM s_override WHERE machine=? ORDER BY entry");
    query.bind(plate);
    std::vector<Override> overrides;
    while (TRY(query.next())) {
        if (const auto code = hold_named(query.text(0))) {
            overrides.push_back({*code, query.integer(1)});
        }
    }
    return overrides;
}

Result<void> read_lock(Database& db, std::string_view plate, MachineState& state) {
    Query query = db.query(
        "SELECT person, entry FROM s_lock WHERE machine=? "
        "UNION ALL SELECT lead, entry FROM s_lockout WHERE machine=?");
    query.bind(plate).bind(plate);
    if (TRY(query.next())) {
        state.locked_by = query.text(0);
        state.locked_entry = query.integer(1);
    }
    return {};
}

}  // namespace

Result<std::vector<Person>> people(Database& db) {
    Query query = db.query(kPersonColumns);
    std::vector<Person> all;
    while (TRY(query.next())) all.push_back(TRY(person_of(db, query)));
    std::sort(all.begin(), all.end(),
              [](const Person& a, const Person& b) { return a.name < b.name; });
    return all;
}

Result<std::optional<Person>> person_with(Database& db, std::string_view id) {
    return one_person(db, " WHERE id=?", id);
}

Result<std::optional<Person>> person_with_badge(Database& db, std::string_view badge) {
    // Whoever has left has none.
    if (badge.empty()) return std::optional<Person>();
    return one_person(db, " WHERE badge=?", badge);
}

Result<std::string> name_hash_of(Database& db, std::string_view person) {
    Query query = db.query("SELECT name_hash FROM s_person WHERE id=?");
    query.bind(person);
    return TRY(query.next()) ? query.text(0) : std::string();
}

Result<TopicRecords> topics_of(Database& db, std::string_view person) {
    Query query = db.query(
        "SELECT topic, instructed, practised, evaluated, refresher FROM s_topic WHERE person=?");
    query.bind(person);
    TopicRecords records;
    while (TRY(query.next())) {
        records[query.text(0)] = {date_of(query.text(1)), date_of(query.text(2)),
                                  date_of(query.text(3)), query.integer(4) != 0};
    }
    return records;
}

Result<std::int64_t> quiz_failed_ms(Database& db, std::string_view person, std::string_view quiz) {
    std::int64_t failed_ms = 0;
    for (const Entry& entry : TRY(entries_naming(db, person))) {
        if (entry.kind != "quiz-finished" || entry.data.value("person", "") != person ||
            entry.data.value("quiz", "") != quiz) {
            continue;
        }
        failed_ms = entry.data.value("passed", false) ? 0 : entry.at_ms;
    }
    return failed_ms;
}

Result<std::optional<Authorisation>> authorisation_of(Database& db, std::string_view person,
                                                      std::string_view machine_class) {
    Query query = db.query(
        "SELECT entry, rooms, shifts FROM s_authorisation WHERE person=? AND class=?");
    query.bind(person).bind(machine_class);
    if (!TRY(query.next())) return std::optional<Authorisation>();
    return std::optional(
        Authorisation{query.integer(0), list_of(query.text(1)), list_of(query.text(2))});
}

Result<std::vector<MachineRow>> machines(Database& db) {
    Query query = db.query("SELECT plate, class, room, as_truck FROM s_machine ORDER BY rowid");
    std::vector<MachineRow> rows;
    while (TRY(query.next())) {
        rows.push_back({query.text(0), query.text(1), query.text(2), query.integer(3) != 0});
    }
    return rows;
}

Result<std::optional<MachineRow>> machine_row(Database& db, std::string_view plate) {
    Query query = db.query("SELECT plate, class, room, as_truck FROM s_machine WHERE plate=?");
    query.bind(plate);
    if (!TRY(query.next())) return std::optional<MachineRow>();
    return std::optional(
        MachineRow{query.text(0), query.text(1), query.text(2), query.integer(3) != 0});
}

Result<MachineState> machine_state(Database& db, std::string_view plate) {
    MachineState state;
    Query query = db.query(
        "SELECT hours, fuel, service_every, service_done, inspection_due, returned_ms "
        "FROM s_machine WHERE plate=?");
    query.bind(plate);
    if (!TRY(query.next())) return state;
    state.plate = plate;
    state.hours_tenths = query.integer(0);
    state.fuel_percent = query.integer(1);
    state.service_every_tenths = query.integer(2);
    state.service_done_tenths = query.integer(3);
    state.inspection_due = date_of(query.text(4));
    state.last_returned_ms = query.integer(5);
    for (const auto& row :
         TRY(findings_where(db, " WHERE open=1 AND machine=? ORDER BY entry", plate))) {
        state.findings.push_back(row.finding);
    }
    state.round = TRY(last_round(db, plate));
    state.out = TRY(release_out(db, plate));
    state.overrides = TRY(overrides_of(db, plate));
    TRY(read_lock(db, plate, state));
    if (const auto work = TRY(work_on(db, plate))) state.work = work->running;
    state.hopper_up = TRY(is_hopper_up(db, plate));
    return state;
}

Result<std::vector<FindingRow>> open_findings(Database& db) {
    return findings_where(db, " WHERE open=1 ORDER BY entry DESC", "");
}

Result<std::optional<FindingRow>> finding_row(Database& db, std::int64_t entry) {
    const auto rows = TRY(findings_where(db, " WHERE entry=CAST(? AS INTEGER)",
                                         std::to_string(entry)));
    return rows.empty() ? std::optional<FindingRow>() : std::optional(rows.front());
}

Result<std::optional<Securing>> securing_of(Database& db, std::int64_t finding) {
    Query query = db.query("SELECT at_ms, by, stated FROM s_securing WHERE finding=?");
    query.bind(finding);
    if (!TRY(query.next())) return std::optional<Securing>();
    return std::optional(
        Securing{query.integer(0), query.text(1), list_of(query.text(2))});
}

Result<std::vector<FindingRow>> untold_findings(Database& db, std::string_view person) {
    return findings_where(db, " WHERE open=0 AND told=0 AND repaired>0 AND by=? ORDER BY entry",
                          person);
}

Result<bool> room_closed(Database& db, std::string_view room) {
    Query query = db.query("SELECT closed FROM s_room WHERE id=?");
    query.bind(room);
    return TRY(query.next()) && query.integer(0) != 0;
}

Result<std::vector<DoorState>> doors_of(Database& db, std::string_view room) {
    Query query = db.query("SELECT door, open, at_ms FROM s_door WHERE room=?");
    query.bind(room);
    std::vector<DoorState> doors;
    while (TRY(query.next())) {
        doors.push_back({query.text(0), query.integer(1) != 0, query.integer(2)});
    }
    return doors;
}

Result<std::optional<TailpipeTest>> tailpipe_of(Database& db, std::string_view machine) {
    Query query = db.query("SELECT co_lmin, tested FROM s_tailpipe WHERE machine=?");
    query.bind(machine);
    if (!TRY(query.next())) return std::optional<TailpipeTest>();
    return std::optional(TailpipeTest{TRY(parse_decimal(query.text(0))),
                                      date_of(query.text(1)).value_or(Date{})});
}

namespace {
Result<AirReading> reading_row(const Query& query) {
    return AirReading{query.integer(0), TRY(parse_decimal(query.text(1))), query.integer(2),
                      query.text(3), query.text(4)};
}
}  // namespace

Result<std::vector<AirReading>> air_readings(Database& db, std::string_view room,
                                             std::int64_t from_ms) {
    Query query = db.query(
        "SELECT entry, ppm, at_ms, instrument, by FROM s_air WHERE room=? AND at_ms>=? "
        "ORDER BY at_ms, entry");
    query.bind(room).bind(from_ms);
    std::vector<AirReading> readings;
    while (TRY(query.next())) readings.push_back(TRY(reading_row(query)));
    return readings;
}

Result<std::optional<AirReading>> last_air_reading(Database& db, std::string_view room,
                                                   std::string_view instrument) {
    Query query = db.query(
        "SELECT entry, ppm, at_ms, instrument, by FROM s_air WHERE room=? "
        "AND (?='' OR instrument=?) ORDER BY at_ms DESC, entry DESC LIMIT 1");
    query.bind(room).bind(instrument).bind(instrument);
    if (!TRY(query.next())) return std::optional<AirReading>();
    return std::optional(TRY(reading_row(query)));
}

Result<std::vector<std::string>> machines_out_in(Database& db, std::string_view room) {
    Query query = db.query("SELECT machine FROM s_release WHERE room=? AND returned=0");
    query.bind(room);
    std::vector<std::string> plates;
    while (TRY(query.next())) plates.push_back(query.text(0));
    return plates;
}

Result<std::vector<std::string>> people_in(Database& db, std::string_view room,
                                           std::int64_t at_ms) {
    Query query = db.query(
        "SELECT person FROM s_release WHERE room=?1 AND returned=0 AND from_ms<=?2 "
        "UNION SELECT person FROM s_release WHERE room=?1 AND returned>=?2 AND from_ms<=?2 "
        "ORDER BY 1");
    query.bind(room).bind(at_ms);
    std::set<std::string> ids;
    while (TRY(query.next())) ids.insert(query.text(0));
    // Whoever is at a machine that stands there, perhaps under its hopper, hears least.
    Query jobs = db.query(
        "SELECT last_by FROM s_work JOIN s_machine ON plate=machine WHERE room=?1 AND last_by<>'' "
        "AND opened_ms<=?2");
    jobs.bind(room).bind(at_ms);
    while (TRY(jobs.next())) ids.insert(jobs.text(0));
    for (const Lockout& one : TRY(lockouts(db))) {
        const auto machine = TRY(machine_row(db, one.machine));
        if (!machine || machine->room != room) continue;
        ids.merge(people_on(one));
        if (!one.lead.empty()) ids.insert(one.lead);
    }
    return std::vector<std::string>(ids.begin(), ids.end());
}

Result<std::vector<Cylinder>> cylinders(Database& db) {
    Query query = db.query(
        "SELECT serial, made, stamps, gas_kg, state, entry FROM s_cylinder ORDER BY serial");
    std::vector<Cylinder> store;
    while (TRY(query.next())) {
        Cylinder cylinder;
        cylinder.serial = query.text(0);
        cylinder.made = TRY(parse_year_month(query.text(1)));
        for (const std::string& stamp : list_of(query.text(2))) {
            const auto parts = split(stamp, ':');
            if (parts.size() != 2) continue;
            cylinder.stamps.push_back(
                {TRY(parse_year_month(parts[0])), TRY(parse_cylinder_test(parts[1]))});
        }
        cylinder.gas_kg = TRY(parse_decimal(query.text(3)));
        cylinder.state = cylinder_state_named(query.text(4)).value_or(CylinderState::set_aside);
        cylinder.entry = query.integer(5);
        store.push_back(std::move(cylinder));
    }
    return store;
}

Result<std::int64_t> clock_doubt(Database& db) {
    Query query = db.query("SELECT doubt FROM s_folded");
    return TRY(query.next()) ? query.integer(0) : 0;
}

Result<std::int64_t> unasked_change(Database& db) {
    Query query = db.query("SELECT entry FROM s_unasked_change");
    return TRY(query.next()) ? query.integer(0) : 0;
}

Result<std::int64_t> last_entry_ms(Database& db) {
    Query query = db.query("SELECT at_ms FROM s_folded");
    return TRY(query.next()) ? query.integer(0) : 0;
}

}  // namespace holdpin
