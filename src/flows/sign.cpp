#include "flows/sign.hpp"

#include <algorithm>

#include "base/sha256.hpp"
#include "flows/pieces.hpp"
#include "records/privacy.hpp"

namespace holdpin {

std::string signing_statement_digest(const Pack& pack, const std::string& language) {
    return hex(sha256(Say(pack, language)(kSigningStatement)));
}

Result<bool> needs_statement(const Session& session, const std::string& person) {
    const std::string language = session.say().language();
    const std::string accepted = TRY(accepted_statement(session.db(), person, language));
    return accepted != signing_statement_digest(session.pack(), language);
}

Result<std::string> draw_pin(Session& session, const Person& person, std::vector<std::string> by) {
    World& world = session.mutable_world();
    const std::string pin = world.pins.draw(session.content().site.policy.pin_digits, person.badge);
    const bool own = by == std::vector<std::string>{person.id};
    Fact fact = TRY(session.signed_fact("pin-issued", by.front(),
                                        own ? "took-a-new-pin" : "issued-a-pin",
                                        {{"person", person.id}, {"must_change", !own}}));
    if (by.size() > 1) {
        fact.data["second_signature"] = {{"name", TRY(name_hash_of(session.db(), by[1]))},
                                         {"meaning", "issued-a-pin"},
                                         {"language", session.say().language()}};
    }
    fact.by = std::move(by);
    TRY(session.book().enter(fact, [&] { return world.pins.set(person.id, pin, !own); }));
    return pin;
}

Result<Page> SignFlow::page(const Session& session) const {
    const Say say = session.say();
    const bool first = TRY(needs_statement(session, person_.id));
    Page page = session.blank((first ? "statement/" : "pin/") + person_.id);
    PinBody body;
    body.heading = first ? say("signing.heading") : heading_;
    body.name = person_.name;
    body.statement = first ? say(kSigningStatement) : statement_;
    body.remark = remark_;
    body.remark_is_held = !remark_.empty();
    body.digits = std::max(6, session.content().site.policy.pin_digits);
    page.middle = body.heading;
    page.body = body;
    page.back = session.back_button();
    page.main = {"main", say(first ? "signing.accept" : "pin.sign"), say("pin.second"), true, ""};
    return page;
}

Result<Next> SignFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id != "main") return Next::stay();
    PinBook& pins = session.mutable_world().pins;
    const PinCheck check = TRY(pins.check(person_.id, action.arg, session.now()));
    if (check.answer != PinAnswer::right) return refused(session, check);
    remark_.clear();
    if (check.failures > wrong_here_) session.tell(wrong_before(session, check));
    wrong_here_ = 0;
    // Before any signature, also that for a PIN of one's own.
    if (TRY(needs_statement(session, person_.id))) return accepted(session);
    const auto kept = TRY(pins.find(person_.id));
    if (kept && kept->must_change) {
        const Say say = session.say();
        const std::string pin = TRY(draw_pin(session, person_, {person_.id}));
        return Next::push(std::make_unique<MessageFlow>(
            LugState::unasked, say("pin.new", {{"name", person_.name}}),
            std::vector<std::string>{pin, say("pin.new-line"), say("pin.own-line")}));
    }
    return then_(session);
}

// Stays for the signature itself: what was to be signed is signed on a page of its own.
Result<Next> SignFlow::accepted(Session& session) {
    const std::string language = session.say().language();
    const std::string text = session.say()(kSigningStatement);
    const std::string digest = signing_statement_digest(session.pack(), language);
    Fact fact = TRY(session.signed_fact(
        "signing-statement-accepted", person_.id, "know-what-signing-means",
        {{"person", person_.id}, {"language", language}, {"statement", digest}}));
    fact.content = digest;
    TRY(session.book().enter(fact, [&] { return keep_content(session.db(), digest, text); }));
    return Next::stay();
}

// What was typed on this page just now is known to whoever stands before it.
std::unique_ptr<Flow> SignFlow::wrong_before(const Session& session, const PinCheck& check) const {
    const Say say = session.say();
    const std::string count = std::to_string(check.failures - wrong_here_);
    return std::make_unique<MessageFlow>(
        LugState::due, say("pin.tried", {{"name", person_.name}}),
        std::vector<std::string>{say("pin.tried-line", {{"count", count}})}, nullptr,
        say("bar.understood"));
}

Result<Next> SignFlow::refused(Session& session, const PinCheck& check) {
    if (check.answer == PinAnswer::wrong) ++wrong_here_;
    Fact fact;
    fact.kind = "sign-refused";
    fact.data = {{"person", person_.id}, {"failures", check.failures}};
    TRY(session.book().enter(fact));
    const Say say = session.say();
    switch (check.answer) {
        case PinAnswer::wrong: remark_ = say("pin.wrong"); break;
        case PinAnswer::wait:
            remark_ = say("pin.wait", {{"seconds", std::to_string((check.wait_ms + 999) / 1000)}});
            break;
        case PinAnswer::locked: remark_ = say("pin.locked"); break;
        case PinAnswer::unknown: remark_ = say("pin.none"); break;
        case PinAnswer::right: break;
    }
    return Next::stay();
}

}  // namespace holdpin
