// Who is current in what, and what falls due when: kept while the entries pass by, up to a day.
// The state in records/ is that of the present and knows no entry numbers; this one knows both, and
// a test holds the two against each other.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "binder/table.hpp"

namespace holdpin {

// One thing that falls due. `what` goes into calendars and names people by their id alone.
struct DueDate {
    std::string id;  // stays the same from one binder to the next: "evaluation/p-x/lift-truck-lp"
    Date on;
    std::string what;
    std::string details;
    std::int64_t entry = 0;
};

class Currency {
  public:
    Currency(Lookup& lookup, const BinderScope& scope, Date as_of)
        : lookup_(lookup), scope_(scope), as_of_(as_of) {}

    void learn(const Entry& entry);
    Result<void> write_rows(Tables& tables);
    std::vector<DueDate> due_dates() const;  // by day

  private:
    struct Latest {
        std::int64_t n = 0;
        std::int64_t at_ms = 0;
        int offset_min = 0;
    };
    struct TopicState {
        std::string instructed;
        std::string practised;
        std::string evaluated;
        bool refresher = false;
        Latest latest;
    };
    struct MachineDue {
        std::string on;
        std::int64_t entry = 0;
    };
    struct PersonClass;

    void learn_stage(const Entry& entry);
    void learn_machine(const Entry& entry);
    std::vector<PersonClass> pairs() const;
    Cells cells_of(const PersonClass& pair, const Topic& topic) const;
    void add_evaluations(std::vector<DueDate>& due) const;
    bool wants(const std::string& person, const MachineClass& machine_class) const;

    Lookup& lookup_;
    const BinderScope& scope_;
    Date as_of_;
    std::map<std::string, std::map<std::string, TopicState>> topics_;  // person, topic
    std::map<std::string, std::map<std::string, std::int64_t>> authorised_;  // person, class
    std::map<std::string, MachineDue> inspections_;
    std::map<std::string, MachineDue> listings_;
    std::map<std::string, MachineDue> cylinders_;
};

}  // namespace holdpin
