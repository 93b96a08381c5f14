#include "flows/tags.hpp"

#include <algorithm>

#include "flows/plates.hpp"
#include "flows/tag_print.hpp"

namespace holdpin {
namespace {

constexpr int kTagLineMost = 48;  // letters of a line that a scanner types

Fact tag_fact(const Session& session, std::string kind, const Tag& tag) {
    Fact fact;
    fact.kind = std::move(kind);
    if (session.person()) fact.by = {session.person_id()};
    fact.about = tag.finding;
    fact.data = {{"machine", tag.machine}};
    return fact;
}

bool may_follow(const std::optional<Tag>& tag, TagEvent event, bool right = true) {
    return step(kTagTable, state_of(tag), event, [&](TagGuard guard) {
               return guard == TagGuard::always || (guard == TagGuard::right) == right;
           }).has_value();
}

std::vector<std::string> told_lines(const Session& session) {
    const Say say = session.say();
    std::vector<std::string> lines{say("tag.mismatch-line")};
    const auto on_call = person_with(session.db(), session.content().site.supervisor_on_call);
    if (on_call.ok() && on_call.value()) {
        lines.push_back(say("call.on-call", {{"name", on_call.value()->name},
                                             {"extension", on_call.value()->extension}}));
    }
    return lines;
}

// The wrong code, or no tag: a finding of its own, at the desk of the supervisor at once.
Result<Next> mismatch(Session& session, const Tag& tag, const char* reading) {
    std::vector<Fact> facts{tag_fact(session, "tag-read", tag)};
    facts.back().data["matches"] = false;
    facts.back().data["reading"] = reading;
    Fact finding;
    finding.kind = "finding-entered";
    finding.by = {session.person_id()};
    finding.data = {{"machine", tag.machine}, {"point", "tag-check"}, {"reading", reading},
                    {"outcome", "stop"},      {"hazard", "none"},     {"source", "tag"}};
    facts.push_back(std::move(finding));
    TRY(session.book().enter(std::move(facts)));
    return Next::done(std::make_unique<MessageFlow>(
        LugState::held, session.say()("report.title-" + std::string(reading)),
        told_lines(session)));
}

Result<Next> read_code(Session& session, const std::string& plate, const std::string& typed) {
    const auto tag = TRY(tag_of(session.db(), plate));
    const bool right = tag && typed_code(typed) == tag->code;
    if (!tag || !may_follow(tag, TagEvent::read, right)) return Next::done();
    if (!right) return mismatch(session, *tag, "tag-other");
    Fact fact = tag_fact(session, "tag-read", *tag);
    fact.data["matches"] = true;
    TRY(session.book().enter(fact));
    return Next::done();
}

}  // namespace

TagState state_of(const std::optional<Tag>& tag) {
    if (!tag) return TagState::none;
    return tag->put_up ? TagState::up : TagState::issued;
}

Result<void> add_tag(Session& session, const std::string& machine, std::vector<Fact>& facts) {
    const auto tag = TRY(tag_of(session.db(), machine));
    if (!may_follow(tag, TagEvent::hold)) return {};
    Tag made;
    made.machine = machine;
    made.finding = static_cast<std::int64_t>(session.book().ledger().size() + facts.size());
    facts.push_back(tag_fact(session, "tag-issued", made));
    facts.back().data["code"] = tag_code(session.book().random().below(kTagCodes));
    return {};
}

Result<Page> TagFlow::page(const Session& session) const {
    const Say say = session.say();
    Page page = session.blank("tag/" + plate_);
    page.middle = say("tag.middle", {{"machine", plate_}});
    const auto tag = TRY(tag_of(session.db(), plate_));
    const TagPrinter* printer = session.world().tags;
    TagBody body;
    body.plate = plate_;
    body.heading = say("signal.danger") + " · " + say("tag.do-not-start");
    body.code_label = say("tag.code");
    body.hint = say(printer == nullptr ? "tag-print.hint-by-hand" : "tag-print.hint");
    if (tag) {
        const TagCard card = TRY(tag_card(session, *tag, say.language()));
        body.code = card.code;
        body.reason = card.reason;
        body.lines = {card.by.empty() ? card.date : card.date + " · " + card.by};
        body.qr = tag_line(card.machine, card.code, card.entry);
    }
    if (tag && printer != nullptr) {
        body.print = {"print", say("tag-print.button"),
                      say(printer->has_printer() ? "tag-print.on-printer" : "tag-print.to-folder"),
                      true, ""};
    }
    body.remark = remark_;
    body.remark_is_held = failed_;
    page.body = std::move(body);
    page.back = session.back_button();
    page.main = {"main", say("tag.hangs"), say("tag.hangs-second"), tag.has_value(), ""};
    return page;
}

Result<Next> TagFlow::print(Session& session) {
    const auto tag = TRY(tag_of(session.db(), plate_));
    if (!may_follow(tag, TagEvent::print)) return Next::stay();
    TagPrinted printed = TRY(print_tag(session, *tag));
    remark_ = std::move(printed.remark);
    failed_ = !printed.out;
    return Next::stay();
}

Result<Next> TagFlow::act(Session& session, const Action& action) {
    if (action.id == "print") return print(session);
    if (action.id != "main") return then_(session);
    const auto tag = TRY(tag_of(session.db(), plate_));
    if (may_follow(tag, TagEvent::put_up)) {
        Fact fact = tag_fact(session, "tag-put-up", *tag);
        fact.data["code"] = tag->code;
        TRY(session.book().enter(fact));
    }
    return then_(session);
}

Result<Next> put_tag_on(Session& session, const std::string& plate) {
    const auto tag = TRY(tag_of(session.db(), plate));
    if (!tag || tag->put_up) return Next::finish();
    return Next::done(std::make_unique<TagFlow>(
        plate, [](Session&) -> Result<Next> { return Next::finish(); }));
}

Result<std::vector<Row>> tag_rows(const Session& session, const std::string& plate) {
    std::vector<Row> rows;
    if (!TRY(tag_of(session.db(), plate))) return rows;
    Row row;
    row.id = kTagAgain;
    row.label = session.say()("tag-print.again", {{"machine", plate}});
    row.second = session.say()("tag-print.again-second");
    rows.push_back(std::move(row));
    return rows;
}

Result<Next> open_tag_again(Session& session, const std::string& plate) {
    if (!TRY(tag_of(session.db(), plate))) return Next::stay();
    return Next::push(std::make_unique<TagFlow>(
        plate, [](Session&) -> Result<Next> { return Next::done(); }));
}

std::unique_ptr<Flow> tag_question(const Session& session, const std::string& plate) {
    const Say say = session.say();
    GridBody body;
    body.heading = say("tag.ask", {{"machine", plate}});
    body.remark = say("tag.ask-remark");
    body.tiles = {
        {"tag:there", say("tag.there"), say("tag.there-second"), "tag-there", {}, true, ""},
        {"tag:none", say("tag.none"), say("tag.none-second"), "tag-none", {}, true, ""}};
    return std::make_unique<PickFlow>(
        "tag-check/" + plate, std::move(body),
        [plate](Session& s, const std::string& id) -> Result<Next> {
            const auto tag = TRY(tag_of(s.db(), plate));
            if (!tag || !may_follow(tag, TagEvent::read)) return Next::done();
            if (id == "tag:none") return mismatch(s, *tag, "tag-missing");
            TextBody text;
            text.heading = s.say()("tag.type", {{"machine", plate}});
            text.hint = s.say()("tag-print.read-hint");
            text.codes = true;
            text.most = kTagLineMost;
            return Next::push(std::make_unique<TextFlow>(
                "tag-code/" + plate, std::move(text),
                [plate](Session& inner, const std::string& typed) {
                    return read_code(inner, plate, typed);
                }));
        });
}

Result<std::string> tag_to_take_off(const Session& session, const std::string& plate,
                                    std::int64_t closed_finding) {
    const auto tag = TRY(tag_of(session.db(), plate));
    if (!tag) return std::string();
    const MachineState machine = TRY(machine_state(session.db(), plate));
    const bool needed = std::any_of(
        machine.findings.begin(), machine.findings.end(), [&](const OpenFinding& finding) {
            return finding.outcome == Outcome::stop && finding.entry != closed_finding;
        });
    return needed ? std::string() : tag->code;
}

}  // namespace holdpin
