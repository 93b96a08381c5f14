// Reads jobs at machines: their steps, and what each may be answered with.
#include "content/draft.hpp"
#include "content/node_reader.hpp"
#include "content/read_parts.hpp"

namespace holdpin {
namespace {

const NodeReader::Names<WorkAsk> kAsks{{"act", WorkAsk::act},
                                       {"choose", WorkAsk::choose},
                                       {"place", WorkAsk::place},
                                       {"drain", WorkAsk::drain},
                                       {"cylinder", WorkAsk::cylinder},
                                       {"product", WorkAsk::product}};
const NodeReader::Names<WorkDoes> kDoes{{"nothing", WorkDoes::nothing},
                                        {"cylinder-out", WorkDoes::cylinder_out},
                                        {"cylinder-in", WorkDoes::cylinder_in},
                                        {"cylinder-aside", WorkDoes::cylinder_aside},
                                        {"fitted-aside", WorkDoes::fitted_aside},
                                        {"floor-wet", WorkDoes::floor_wet},
                                        {"floor-dry", WorkDoes::floor_dry},
                                        {"coupling-tight", WorkDoes::coupling_tight},
                                        {"hopper-up", WorkDoes::hopper_up},
                                        {"hopper-down", WorkDoes::hopper_down}};
const NodeReader::Names<WorkEnds> kEnds{
    {"no", WorkEnds::no}, {"stop", WorkEnds::stop}, {"leave", WorkEnds::leave}};
const NodeReader::Names<WorkNeeds> kNeeds{{"engine", WorkNeeds::engine},
                                          {"tank", WorkNeeds::tank},
                                          {"raised-hopper", WorkNeeds::raised_hopper}};

WorkAnswer read_answer(NodeReader& reader) {
    WorkAnswer answer;
    answer.id = reader.id("id");
    answer.label = reader.text("label");
    answer.drawing = reader.id("drawing", Need::may);
    answer.then = reader.id("then", Need::may);
    answer.does = reader.choice<WorkDoes>("does", kDoes, WorkDoes::nothing);
    answer.ends = reader.choice<WorkEnds>("ends", kEnds, WorkEnds::no);
    answer.finding = reader.text("finding", Need::may);
    answer.hazard = reader.choice<Hazard>("hazard", names_up_to(Hazard::electrical), Hazard::none);
    answer.sheet = reader.id("sheet", Need::may);
    answer.remark = reader.text("remark", Need::may);
    answer.ladder = reader.ids("ladder", Need::may);
    answer.lockout = reader.id("lockout", Need::may);
    reader.done();
    return answer;
}

// The answer that the file does not write: "done", or the thing that was chosen.
void add_own_answer(WorkStep& step, WorkDoes does) {
    if (step.ask == WorkAsk::choose) return;
    WorkAnswer answer;
    answer.id = step.ask == WorkAsk::act ? kWorkDone : kWorkChosen;
    answer.does = does;
    step.answers.push_back(std::move(answer));
}

WorkStep read_work_step(NodeReader& reader) {
    WorkStep step;
    step.id = reader.id("id");
    step.ask = reader.choice<WorkAsk>("ask", kAsks, WorkAsk::act);
    step.action = reader.text("action");
    step.key_point = reader.text("key_point");
    step.reason = reader.text("reason", Need::may);
    step.picture = read_picture(reader);
    step.footing = reader.id("footing");
    step.then = reader.id("then", Need::may);
    step.with_hopper = reader.flag("with_hopper", false);
    step.with_raised_hopper = reader.flag("with_raised_hopper", false);
    step.warnings = read_warnings(reader);
    add_own_answer(step, reader.choice<WorkDoes>("does", kDoes, WorkDoes::nothing));
    for (auto& below : reader.tables("answer", Need::may)) {
        step.answers.push_back(read_answer(below));
    }
    reader.done();
    return step;
}

}  // namespace

Work read_work(const Spot& file, Faults& faults) {
    NodeReader reader(file, faults);
    Work work;
    work.id = reader.id("id");
    work.title = reader.text("title");
    work.short_title = reader.text("short_title");
    work.needs = reader.choice("needs", kNeeds);
    work.endorsement = reader.id("endorsement", Need::may);
    work.finished = reader.text("finished");
    for (auto& below : reader.tables("step", Need::must)) {
        work.steps.push_back(read_work_step(below));
    }
    reader.done();
    return work;
}

}  // namespace holdpin
