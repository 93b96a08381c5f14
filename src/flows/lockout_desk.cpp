#include "flows/lockout_desk.hpp"

#include <algorithm>

#include "flows/desk.hpp"
#include "flows/lockout_rights.hpp"
#include "flows/lockout_work.hpp"
#include "flows/pieces.hpp"

namespace holdpin {
namespace {

constexpr const char* kProcedure = "lockout";
constexpr int kUseMonths = 12;
constexpr std::size_t kNamesShown = 3;

// Whoever has held a key or a lock by this procedure within the year uses it.
Result<bool> uses(const Session& session, const MachineClass& machine_class,
                  const std::string& person) {
    const std::int64_t at_ms = TRY(procedure_used_ms(session.db(), machine_class.id, person));
    if (at_ms == 0) return false;
    const Date until = add_months(session.world().zone.local(at_ms).date, kUseMonths);
    return session.today() <= until;
}

Result<std::string> why_no_inspection(const Session& session, const MachineClass& machine_class) {
    const Say say = session.say();
    if (!session.person() || !may_lock_out(session, *session.person())) {
        return say("lockout.no-endorsement");
    }
    if (TRY(uses(session, machine_class, session.person_id()))) return say("lockout.inspect-user");
    return std::string();
}

// Who may inspect: the permit, of this site, and no use of the procedure within the year.
Result<std::string> inspectors(const Session& session, const MachineClass& machine_class) {
    std::vector<std::string> names;
    for (const Person& person : TRY(people(session.db()))) {
        if (!may_lock_out(session, person) || is_visitor(person)) continue;
        if (!TRY(uses(session, machine_class, person.id))) names.push_back(person.name);
    }
    if (names.empty()) return session.say()("lockout.no-inspector");
    if (names.size() > kNamesShown) names.resize(kNamesShown);
    return session.say()("lockout.inspectors", {{"names", joined(names, ", ")}});
}

Result<std::string> inspected_line(const Session& session, const MachineClass& machine_class) {
    const Say say = session.say();
    const auto inspected = TRY(procedure_inspected(session.db(), machine_class.id, kProcedure));
    if (!inspected) {
        return say("lockout.never-inspected") + " " + TRY(inspectors(session, machine_class));
    }
    const Date on = session.world().zone.local(inspected->at_ms).date;
    std::string line = say("lockout.inspected-on", {{"date", session.date(on)},
                                                    {"name", session.name(inspected->by)}});
    if (session.today() <= add_months(on, kInspectionMonths)) return line;
    return line + ". " + TRY(inspectors(session, machine_class));
}

// Of one machine: whoever signs has watched this one, and the certificate names it.
struct Inspection {
    std::string machine;
    const MachineClass& machine_class;
    std::vector<std::string> people;  // with whom it was gone through
};

Result<Next> sign_inspection(Session& session, const Inspection& done,
                             const std::string& remarks) {
    const Say say = session.say();
    SignedWork work;
    work.heading = say("lockout.inspect");
    work.statement =
        say("lockout.inspect-meaning", {{"machine", done.machine},
                                        {"class", say(done.machine_class.name)},
                                        {"count", std::to_string(done.people.size())}});
    work.kind = "lockout-procedure-inspected";
    work.meaning = "inspected-the-procedure";
    work.data = {{"machine", done.machine},
                 {"machine_class", done.machine_class.id},
                 {"procedure", kProcedure},
                 {"people", done.people}};
    work.private_text = remarks;
    work.about_person = session.person_id();
    work.text_key = "remarks";
    return Next::push(sign_work(session, std::move(work)));
}

Result<Next> ask_remarks(Session& session, Inspection done) {
    TextBody body;
    body.heading = session.say()("lockout.inspect-remarks");
    body.hint = session.say()("lockout.inspect-hint");
    return Next::push(std::make_unique<TextFlow>(
        "desk/inspect-remarks", std::move(body),
        [done = std::move(done)](Session& s, const std::string& text) {
            return sign_inspection(s, done, text);
        }));
}

// Where a tag stands in the place of a lock, those who operate the machine are gone through it with
// too: a tag holds only whoever knows what it says (1910.147(c)(6)(i)(D), from memory).
Result<bool> is_affected(const Session& session, const MachineClass& machine_class,
                         const std::string& person) {
    const bool tags = std::any_of(machine_class.energies.begin(), machine_class.energies.end(),
                                  [](const Energy& energy) { return energy.tag_only; });
    return tags && TRY(authorisation_of(session.db(), person, machine_class.id)).has_value();
}

}  // namespace

Result<std::vector<Row>> procedure_rows(const Session& session, const MachineClass& machine_class) {
    const Say say = session.say();
    std::vector<Row> rows;
    rows.push_back(work_row("inspect-procedure", say("lockout.inspect"),
                            TRY(inspected_line(session, machine_class)),
                            TRY(why_no_inspection(session, machine_class))));
    if (!machine_class.props.empty()) {
        const bool assessed = TRY(arm_alone_assessed(session, machine_class.id));
        rows.push_back(work_row("assess-arm", say("lockout.assess"),
                                say(assessed ? "lockout.assessed" : "lockout.not-assessed"),
                                TRY(why_not(session, Right::return_to_service, machine_class))));
    }
    return rows;
}

// The procedure is gone through with each person who is authorised for it; those are ticked.
Result<Next> inspect_procedure(Session& session, const std::string& machine,
                               const MachineClass& machine_class) {
    if (!TRY(why_no_inspection(session, machine_class)).empty()) return Next::stay();
    const Say say = session.say();
    TickList list;
    list.page_id = "desk/inspect-people";
    list.heading = say("lockout.inspect-people");
    list.remark = say("lockout.inspect-people-remark");
    list.main_label = say("bar.go-on");
    for (const Person& person : TRY(people(session.db()))) {
        if (person.id == session.person_id()) continue;
        const bool locks = may_lock_out(session, person);
        if (!locks && !TRY(is_affected(session, machine_class, person.id))) continue;
        Row row;
        row.id = person.id;
        row.label = person.name;
        const bool user = TRY(uses(session, machine_class, person.id));
        if (user) row.second = say("lockout.inspect-uses");
        if (!locks) row.second = say("lockout.inspect-affected");
        list.rows.push_back(std::move(row));
    }
    return Next::push(std::make_unique<TickFlow>(
        std::move(list),
        [machine, &machine_class](Session& s, const std::vector<std::string>& ticked) {
            return ask_remarks(s, {machine, machine_class, ticked});
        }));
}

Result<Next> assess_arm_alone(Session& session, const MachineClass& machine_class) {
    if (!TRY(why_not(session, Right::return_to_service, machine_class)).empty()) {
        return Next::stay();
    }
    TextBody body;
    body.heading = session.say()("lockout.assess-where");
    body.hint = session.say()("lockout.assess-hint");
    return Next::push(std::make_unique<TextFlow>(
        "desk/assess-arm", std::move(body),
        [&machine_class](Session& s, const std::string& text) -> Result<Next> {
            const Say say = s.say();
            SignedWork work;
            work.heading = say("lockout.assess");
            work.statement = say("lockout.assess-meaning", {{"class", say(machine_class.name)}});
            work.kind = "arm-alone-assessed";
            work.meaning = "assessed-in-writing";
            work.data = {{"machine_class", machine_class.id}};
            work.private_text = text;
            work.about_person = s.person_id();
            return Next::push(sign_work(s, std::move(work)));
        }));
}

}  // namespace holdpin
