// A job at a machine that is guided while it is done: where an answer leads, what may be answered
// with, and who may begin. The order is kept here and nowhere else: an answer to a step that is not
// the one asked, or with something that is not offered, is refused wherever it comes from.
//
// Leaks of a machine are counted: first tightened by hand, second another cylinder, third the hose
// (CCOHS propane sheet, older version). They are counted from none again when the coupling is
// soaped and dry, or the hose was changed and the machine returned: common practice, no source.
// Only confirmed drains are offered (UNC EHS on drains).
// Does not know: clock, people's words, entries. A job is a line of steps with branches, no more.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "content_types/content.hpp"
#include "rules/cylinders.hpp"
#include "rules/release.hpp"

namespace holdpin {

struct WorkReply {
    std::string step;    // that is answered
    std::string answer;
    std::string value;   // of "chosen": the place, drain or cylinder
};

// What the rule needs to know beside the job.
struct WorkFacts {
    bool has_hopper = false;
    int leaks = 0;                     // of this machine, since it was last tight
    std::vector<std::string> offered;  // what "chosen" may name at this step
    bool hopper_up = false;            // raised in this job or left up by one before
};

enum class WorkWay { refused, on, finish, leave, stop };
struct WorkMove {
    WorkWay way = WorkWay::refused;
    const WorkAnswer* answer = nullptr;
    std::string next;  // step asked next, where it goes on
    int leak = 0;      // the how-manieth leak this is; 0: none
};

std::string first_step(const Work& work, const WorkFacts& facts);
WorkMove move_after(const Work& work, std::string_view at, const WorkReply& reply,
                    const WorkFacts& facts);

// Where waste water may go: somebody named has confirmed where it leads.
std::vector<const Drain*> open_drains(const Site& site);
// Full, and its test date has not passed.
bool may_be_fitted(const Cylinder& cylinder, const CylinderPolicy& policy, Date today);

bool is_for(const Work& work, const MachineClass& machine_class, bool hopper_up);

enum class WorkRefusal {
    none,
    nobody,          // not signed on
    no_duty,
    no_endorsement,
    untrained,       // the training for this job is missing or has run out
    other_has_it,    // handed to somebody else
    locked,
    held,            // out of service: a stop finding is open
    other_work,      // another job is running on it
};
WorkRefusal refusal_of(const Work& work, const Person* person, const Pack& pack,
                       const MachineState& machine, bool is_barred);
std::string_view name_of(WorkRefusal refusal);

}  // namespace holdpin
