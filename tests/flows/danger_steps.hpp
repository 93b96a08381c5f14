// Where every piece of danger work stands at one moment, as the tables of the flows name it, and
// whether a touch moved it as the tables allow: a state changes only along a row of its table and
// with the entry of that row, and an entry of a table is made only by one of its own rows.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "flows/air_alarm.hpp"
#include "flows/findings.hpp"
#include "flows/lockout.hpp"
#include "flows/tags.hpp"
#include "flows/work.hpp"
#include "shop.hpp"

namespace holdpin {

struct Standing {
    struct Job {
        std::string id;
        std::string step;  // asked now
        bool operator==(const Job&) const = default;
    };
    struct Finding {
        std::string machine;
        FindingStage stage = FindingStage::open;
    };
    std::map<std::string, Job> jobs;              // by machine
    std::map<std::string, LockoutStep> lockouts;  // by machine
    std::map<std::string, TagState> tags;         // by machine
    std::map<std::string, AlarmState> alarms;     // by room
    std::map<std::int64_t, Finding> findings;     // that are open, by entry

    bool holds(const std::string& machine) const;
};

Standing standing_of(const Shop& shop);

// What is wrong with going from one to the other with these entries; empty: nothing.
std::string wrong_move(const Standing& before, const Standing& after,
                       const std::vector<Entry>& entered);

// What is wrong with these entries after `action` on the page `page_id` of the report of a problem
// or a no-start, which keeps no state; empty: nothing.
std::string wrong_report(const std::string& page_id, const std::string& action,
                         const std::vector<Entry>& entered);

}  // namespace holdpin
