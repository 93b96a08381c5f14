#include "rules/guided_work.hpp"

#include <algorithm>
#include <array>

namespace holdpin {
namespace {

constexpr std::array<std::string_view, 9> kWorkRefusals{
    "none",   "nobody", "no-duty", "no-endorsement", "untrained", "other-has-it",
    "locked", "held",   "other-work"};

bool contains(const std::vector<std::string>& list, std::string_view item) {
    return std::find(list.begin(), list.end(), item) != list.end();
}

// The first step at or after `index` that is asked at this machine.
std::string asked_from(const Work& work, std::size_t index, const WorkFacts& facts) {
    for (std::size_t i = index; i < work.steps.size(); ++i) {
        const WorkStep& step = work.steps[i];
        if (step.with_hopper && !facts.has_hopper) continue;
        if (step.with_raised_hopper && !facts.hopper_up) continue;
        return step.id;
    }
    return std::string(kWorkEnd);
}

WorkFacts facts_after(WorkFacts facts, WorkDoes does) {
    if (does == WorkDoes::hopper_up) facts.hopper_up = true;
    if (does == WorkDoes::hopper_down) facts.hopper_up = false;
    return facts;
}

std::string step_after(const Work& work, const WorkStep& step, const WorkAnswer& answer,
                       const WorkFacts& facts) {
    const std::string& named = answer.then.empty() ? step.then : answer.then;
    if (named == kWorkEnd) return named;
    std::size_t index = static_cast<std::size_t>(&step - work.steps.data()) + 1;
    if (const WorkStep* there = work.step(named)) {
        index = static_cast<std::size_t>(there - work.steps.data());
    }
    return asked_from(work, index, facts_after(facts, answer.does));
}

bool is_answerable(const WorkAnswer& answer, const WorkReply& reply, const WorkFacts& facts) {
    if (answer.id != kWorkChosen) return reply.value.empty();
    return contains(facts.offered, reply.value);
}

}  // namespace

std::string first_step(const Work& work, const WorkFacts& facts) {
    return asked_from(work, 0, facts);
}

WorkMove move_after(const Work& work, std::string_view at, const WorkReply& reply,
                    const WorkFacts& facts) {
    WorkMove move;
    const WorkStep* step = work.step(at);
    if (step == nullptr || reply.step != at) return move;
    const WorkAnswer* answer = step->answer(reply.answer);
    if (answer == nullptr || !is_answerable(*answer, reply, facts)) return move;
    move.answer = answer;
    if (!answer->ladder.empty()) {
        move.leak = facts.leaks + 1;
        const auto rung = static_cast<std::size_t>(facts.leaks);
        move.way = rung < answer->ladder.size() ? WorkWay::on : WorkWay::stop;
        if (move.way == WorkWay::on) move.next = answer->ladder[rung];
        return move;
    }
    switch (answer->ends) {
        case WorkEnds::stop: move.way = WorkWay::stop; return move;
        case WorkEnds::leave: move.way = WorkWay::leave; return move;
        case WorkEnds::no: break;
    }
    move.next = step_after(work, *step, *answer, facts);
    move.way = move.next == kWorkEnd ? WorkWay::finish : WorkWay::on;
    return move;
}

std::vector<const Drain*> open_drains(const Site& site) {
    std::vector<const Drain*> drains;
    for (const Drain& drain : site.drains) {
        if (!drain.confirmed_by.empty() && drain.confirmed_on) drains.push_back(&drain);
    }
    return drains;
}

bool may_be_fitted(const Cylinder& cylinder, const CylinderPolicy& policy, Date today) {
    const auto due = due_of(cylinder, policy);
    return cylinder.state == CylinderState::full && due.ok() &&
           !(due.value() < YearMonth{today.year, today.month});
}

bool is_for(const Work& work, const MachineClass& machine_class, bool hopper_up) {
    switch (work.needs) {
        case WorkNeeds::engine: return machine_class.has_engine;
        case WorkNeeds::tank: return machine_class.work && machine_class.work->recovery_l > 0;
        case WorkNeeds::raised_hopper: return hopper_up;
    }
    return false;
}

WorkRefusal refusal_of(const Work& work, const Person* person, const Pack& pack,
                       const MachineState& machine, bool is_barred) {
    if (person == nullptr) return WorkRefusal::nobody;
    if (!pack.grants(person->duties, Right::operate) && !pack.grants(person->duties, Right::repair)) {
        return WorkRefusal::no_duty;
    }
    if (!work.endorsement.empty() && !contains(person->endorsements, work.endorsement)) {
        return WorkRefusal::no_endorsement;
    }
    // What runs comes to its end, whatever the date says meanwhile.
    if (is_barred && !machine.work) return WorkRefusal::untrained;
    if (!machine.locked_by.empty()) return WorkRefusal::locked;
    if (machine.work && machine.work->work != work.id) return WorkRefusal::other_work;
    if (machine.work) return WorkRefusal::none;
    if (work.needs == WorkNeeds::raised_hopper) return WorkRefusal::none;
    if (machine.out && machine.out->person != person->id) return WorkRefusal::other_has_it;
    const bool stopped = std::any_of(machine.findings.begin(), machine.findings.end(),
                                     [](const OpenFinding& one) {
                                         return one.outcome == Outcome::stop;
                                     });
    return stopped ? WorkRefusal::held : WorkRefusal::none;
}

std::string_view name_of(WorkRefusal refusal) {
    return kWorkRefusals[static_cast<std::size_t>(refusal)];
}

}  // namespace holdpin
