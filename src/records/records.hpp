// Questions to the present state. Each answers with plain data that rules/ can decide on.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "content_types/content.hpp"
#include "rules/release.hpp"
#include "store/database.hpp"

namespace holdpin {

Result<std::vector<Person>> people(Database& db);  // by name
Result<std::optional<Person>> person_with(Database& db, std::string_view id);
Result<std::optional<Person>> person_with_badge(Database& db, std::string_view badge);
// The hash that stands for the person's name in signatures.
Result<std::string> name_hash_of(Database& db, std::string_view person);

Result<TopicRecords> topics_of(Database& db, std::string_view person);
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
// Closed findings of a reporter who has not been told yet.
Result<std::vector<FindingRow>> untold_findings(Database& db, std::string_view person);

Result<bool> room_closed(Database& db, std::string_view room);
// The entry that put the clock in doubt; 0: none.
Result<std::int64_t> clock_doubt(Database& db);
Result<std::int64_t> last_entry_ms(Database& db);

}  // namespace holdpin
