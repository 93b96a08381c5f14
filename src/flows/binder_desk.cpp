#include "flows/binder_desk.hpp"

#include <algorithm>
#include <array>

#include "flows/binder_work.hpp"

namespace holdpin {
namespace {

constexpr std::array kPeriods{"all", "year", "month"};
constexpr int kMonthDays = 30;
constexpr std::int64_t kLookAgainMs = 500;

Page binder_page(const Session& session, const std::string& id) {
    Page page = session.blank("binder/" + id);
    page.middle = session.say()("binder.title");
    page.back = session.back_button();
    return page;
}

Page progress_page(const Session& session, const BinderState& state) {
    const Say say = session.say();
    Page page = binder_page(session, "progress");
    ProgressBody body;
    body.heading = say(state.cancelling ? "binder.cancelling" : "binder.running");
    body.percent = state.total > 0 ? std::clamp(state.done * 100 / state.total, 0, 100) : 0;
    body.word = say("binder.percent", {{"percent", std::to_string(body.percent)}});
    body.lines = {say("binder.running-copy"), say("binder.running-stick")};
    page.body = std::move(body);
    if (!state.cancelling) {
        page.main = {"cancel", say("binder.cancel"), say("binder.cancel-second"), true, ""};
    }
    page.next_change_ms = std::min(page.next_change_ms, session.now() + kLookAgainMs);
    return page;
}

MessageBody result_of(const Say& say, const BinderState& state) {
    if (state.phase == BinderPhase::cancelled) {
        return {LugState::unasked, say("binder.cancelled"), {say("binder.cancelled-line")}};
    }
    if (state.phase == BinderPhase::failed) {
        return {LugState::held, say("binder.failed"), {state.what, say("binder.failed-line")}};
    }
    const std::size_t slash = state.path.rfind('/');
    const std::string count = with_thousands(std::to_string(state.sealed));
    return {LugState::unasked,
            say("binder.done"),
            {state.path.substr(0, slash), state.path.substr(slash + 1),
             say("binder.done-seal", {{"count", count}}),
             say("binder.done-witness", {{"code", state.witness},
                                         {"count", std::to_string(state.sealed)}}),
             say("binder.done-private")}};
}

Page result_page(const Session& session, const BinderState& state) {
    const Say say = session.say();
    Page page = binder_page(session, "result");
    page.body = result_of(say, state);
    page.main = {"close", say("binder.close"), "", true, ""};
    return page;
}

}  // namespace

Page BinderDeskFlow::period_page(const Session& session) const {
    const Say say = session.say();
    Page page = binder_page(session, "period");
    GridBody body;
    body.heading = say("binder.period");
    body.remark = say("binder.period-remark");
    for (const std::string id : kPeriods) {
        Tile tile;
        tile.id = "period:" + id;
        tile.label = say("binder.period-" + id);
        tile.second = say("binder.second-" + id);
        body.tiles.push_back(std::move(tile));
    }
    page.body = std::move(body);
    return page;
}

Page BinderDeskFlow::place_page(const Session& session) const {
    const Say say = session.say();
    Page page = binder_page(session, "place");
    ListBody body;
    body.heading = say("binder.place");
    const auto places = session.world().binder->places();
    body.remark = say(places.empty() ? "binder.place-none" : "binder.place-remark");
    for (const BinderPlace& place : places) {
        Row row;
        row.id = "place:" + place.path;
        row.label = say(place.stick ? "binder.stick" : "binder.folder");
        row.second = place.path;
        body.rows.push_back(std::move(row));
    }
    page.body = std::move(body);
    page.main = {"look", say("binder.look"), say("binder.look-second"), true, ""};
    return page;
}

Result<Page> BinderDeskFlow::page(const Session& session) const {
    BinderWork* work = session.world().binder;
    if (work == nullptr) {
        Page page = binder_page(session, "none");
        page.body = MessageBody{LugState::unasked, session.say()("binder.title"),
                                {session.say()("binder.not-here")}};
        return page;
    }
    const BinderState state = work->state();
    if (state.phase == BinderPhase::running) return progress_page(session, state);
    if (state.phase != BinderPhase::idle) return result_page(session, state);
    return period_.empty() ? period_page(session) : place_page(session);
}

// Who took the records out, and which, is itself a record: names go with them.
Result<Next> BinderDeskFlow::begin(Session& session, const std::string& folder) {
    BinderOrder order;
    order.folder = folder;
    const Date today = session.today();
    if (period_ != "all") order.to = today;
    if (period_ == "year") order.from = Date{today.year, 1, 1};
    if (period_ == "month") order.from = add_days(today, 1 - kMonthDays);
    Fact fact;
    fact.kind = "binder-asked";
    fact.by = {session.person_id()};
    fact.data = {{"from", order.from ? iso_date(*order.from) : ""},
                 {"to", order.to ? iso_date(*order.to) : ""}};
    TRY(session.book().enter(fact));
    TRY(session.world().binder->start(order));
    return Next::stay();
}

Result<Next> BinderDeskFlow::act(Session& session, const Action& action) {
    BinderWork* work = session.world().binder;
    const BinderPhase phase = work == nullptr ? BinderPhase::failed : work->state().phase;
    if (action.id == "back" && phase == BinderPhase::idle && !period_.empty()) {
        period_.clear();
        return Next::stay();
    }
    if (action.id == "back" || work == nullptr) return Next::back();
    if (action.id == "cancel") work->cancel();
    if (action.id == "close") {
        work->forget();
        return Next::back();
    }
    if (phase != BinderPhase::idle || !session.may(Right::read_records)) return Next::stay();
    if (action.id.starts_with("period:")) period_ = action.id.substr(7);
    if (action.id.starts_with("place:") && !period_.empty()) {
        return begin(session, action.id.substr(6));
    }
    return Next::stay();
}

}  // namespace holdpin
