// Questions to the present state. Each answers with plain data that rules/ can decide on.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "content_types/content.hpp"
#include "rules/cylinders.hpp"
#include "rules/release.hpp"
#include "store/database.hpp"

namespace holdpin {

// Stands as the name of a person whose name was erased; Session says it in the language shown.
inline constexpr std::string_view kErasedName = "(name erased)";
Result<std::vector<Person>> people(Database& db);  // by name
Result<std::optional<Person>> person_with(Database& db, std::string_view id);
Result<std::optional<Person>> person_with_badge(Database& db, std::string_view badge);
// The hash that stands for the person's name in signatures.
Result<std::string> name_hash_of(Database& db, std::string_view person);

Result<TopicRecords> topics_of(Database& db, std::string_view person);
// When the person's last try at the quiz was failed; 0: passed, or never tried.
Result<std::int64_t> quiz_failed_ms(Database& db, std::string_view person, std::string_view quiz);
Result<std::optional<Authorisation>> authorisation_of(Database& db, std::string_view person,
                                                      std::string_view machine_class);

struct MachineRow {
    std::string plate;
    std::string machine_class;
    std::string room;
    bool approved_as_truck = false;
};
Result<std::vector<MachineRow>> machines(Database& db);
Result<std::optional<MachineRow>> machine_row(Database& db, std::string_view plate);
// Everything but `round_running`, which is a draft.
Result<MachineState> machine_state(Database& db, std::string_view plate);

struct FindingRow {
    OpenFinding finding;
    std::string machine;
    std::string source;  // "round", "report", "no-start", "recheck"
    bool open = true;
    bool told = false;   // its reporter has seen what became of it
};
Result<std::vector<FindingRow>> open_findings(Database& db);  // newest first
Result<std::optional<FindingRow>> finding_row(Database& db, std::int64_t entry);
// What was said to be done at once where an engine would not start.
struct Securing {
    std::int64_t at_ms = 0;
    std::string by;  // empty: nobody was signed on
    std::vector<std::string> stated;
};
Result<std::optional<Securing>> securing_of(Database& db, std::int64_t finding);
// Closed findings of a reporter who has not been told yet.
Result<std::vector<FindingRow>> untold_findings(Database& db, std::string_view person);

Result<bool> room_closed(Database& db, std::string_view room);

// ---- air ----
Result<std::vector<DoorState>> doors_of(Database& db, std::string_view room);
Result<std::optional<TailpipeTest>> tailpipe_of(Database& db, std::string_view machine);
struct AirReading {
    std::int64_t entry = 0;
    double ppm = 0;
    std::int64_t at_ms = 0;
    std::string instrument;
    std::string by;
};
// Readings of a room since `from_ms`, oldest first.
Result<std::vector<AirReading>> air_readings(Database& db, std::string_view room,
                                             std::int64_t from_ms);
// The latest reading in a room, of one meter or (empty) of any.
Result<std::optional<AirReading>> last_air_reading(Database& db, std::string_view room,
                                                   std::string_view instrument);
struct AirAlarm {
    double ppm = 0;  // 0 where nothing was measured
    std::int64_t at_ms = 0;
    std::int64_t entry = 0;
    std::string room;
    AlarmCause cause = AlarmCause::reading;
    std::vector<std::string> listed;  // persons to be counted outside
};
Result<std::optional<AirAlarm>> air_alarm_of(Database& db, std::string_view room);
// Machines that are released into a room and not returned.
Result<std::vector<std::string>> machines_out_in(Database& db, std::string_view room);
// Who had a machine in the room at that time, each once; and who is at a job or a lockout of a
// machine that is at home there.
Result<std::vector<std::string>> people_in(Database& db, std::string_view room,
                                           std::int64_t at_ms);
// What is in the cylinder store, by serial.
Result<std::vector<Cylinder>> cylinders(Database& db);
// The entry that put the clock in doubt; 0: none.
Result<std::int64_t> clock_doubt(Database& db);
Result<std::int64_t> last_entry_ms(Database& db);
// The newest change of content that nobody had asked for and nobody has looked at; 0: none.
Result<std::int64_t> unasked_change(Database& db);

}  // namespace holdpin
