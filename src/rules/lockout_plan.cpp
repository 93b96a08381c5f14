// What a lockout demands of a class, what of it is still open, and the names of its steps.

#include <algorithm>

#include "rules/lockout.hpp"

namespace holdpin {
namespace {

using At = LockoutStep;

constexpr std::int64_t kMinuteMs = 60'000;
constexpr int kReviewMonths = 12;
constexpr std::array<std::string_view, 3> kJobNames{"nothing", "arm", "me"};
constexpr std::array<std::string_view, kLockoutStepCount> kStepNames{
    "reviewing", "shutdown", "propping", "isolating", "tagging",  "locking",
    "relieving", "trying",   "working",  "leaving",   "looking",  "testing",
    "unlocking", "lift-off", "engine-off", "unprop",  "closing",  "closed"};
constexpr std::array<std::string_view, kLockoutDeedCount> kDeedNames{
    "shut-down",   "set-prop",          "see-prop",  "isolate",    "place-lock",
    "relieve",     "try",               "reverify",  "miss",       "leave-zone",
    "begin-test",  "end-test",          "clear",     "remove-lock", "remove-for-absent",
    "hand-over",   "lift-off",          "stop-engine", "stow-prop", "close",
    "review",      "take-measure",      "tell",      "report-prop"};

template <typename Done>
std::string first_missing(const std::vector<std::string>& wanted, const Done& done) {
    for (const std::string& one : wanted) {
        if (!done.contains(one)) return one;
    }
    return "";
}

}  // namespace

LockoutPlan plan_of(const MachineClass& machine_class, LockoutJob job, bool assessed) {
    LockoutPlan plan;
    plan.locks = job == LockoutJob::me;
    for (const Prop& prop : machine_class.props) plan.props.push_back(prop.id);
    plan.second = !plan.props.empty() &&
                  (job == LockoutJob::me || (job == LockoutJob::arm && !assessed));
    for (const Energy& energy : machine_class.energies) {
        const bool counts =
            job == LockoutJob::me || (job == LockoutJob::arm && energy.before_an_arm);
        if (!counts) continue;
        plan.sources.push_back(energy.id);
        if (energy.stored && job == LockoutJob::me) plan.stored.push_back(energy.id);
        if (energy.tag_only && job == LockoutJob::me) plan.tags.push_back(energy.id);
    }
    if (job == LockoutJob::nothing) return plan;
    for (const Energy& energy : machine_class.energies) {
        const int minutes = energy.reverify_minutes;
        if (minutes > 0 && (plan.reverify_minutes == 0 || minutes < plan.reverify_minutes)) {
            plan.reverify_minutes = minutes;
        }
    }
    return plan;
}

bool is_visitor(const Person& person) {
    return std::find(person.endorsements.begin(), person.endorsements.end(), kVisitor) !=
           person.endorsements.end();
}

bool is_review_due(const std::optional<Date>& last_used, Date today) {
    return !last_used || add_months(*last_used, kReviewMonths) < today;
}

Lockout opened(const LockoutOpening& opening) {
    Lockout state;
    state.machine = opening.machine;
    state.job = opening.job;
    state.plan = opening.plan;
    state.lead = opening.by;
    if (opening.plan.review) state.step = At::reviewing;
    state.opened_ms = opening.at_ms;
    return state;
}

std::int64_t due_ms(const Lockout& state) {
    if (state.step == At::testing) return state.verified_ms + kTestRunMinutes * kMinuteMs;
    if (state.step != At::working || state.plan.reverify_minutes == 0) return 0;
    return state.verified_ms + state.plan.reverify_minutes * kMinuteMs;
}

bool is_look_missed(const Lockout& state, std::int64_t now_ms) {
    const std::int64_t due = due_ms(state);
    return due != 0 && (now_ms >= due || now_ms < state.verified_ms);
}

std::set<std::string> people_on(const Lockout& state) {
    std::set<std::string> people{state.lead};
    for (const auto& [person, lock] : state.locks) people.insert(person);
    return people;
}

std::string next_prop(const Lockout& state) {
    return first_missing(state.plan.props, state.set_by);
}
std::string next_unseen(const Lockout& state) {
    return state.plan.second ? first_missing(state.plan.props, state.seen_by) : "";
}
std::string next_source(const Lockout& state) {
    return first_missing(state.plan.sources, state.isolated);
}
std::string next_measure(const Lockout& state) {
    return first_missing(state.plan.tags, state.measured);
}
std::string next_stored(const Lockout& state) {
    return first_missing(state.plan.stored, state.relieved);
}
std::string next_to_stow(const Lockout& state) {
    for (const std::string& prop : state.plan.props) {
        if (state.set_by.contains(prop)) return prop;
    }
    return "";
}

std::string_view name_of(LockoutJob job) { return kJobNames[static_cast<std::size_t>(job)]; }
std::string_view name_of(LockoutStep step) { return kStepNames[static_cast<std::size_t>(step)]; }
std::string_view name_of(LockoutDeed deed) { return kDeedNames[static_cast<std::size_t>(deed)]; }

std::optional<LockoutJob> lockout_job_named(std::string_view name) {
    const auto at = std::find(kJobNames.begin(), kJobNames.end(), name);
    if (at == kJobNames.end()) return std::nullopt;
    return static_cast<LockoutJob>(at - kJobNames.begin());
}

std::optional<LockoutStep> lockout_step_named(std::string_view name) {
    const auto at = std::find(kStepNames.begin(), kStepNames.end(), name);
    if (at == kStepNames.end()) return std::nullopt;
    return static_cast<LockoutStep>(at - kStepNames.begin());
}

}  // namespace holdpin
