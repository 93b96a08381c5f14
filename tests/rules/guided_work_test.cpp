#include "rules/guided_work.hpp"

#include "rules/qualification.hpp"

#include <doctest/doctest.h>

#include <algorithm>

using namespace holdpin;

namespace {

WorkAnswer answer(std::string id, std::string then = "") {
    WorkAnswer made;
    made.id = std::move(id);
    made.then = std::move(then);
    return made;
}

WorkStep step(std::string id, WorkAsk ask, std::vector<WorkAnswer> answers) {
    WorkStep made;
    made.id = std::move(id);
    made.ask = ask;
    made.answers = std::move(answers);
    return made;
}

// gloves -> pick -> (hopper) -> soap -> end, with a ladder at soap.
Work small_job() {
    Work work;
    work.id = "small";
    work.endorsement = "lp-exchange";
    work.steps.push_back(step("gloves", WorkAsk::act, {answer("done")}));
    work.steps.push_back(
        step("pick", WorkAsk::cylinder, {answer("chosen"), answer("none", "pick")}));
    work.steps.push_back(step("hopper", WorkAsk::act, {answer("done")}));
    work.steps.back().with_hopper = true;
    WorkAnswer leak = answer("leak");
    leak.ladder = {"gloves", "pick"};
    WorkAnswer hiss = answer("hiss");
    hiss.ends = WorkEnds::stop;
    WorkAnswer later = answer("later");
    later.ends = WorkEnds::leave;
    work.steps.push_back(step("soap", WorkAsk::choose, {answer("dry"), leak, hiss, later}));
    return work;
}

Cylinder cylinder(CylinderState state, int made_year) {
    Cylinder made;
    made.serial = "A1";
    made.made = {made_year, 1};
    made.gas_kg = 15;
    made.state = state;
    return made;
}

}  // namespace

TEST_CASE("an answer to a step that is not the one asked is refused, whatever it is") {
    const Work work = small_job();
    for (const WorkStep& at : work.steps) {
        for (const WorkStep& other : work.steps) {
            for (const WorkAnswer& one : other.answers) {
                const WorkReply reply{other.id, one.id, one.id == kWorkChosen ? "A1" : ""};
                const WorkMove move = move_after(work, at.id, reply, {true, 0, {"A1"}});
                CHECK((move.way != WorkWay::refused) == (at.id == other.id));
            }
        }
    }
    CHECK(move_after(work, "soap", {"soap", "done", ""}, {}).way == WorkWay::refused);
    CHECK(move_after(work, "end", {"end", "done", ""}, {}).way == WorkWay::refused);
}

TEST_CASE("only what is offered can be chosen, and choosing needs a thing") {
    const Work work = small_job();
    const WorkFacts facts{false, 0, {"A1", "A2"}};
    CHECK(move_after(work, "pick", {"pick", "chosen", "A2"}, facts).way == WorkWay::on);
    CHECK(move_after(work, "pick", {"pick", "chosen", "A3"}, facts).way == WorkWay::refused);
    CHECK(move_after(work, "pick", {"pick", "chosen", ""}, facts).way == WorkWay::refused);
    CHECK(move_after(work, "gloves", {"gloves", "done", "A1"}, facts).way == WorkWay::refused);
}

TEST_CASE("a step for a hopper is not asked where there is none") {
    const Work work = small_job();
    CHECK(move_after(work, "pick", {"pick", "chosen", "A1"}, {true, 0, {"A1"}}).next == "hopper");
    CHECK(move_after(work, "pick", {"pick", "chosen", "A1"}, {false, 0, {"A1"}}).next == "soap");
}

TEST_CASE("a step of a raised hopper is asked from when it goes up until it is down") {
    Work work = small_job();
    WorkStep& up = work.steps[0];
    up.answers[0].does = WorkDoes::hopper_up;
    work.steps[2].with_hopper = false;
    work.steps[2].with_raised_hopper = true;
    work.steps[1] = step("look", WorkAsk::act, {answer("done")});
    WorkFacts facts;
    CHECK(move_after(work, "look", {"look", "done", ""}, facts).next == "soap");
    facts.hopper_up = true;
    CHECK(move_after(work, "look", {"look", "done", ""}, facts).next == "hopper");
    work.steps[1].answers[0].does = WorkDoes::hopper_down;
    CHECK(move_after(work, "look", {"look", "done", ""}, facts).next == "soap");
    work.steps[1].with_raised_hopper = true;
    CHECK(move_after(work, "gloves", {"gloves", "done", ""}, {}).next == "look");
}

TEST_CASE("a raised hopper comes down at a machine out of service too, and only where it is up") {
    Work work = small_job();
    work.endorsement.clear();
    Pack pack;
    pack.duties.push_back({Duty::operating, {}, {Right::operate}});
    Person person;
    person.id = "p-one";
    person.duties = {Duty::operating};
    MachineState machine;
    OpenFinding stop;
    stop.outcome = Outcome::stop;
    machine.findings = {stop};
    CHECK(refusal_of(work, &person, pack, machine, false) == WorkRefusal::held);
    work.needs = WorkNeeds::raised_hopper;
    CHECK(refusal_of(work, &person, pack, machine, false) == WorkRefusal::none);
    machine.locked_by = "p-two";
    CHECK(refusal_of(work, &person, pack, machine, false) == WorkRefusal::locked);
    CHECK(is_for(work, MachineClass(), true));
    CHECK_FALSE(is_for(work, MachineClass(), false));
}

TEST_CASE("the first leak tightens, the second changes the cylinder, the third stops the machine") {
    // CCOHS propane sheet, older version: 1 tighten, 2 another cylinder, 3 the hose.
    const Work work = small_job();
    const WorkReply leak{"soap", "leak", ""};
    const WorkMove first = move_after(work, "soap", leak, {false, 0, {}});
    CHECK(first.way == WorkWay::on);
    CHECK(first.next == "gloves");
    CHECK(first.leak == 1);
    CHECK(move_after(work, "soap", leak, {false, 1, {}}).next == "pick");
    const WorkMove third = move_after(work, "soap", leak, {false, 2, {}});
    CHECK(third.way == WorkWay::stop);
    CHECK(third.leak == 3);
    CHECK(move_after(work, "soap", leak, {false, 9, {}}).way == WorkWay::stop);
}

TEST_CASE("an answer may finish, stop or leave the job") {
    const Work work = small_job();
    CHECK(move_after(work, "soap", {"soap", "dry", ""}, {}).way == WorkWay::finish);
    CHECK(move_after(work, "soap", {"soap", "hiss", ""}, {}).way == WorkWay::stop);
    CHECK(move_after(work, "soap", {"soap", "later", ""}, {}).way == WorkWay::leave);
}

TEST_CASE("a drain that nobody has confirmed is not offered") {
    Site site;
    site.drains.resize(3);
    site.drains[0].id = "gully";
    site.drains[0].confirmed_by = "p-brandt";
    site.drains[0].confirmed_on = Date{2026, 5, 4};
    site.drains[1].id = "grate";
    site.drains[2].id = "undated";
    site.drains[2].confirmed_by = "p-brandt";
    const auto open = open_drains(site);
    REQUIRE(open.size() == 1);
    CHECK(open.front()->id == "gully");
}

TEST_CASE("a cylinder is fitted full and to the month in which it is due, not after") {
    const CylinderPolicy policy;
    const Date today{2026, 11, 25};
    CHECK(may_be_fitted(cylinder(CylinderState::full, 2020), policy, today));
    CHECK_FALSE(may_be_fitted(cylinder(CylinderState::full, 2010), policy, today));
    Cylinder due = cylinder(CylinderState::full, 2014);
    due.made.month = 11;
    CHECK(may_be_fitted(due, policy, today));
    due.made.month = 10;
    CHECK_FALSE(may_be_fitted(due, policy, today));
    for (const auto state :
         {CylinderState::empty, CylinderState::set_aside, CylinderState::on_machine}) {
        CHECK_FALSE(may_be_fitted(cylinder(state, 2020), policy, today));
    }
}

TEST_CASE("gas on a machine is not in the store, empties and those set aside are") {
    std::vector<Cylinder> store;
    for (const auto state : {CylinderState::full, CylinderState::empty, CylinderState::set_aside,
                             CylinderState::on_machine}) {
        store.push_back(cylinder(state, 2020));
    }
    CHECK(counted_kg(store, 0) == doctest::Approx(45));
    CHECK(counted_kg(store, 2) == doctest::Approx(84.4));  // each as the heaviest in common use
    store[0].gas_kg = 30;
    CHECK(counted_kg(store, 2) == doctest::Approx(120));  // or of the list
}

TEST_CASE("training for a job that has run out bars it, and none at all does not") {
    MachineClass machine_class;
    Topic topic;
    topic.id = "lp";
    topic.jobs = {"small"};
    machine_class.topics = {topic};
    const Date today{2026, 11, 25};
    TopicRecords records;
    CHECK_FALSE(is_barred_from(machine_class, "small", records, today, true));  // a mechanic
    CHECK(is_barred_from(machine_class, "small", records, today, false));  // nobody's permit
    records["lp"] = {Date{2023, 1, 9}, Date{2023, 1, 9}, Date{2023, 11, 25}, false};
    CHECK_FALSE(is_barred_from(machine_class, "small", records, today, true));
    CHECK(is_barred_from(machine_class, "small", records, Date{2026, 11, 26}, true));
    CHECK_FALSE(is_barred_from(machine_class, "another", records, Date{2026, 11, 26}, true));
    records["lp"].refresher_open = true;
    CHECK(is_barred_from(machine_class, "small", records, today, true));
    Person ana;
    ana.id = "ana";
    ana.duties = {Duty::operating};
    ana.endorsements = {"lp-exchange"};
    Pack pack;
    pack.duties.push_back({Duty::operating, {}, {Right::operate}});
    MachineState machine;
    CHECK(refusal_of(small_job(), &ana, pack, machine, true) == WorkRefusal::untrained);
    machine.work = RunningWork{90, "small", "ben", 0};
    CHECK(refusal_of(small_job(), &ana, pack, machine, true) == WorkRefusal::none);
}

TEST_CASE("a job needs the person, the endorsement and a machine that nothing else holds") {
    Pack pack;
    pack.duties.push_back({Duty::operating, {}, {Right::operate}});
    const Work work = small_job();
    Person ana;
    ana.id = "ana";
    ana.duties = {Duty::operating};
    ana.endorsements = {"lp-exchange"};
    MachineState machine;
    CHECK(refusal_of(work, &ana, pack, machine, false) == WorkRefusal::none);
    CHECK(refusal_of(work, nullptr, pack, machine, false) == WorkRefusal::nobody);
    Person bo = ana;
    bo.endorsements.clear();
    CHECK(refusal_of(work, &bo, pack, machine, false) == WorkRefusal::no_endorsement);
    bo.duties.clear();
    CHECK(refusal_of(work, &bo, pack, machine, false) == WorkRefusal::no_duty);
    machine.out = ReleaseOut{1, "bo", 0, 10, "hall"};
    CHECK(refusal_of(work, &ana, pack, machine, false) == WorkRefusal::other_has_it);
    machine.out->person = "ana";
    CHECK(refusal_of(work, &ana, pack, machine, false) == WorkRefusal::none);
    machine.findings.push_back({});
    machine.findings.back().outcome = Outcome::stop;
    CHECK(refusal_of(work, &ana, pack, machine, false) == WorkRefusal::held);
    machine.work = RunningWork{5, "other", "bo", 0};
    CHECK(refusal_of(work, &ana, pack, machine, false) == WorkRefusal::other_work);
    machine.work->work = "small";
    CHECK(refusal_of(work, &ana, pack, machine, false) == WorkRefusal::none);
    machine.locked_by = "cy";
    CHECK(refusal_of(work, &ana, pack, machine, false) == WorkRefusal::locked);
}
