#include "flows/pieces.hpp"

#include <algorithm>

#include "records/lockout.hpp"

namespace holdpin {
namespace {

Tile* find_tile(std::vector<Tile>& tiles, const std::string& id) {
    const auto at = std::find_if(tiles.begin(), tiles.end(),
                                 [&](const Tile& tile) { return tile.id == id; });
    return at == tiles.end() ? nullptr : &*at;
}

}  // namespace

Result<Page> MessageFlow::page(const Session& session) const {
    Page page = session.blank("message");
    page.body = body_;
    page.back = session.back_button();
    const std::string label = main_label_.empty() ? session.say()("bar.go-on") : main_label_;
    page.main = {"main", label, "", true, ""};
    return page;
}

Result<Next> MessageFlow::act(Session& session, const Action& action) {
    if (action.id == "main" && then_) return then_(session);
    return Next::back();
}

Result<Page> PickFlow::page(const Session& session) const {
    Page page = session.blank(page_id_);
    page.body = body_;
    page.back = session.back_button();
    return page;
}

Result<Next> PickFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return on_back_ ? on_back_(session) : Result<Next>(Next::back());
    if (find_tile(body_.tiles, action.id) == nullptr) return Next::stay();
    return then_(session, action.id);
}

Result<Page> TickFlow::page(const Session& session) const {
    const auto ticked = std::count_if(list_.rows.begin(), list_.rows.end(),
                                      [](const Row& row) { return row.chosen; });
    const bool enough = list_.all ? ticked == static_cast<std::ptrdiff_t>(list_.rows.size())
                                  : ticked > 0 || list_.none_allowed;
    Page page = session.blank(list_.page_id);
    page.body = ListBody{list_.heading, list_.remark, list_.rows, true};
    page.back = session.back_button();
    page.main = {"main", list_.main_label, list_.main_second, enough,
                 session.say()(list_.all ? "tick.all-needed" : "tick.one-needed")};
    return page;
}

Result<Next> TickFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    std::vector<std::string> ticked;
    for (Row& row : list_.rows) {
        if (row.id == action.id && row.enabled) row.chosen = !row.chosen;
        if (row.chosen) ticked.push_back(row.id);
    }
    if (action.id != "main") return Next::stay();
    if (list_.all && ticked.size() != list_.rows.size()) return Next::stay();
    if (ticked.empty() && !list_.none_allowed) return Next::stay();
    return then_(session, ticked);
}

Result<Page> TextFlow::page(const Session& session) const {
    Page page = session.blank(page_id_);
    page.body = body_;
    page.back = session.back_button();
    page.main = {"main", session.say()("bar.go-on"), "", true, ""};
    return page;
}

Result<Next> TextFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id != "main") return Next::stay();
    const std::string text(trimmed(action.arg));
    if (text.empty()) {
        body_.remark = session.say()("text.empty");
        body_.remark_is_held = true;
        return Next::stay();
    }
    return then_(session, text);
}

Result<Page> NumberFlow::page(const Session& session) const {
    Page page = session.blank(page_id_);
    NumberBody body;
    body.question = ask_.question;
    body.look = ask_.look;
    body.unit = ask_.unit;
    body.decimal = !ask_.negative && !ask_.whole;
    body.sign = ask_.negative;
    body.remark = remark_;
    page.body = std::move(body);
    page.back = session.back_button();
    page.main = {"main", session.say()("bar.go-on"), "", true, ""};
    return page;
}

Result<Next> NumberFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id != "main") return Next::stay();
    const auto value = parse_decimal(action.arg);
    if (!value.ok() || (value.value() < 0 && !ask_.negative)) {
        remark_ = session.say()(ask_.negative ? "number.unclear-signed" : "number.unclear");
        return Next::stay();
    }
    return then_(session, action.arg);
}

Result<Page> BadgeFlow::page(const Session& session) const {
    Page page = session.blank("badge");
    page.middle = heading_;
    page.body = TextBody{.heading = session.say()("badge.ask"),
                         .hint = session.say()("badge.hint"),
                         .start = "",
                         .remark = remark_,
                         .remark_is_held = !remark_.empty(),
                         .codes = true,
                         .most = 12};
    page.back = session.back_button();
    page.main = {"main", session.say()("bar.go-on"), "", true, ""};
    return page;
}

Result<Next> BadgeFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id != "main") return Next::stay();
    const std::string badge(trimmed(action.arg));
    const auto found = TRY(person_with_badge(session.db(), badge));
    if (!found) {
        remark_ = session.say()("badge.unknown", {{"badge", badge}});
        Fact fact;
        fact.kind = "sign-on-refused";
        fact.data = {{"reason", "unknown-badge"}};
        TRY(session.book().enter(fact));
        return Next::stay();
    }
    // Whoever has to be told of a lock that was taken off signs on and hears that first.
    if (session.person() && found->id != session.person_id() &&
        !TRY(removals_to_tell(session.db(), found->id)).empty()) {
        remark_ = session.say()("lockout.told-first", {{"name", found->name}});
        return Next::stay();
    }
    return then_(session, *found);
}

std::unique_ptr<Flow> refusal(const Session& session, std::string heading, std::string line) {
    return std::make_unique<MessageFlow>(LugState::held, std::move(heading),
                                         std::vector<std::string>{std::move(line)}, nullptr,
                                         session.say()("bar.understood"));
}

}  // namespace holdpin
