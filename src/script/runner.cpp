#include "script/runner.hpp"

#include "base/text.hpp"
#include "script/shown.hpp"

namespace holdpin {
namespace {

constexpr std::int64_t kTapMs = 1000;

bool is_check(Verb verb) {
    return verb == Verb::expect || verb == Verb::expect_not || verb == Verb::expect_page ||
           verb == Verb::grey || verb == Verb::ledger || verb == Verb::no_ledger ||
           verb == Verb::picture;
}

Error unmet(std::string what) { return {ErrorKind::invalid, std::move(what), "", ""}; }

std::string failure_of(const Script& script, const Act& act, const Error& error, Hands& hands) {
    return script.file + ":" + std::to_string(act.line) + ": act " + std::to_string(act.number) +
           " (" + std::string(name_of(act.verb)) + "): " + error.sentence() +
           "; the page \"" + hands.page().id + "\" shows: " + joined(hands.shown(), " | ");
}

}  // namespace

RunReport Runner::run(const Script& script) {
    RunReport report;
    const std::uint64_t first = world_.book.ledger().size();
    for (const Act& act : script.acts) {
        if (!is_check(act.verb)) mark_ = world_.book.ledger().size();
        const auto done = is_check(act.verb) ? check(act) : carry_out(act);
        if (!done) {
            report.failure = failure_of(script, act, done.error(), hands_);
            break;
        }
        ++report.acts;
        if (told_) told_(act);
    }
    report.entries = world_.book.ledger().size() - first;
    return report;
}

Result<void> Runner::carry_out(const Act& act) {
    switch (act.verb) {
        case Verb::tap: return tap(act.text);
        case Verb::type:
        case Verb::pin: return hands_.type(act.text);
        case Verb::badge: return enter(act.text);
        case Verb::sign_on: return sign_on(act.text);
        case Verb::sign: return enter_pin_of(act.text);
        case Verb::answer: return answer(act);
        case Verb::walk: return walk(act);
        case Verb::guide: return guide();
        case Verb::quiz: return quiz(act.text == "right");
        case Verb::wait:
            clock_.pass(std::int64_t{act.minutes} * 60'000);
            hands_.time_passed();
            return {};
        case Verb::clock:
            clock_.set_wall(world_.zone.instant(act.date, act.minute_of_day));
            hands_.time_passed();
            return {};
        case Verb::power_cut:
            clock_.reboot();
            hands_.power_cut();
            return {};
        default: return {};
    }
}

Result<void> Runner::check(const Act& act) {
    const bool shown = is_shown(hands_.shown(), act.text);
    switch (act.verb) {
        case Verb::expect:
            if (!shown) return unmet("expected \"" + act.text + "\"");
            return {};
        case Verb::expect_not:
            if (shown) return unmet("did not expect \"" + act.text + "\"");
            return {};
        case Verb::grey: return check_grey(act.text);
        case Verb::expect_page:
            if (!hands_.page().id.starts_with(act.text)) {
                return unmet("expected the page \"" + act.text + "\"");
            }
            return {};
        case Verb::ledger: return check_ledger(act.text, true);
        case Verb::no_ledger: return check_ledger(act.text, false);
        case Verb::picture: return hands_.picture(act.text);
        default: return {};
    }
}

Result<void> Runner::check_grey(const std::string& target) {
    const auto targets = targets_of(hands_.page());
    const PageTarget* found = find_target(targets, target);
    if (found == nullptr) return unmet("there is no \"" + target + "\"");
    if (found->enabled) return unmet("expected \"" + target + "\" to be grey");
    return {};
}

Result<void> Runner::check_ledger(const std::string& kind, bool wanted) {
    Ledger& ledger = world_.book.ledger();
    std::vector<std::string> kinds;
    bool found = false;
    const auto first = static_cast<std::int64_t>(mark_) + 1;
    TRY(ledger.each(first, static_cast<std::int64_t>(ledger.size()),
                    [&](const Entry& entry) -> Result<void> {
                        kinds.push_back(entry.kind);
                        found = found || entry.kind == kind;
                        return {};
                    }));
    if (found == wanted) return {};
    return unmet((wanted ? "expected the entry \"" : "did not expect the entry \"") + kind +
                 "\"; the last act entered: " + (kinds.empty() ? "nothing" : joined(kinds, ", ")));
}

Result<void> Runner::tap(const std::string& target) {
    clock_.pass(kTapMs);
    return hands_.tap(target);
}

Result<void> Runner::go_on() {
    const std::string main = hands_.page().main.id;
    if (main.empty()) return unmet("the page has no main action");
    return tap(main);
}

Result<void> Runner::enter(const std::string& text) {
    TRY(hands_.type(text));
    return go_on();
}

Result<void> Runner::enter_pin_of(const std::string& badge) {
    if (!std::holds_alternative<PinBody>(hands_.page().body)) return unmet("no PIN is asked here");
    for (const Person& person : world_.content.site.people) {
        if (person.badge != badge || person.example_pin.empty()) continue;
        // Before a first signature the signing statement is signed.
        if (hands_.page().id.starts_with("statement/")) TRY(enter(person.example_pin));
        return enter(person.example_pin);
    }
    return unmet("the site lists no PIN for the badge " + badge);
}

Result<void> Runner::sign_on(const std::string& badge) {
    const Page page = hands_.page();
    const auto* floor = std::get_if<FloorBody>(&page.body);
    if (floor == nullptr || floor->large.id.empty()) return unmet("nobody can sign on here");
    TRY(tap(floor->large.id));
    while (hands_.page().id.starts_with("symptoms-asked/")) TRY(tap("ill:nobody"));
    TRY(enter(badge));
    if (std::holds_alternative<PinBody>(hands_.page().body)) return enter_pin_of(badge);
    return {};
}

}  // namespace holdpin
