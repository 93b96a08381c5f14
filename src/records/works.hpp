// Questions about jobs at machines: what is running and at which step, leaks, what is fitted, wet
// floors, tags.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/release.hpp"
#include "rules/tags.hpp"
#include "store/database.hpp"

namespace holdpin {

// A running job as it stands on disk: whoever goes on begins at `step`.
struct WorkRow {
    std::string machine;
    RunningWork running;
    std::string digest;       // of the job as it was shown
    std::string step;         // asked now
    std::string last_step;    // answered before it
    std::string last_answer;
    std::string last_by;      // who answered it
    std::string place;        // chosen on the way; empty: not yet
    std::string drain;
    std::string cylinder;
};
Result<std::optional<WorkRow>> work_on(Database& db, std::string_view machine);
// Jobs that this person began or went on with last, newest first.
Result<std::vector<WorkRow>> works_of(Database& db, std::string_view person);

// Leaks of the coupling since it was last soaped and dry, or the hose was changed and returned.
Result<int> leaks_of(Database& db, std::string_view machine);
// Serial of the listed cylinder on a machine, empty where the last one is off; none: whatever is on
// it came before the list.
Result<std::optional<std::string>> fitted_on(Database& db, std::string_view machine);

// A cylinder that came off a machine, or is to, and is not in the list of cylinders yet.
struct UnlistedCylinder {
    std::int64_t entry = 0;
    std::string machine;
    std::string state;  // "empty", "set-aside"
    std::int64_t at_ms = 0;
};
Result<std::vector<UnlistedCylinder>> unlisted_cylinders(Database& db);

// Whether a job raised the hopper and nothing has brought it down since.
Result<bool> is_hopper_up(Database& db, std::string_view machine);

struct WetFloor {
    std::string room;
    std::string machine;
    std::int64_t at_ms = 0;
};
Result<std::vector<WetFloor>> wet_floors(Database& db);

Result<std::optional<Tag>> tag_of(Database& db, std::string_view machine);

}  // namespace holdpin
