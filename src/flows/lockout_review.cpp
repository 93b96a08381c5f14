#include "flows/lockout_review.hpp"

#include <algorithm>

#include "flows/desk.hpp"
#include "flows/lockout_work.hpp"
#include "flows/plates.hpp"
#include "records/lockout.hpp"

namespace holdpin {
namespace {

Row to_read(const std::string& name, const std::string& text) {
    Row row;
    row.label = name;
    row.second = text;
    row.to_read = true;
    return row;
}

std::vector<Row> procedure_text_rows(const Session& session, const MachineClass& machine_class,
                                     bool after_sources) {
    const Say say = session.say();
    std::vector<Row> rows;
    for (const ProcedureText& one : kProcedureTexts) {
        if (one.after_sources != after_sources) continue;
        rows.push_back(to_read(say("procedure." + std::string(one.key)),
                               say(machine_class.procedure.*one.text)));
    }
    return rows;
}

void add_source_rows(const Session& session, const MachineClass& machine_class,
                     const Lockout& state, std::vector<Row>& rows) {
    const Say say = session.say();
    for (const std::string& prop : state.plan.props) {
        rows.push_back(
            to_read(prop_name(session, state.machine, prop), say("lockout-review.prop")));
    }
    for (const Energy& energy : machine_class.energies) {
        std::string text = say(energy.isolate);
        if (energy.tag_only) text += " " + say(energy.extra_measure);
        rows.push_back(to_read(say(energy.name), text));
    }
}

}  // namespace

Result<bool> review_is_due(const Session& session, const std::string& machine_class) {
    std::int64_t last_ms = TRY(procedure_last_used_ms(session.db(), machine_class));
    const auto inspected = TRY(procedure_inspected(session.db(), machine_class, "lockout"));
    if (inspected) last_ms = std::max(last_ms, inspected->at_ms);
    std::optional<Date> last;
    if (last_ms != 0) last = session.world().zone.local(last_ms).date;
    return is_review_due(last, session.today());
}

Page review_page(const Session& session, const Lockout& state) {
    const Say say = session.say();
    Page page = session.blank("lockout/" + state.machine + "/reviewing");
    page.middle = say("lockout.title", {{"machine", state.machine}}) + " · " +
                  say("lockout.step-reviewing");
    ListBody body;
    body.heading = say("lockout-review.heading");
    body.remark = say("lockout-review.remark");
    if (const MachineClass* machine_class = class_of(session, state.machine)) {
        body.rows = procedure_text_rows(session, *machine_class, false);
        add_source_rows(session, *machine_class, state, body.rows);
        for (Row& row : procedure_text_rows(session, *machine_class, true)) {
            body.rows.push_back(std::move(row));
        }
    }
    body.rows.push_back(
        work_row("board", say("lockout.others"), say("lockout.others-second"), ""));
    page.body = std::move(body);
    page.back = session.back_button();
    page.read_first = say("lockout-review.read-first");
    page.main = {"done", say("lockout.done-reviewing"), "", true, ""};
    return page;
}

}  // namespace holdpin
