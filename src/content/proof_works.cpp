// Checks of jobs at machines: every step can be come to, leads to an end, and says what it needs.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "content/proofreader.hpp"

namespace holdpin {
namespace {

constexpr std::size_t kTilesMax = 4;

void proof_answer(Proof& proof, const Work& work, const WorkAnswer& answer, const Spot& at) {
    auto steps = ids_of(work.steps, &WorkStep::id);
    steps.emplace_back(kWorkEnd);
    proof.known(answer.then, steps, at.key("then"), "step");
    for (const std::string& id : answer.ladder) {
        proof.known(id, steps, at.key("ladder"), "step");
    }
    proof.drawing(answer.drawing, at);
    proof.known(answer.sheet, ids_of(proof.pack().sheets, &Sheet::id), at.key("sheet"), "sheet");
    proof.known(answer.lockout, {"arm", "me"}, at.key("lockout"), "lockout");
    if (!answer.lockout.empty() && answer.then.empty()) {
        proof.note(at, fmt::format("answer \"{}\" opens a lockout and says no then", answer.id),
                   "name the step that is asked when the lockout is closed");
    }
    const bool stops = answer.ends == WorkEnds::stop || !answer.ladder.empty();
    if (stops && answer.finding.empty() && !at.node().find("finding")) {
        proof.note(at, fmt::format("answer \"{}\" stops and has no finding", answer.id),
                   "write finding = { en = \"…\", es = \"…\" }");
    }
}

void proof_step(Proof& proof, const Work& work, std::size_t index, const Spot& at) {
    const WorkStep& step = work.steps[index];
    proof.footing(step.footing, at);
    proof.picture(step.picture, at);
    proof.warnings(step.warnings, at);
    auto steps = ids_of(work.steps, &WorkStep::id);
    steps.emplace_back(kWorkEnd);
    proof.known(step.then, steps, at.key("then"), "step");
    const std::size_t own = step.ask == WorkAsk::choose ? 0 : 1;
    const std::size_t written = step.answers.size() - own;
    if (step.ask == WorkAsk::choose && (written < 2 || written > 6)) {
        proof.note(at, fmt::format("step \"{}\" has {} answers", step.id, written),
                   "give 2 to 6, or write ask = \"act\"");
    }
    if (step.ask == WorkAsk::act && written > 0) {
        proof.note(at, fmt::format("step \"{}\" is answered by done", step.id),
                   "take the answers out or write ask = \"choose\"");
    }
    if (written > kTilesMax && !step.warnings.empty()) {
        proof.note(at, fmt::format("step \"{}\" has warnings and more than 4 answers", step.id),
                   "put the warnings to the step before");
    }
    for (std::size_t i = 0; i < written; ++i) {
        proof_answer(proof, work, step.answers[i + own], at.item("answer", i));
    }
    proof.unique(ids_of(step.answers, &WorkAnswer::id),
                 std::vector<Spot>(step.answers.size(), at), "answer");
}

// Steps that can come after one, "end" among them where the job may end there.
std::set<std::string> steps_after(const Work& work, std::size_t index) {
    const WorkStep& step = work.steps[index];
    const bool last = index + 1 == work.steps.size();
    const std::string own = !step.then.empty() ? step.then
                            : last             ? std::string(kWorkEnd)
                                               : work.steps[index + 1].id;
    std::set<std::string> after;
    if (step.with_hopper || step.with_raised_hopper) {
        after.insert(last ? std::string(kWorkEnd) : work.steps[index + 1].id);
    }
    for (const WorkAnswer& answer : step.answers) {
        after.insert(answer.ladder.begin(), answer.ladder.end());
        const bool ends = answer.ends != WorkEnds::no;
        if (answer.ladder.empty()) {
            after.insert(ends ? std::string(kWorkEnd) : answer.then.empty() ? own : answer.then);
        }
    }
    return after;
}

void proof_reached(Proof& proof, const Work& work, const Spot& at) {
    std::set<std::string> reached;
    if (!work.steps.empty()) reached.insert(work.steps.front().id);
    for (bool grew = true; grew;) {
        grew = false;
        for (std::size_t i = 0; i < work.steps.size(); ++i) {
            if (!reached.contains(work.steps[i].id)) continue;
            for (const std::string& id : steps_after(work, i)) grew |= reached.insert(id).second;
        }
    }
    for (std::size_t i = 0; i < work.steps.size(); ++i) {
        if (reached.contains(work.steps[i].id)) continue;
        proof.note(at.item("step", i),
                   fmt::format("nothing leads to the step \"{}\"", work.steps[i].id),
                   "name it in a then or take it out");
    }
}

}  // namespace

void proof_works(Proof& proof) {
    for (std::size_t w = 0; w < proof.pack().works.size(); ++w) {
        const Work& work = proof.pack().works[w];
        const Spot& at = proof.places().works[w];
        for (std::size_t i = 0; i < work.steps.size(); ++i) {
            proof_step(proof, work, i, at.item("step", i));
        }
        const bool names_product =
            std::any_of(work.steps.begin(), work.steps.end(),
                        [](const WorkStep& step) { return step.ask == WorkAsk::product; });
        if (work.needs == WorkNeeds::tank && !names_product) {
            proof.note(at, "a job at a tank does not ask which product is in it",
                       "add a step with ask = \"product\": its data sheet must be at hand");
        }
        proof.unique(ids_of(work.steps, &WorkStep::id), places_of(at, "step", work.steps.size()),
                     "step");
        proof_reached(proof, work, at);
        proof.screen_words(at);
    }
}

}  // namespace holdpin
