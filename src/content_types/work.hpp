// A job at a machine that is guided while it is done: steps in order, each with what it may be
// answered with, and where each answer leads. What an answer does is decided in rules/guided_work.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "content_types/words.hpp"

namespace holdpin {

enum class Hazard;

// How a step is answered: as done, by one of its own answers, or by something of the site.
enum class WorkAsk { act, choose, place, drain, cylinder, product };

// What becomes of things when a step is answered.
enum class WorkDoes {
    nothing,
    cylinder_out,    // the one on the machine is off and counts as empty
    cylinder_in,     // the chosen one is on the machine
    cylinder_aside,  // the chosen one is damaged, doubtful or leaking: quarantine
    fitted_aside,    // the one on the machine leaks at its own valve: quarantine
    floor_wet,       // marked at the room of the drain
    floor_dry,
    coupling_tight,  // soaped and dry: leaks of the machine are counted from none again
    hopper_up,       // raised, and known to be up until something brings it down
    hopper_down,
};

// Whether an answer ends the job. `stop` holds the machine by a finding, `leave` does not.
enum class WorkEnds { no, stop, leave };

// Jobs are offered at machines that have what they need.
enum class WorkNeeds { engine, tank, raised_hopper };

struct WorkAnswer {
    std::string id;
    Text label;
    std::string drawing;  // assets/illustrations/tiles/<drawing>.svg; may be empty
    std::string then;     // id of the step asked next; empty: as the step says
    WorkDoes does = WorkDoes::nothing;
    WorkEnds ends = WorkEnds::no;
    Text finding;         // headline of the finding; where it stops
    Hazard hazard{};
    std::string sheet;    // emergency sheet shown at once; may be empty
    Text remark;          // said on the next page: why something is asked again
    std::string lockout;  // what goes in, "arm" or "me": its lockout is opened, then `then` asked
    // Steps asked after the first leak of this machine, the second, …; after the last one it stops.
    std::vector<std::string> ladder;
};

struct WorkStep {
    std::string id;
    WorkAsk ask = WorkAsk::act;
    std::vector<Warning> warnings;
    Text action;  // or the question
    Text key_point;
    Text reason;
    Picture picture;
    std::string footing;
    std::string then;           // id of the step asked next, "end"; empty: the next one of the file
    bool with_hopper = false;   // asked only where the class has a hopper
    bool with_raised_hopper = false;  // asked only while the hopper is up
    // Of `act` exactly one, "done"; of something of the site one, "chosen", and those of the file.
    std::vector<WorkAnswer> answers;

    const WorkAnswer* answer(std::string_view answer_id) const;
};

struct Work {
    std::string id;
    Text title;
    Text short_title;  // beside others
    WorkNeeds needs = WorkNeeds::engine;
    std::string endorsement;  // who may do it; empty: whoever has the duty to operate
    Text finished;            // said at the end
    std::vector<WorkStep> steps;

    const WorkStep* step(std::string_view step_id) const;
};

inline constexpr std::string_view kWorkEnd = "end";        // as `then`
inline constexpr std::string_view kWorkDone = "done";      // the answer of `act`
inline constexpr std::string_view kWorkChosen = "chosen";  // the answer that names a thing

}  // namespace holdpin
