#include "flows/session.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flows/air_alarm.hpp"
#include "flows/degraded.hpp"
#include "flows/emergency.hpp"
#include "flows/floor.hpp"
#include "flows/lockout_alarm.hpp"
#include "flows/pieces.hpp"
#include "flows/sounding.hpp"
#include "records/alarms.hpp"

namespace holdpin {

Next Next::stay() { return {}; }
Next Next::push(std::unique_ptr<Flow> flow) { return {Way::push, std::move(flow)}; }
Next Next::replace(std::unique_ptr<Flow> flow) { return {Way::replace, std::move(flow)}; }
Next Next::back() { return {Way::back, nullptr}; }
Next Next::done(std::unique_ptr<Flow> flow) { return {Way::done, std::move(flow)}; }
Next Next::finish(std::unique_ptr<Flow> flow) { return {Way::finish, std::move(flow)}; }
Next Next::unwind(std::unique_ptr<Flow> flow) { return {Way::unwind, std::move(flow)}; }
Next Next::sign_off() { return {Way::sign_off, nullptr}; }

namespace {
constexpr std::int64_t kCountdownMs = 30'000;  // the last part of the idle time is counted aloud
constexpr std::int64_t kNoShiftMs = 8 * 3'600'000LL;
constexpr int kNightFromMinute = 21 * 60;
constexpr int kNightToMinute = 6 * 60;
}  // namespace

Session::Session(World world) : world_(std::move(world)), language_(world_.content.site.language) {
    touched_ms_ = now();
    stack_.push_back(std::make_unique<FloorFlow>());
}

bool Session::may(Right right) const { return person_ && pack().grants(person_->duties, right); }

bool Session::night() const {
    const int minute = world_.zone.local(now()).minute;
    const bool dark = minute >= kNightFromMinute || minute < kNightToMinute;
    return dark != night_toggled_;
}

std::optional<ShiftWindow> Session::shift() const {
    return shift_at(content().site.shifts, world_.zone, now());
}

std::optional<ShiftWindow> Session::work_shift() const {
    const std::int64_t ahead_ms = content().site.policy.round_stale_minutes * 60'000LL;
    const auto coming = shift_at(content().site.shifts, world_.zone, now() + ahead_ms);
    return coming ? coming : shift();
}

std::int64_t Session::work_end_ms() const {
    const auto window = work_shift();
    return window ? window->end_ms : now() + kNoShiftMs;
}

std::string Session::clock(std::int64_t ms) const {
    return clock_text(world_.zone.local(ms).minute);
}

std::string Session::day(std::int64_t ms) const {
    const LocalTime local = world_.zone.local(ms);
    return say()("date.day", {{"weekday", say()(fmt::format("date.weekday-{}", local.weekday + 1))},
                              {"day", std::to_string(local.date.day)},
                              {"month", say()(fmt::format("date.month-{}", local.date.month))}});
}

std::string Session::date(Date date) const {
    return say()("date.full", {{"day", std::to_string(date.day)},
                               {"month", say()(fmt::format("date.month-{}", date.month))},
                               {"year", std::to_string(date.year)}});
}

std::string Session::when(std::int64_t ms) const { return day(ms) + ", " + clock(ms); }

std::string Session::name(const std::string& person) const {
    if (person.empty()) return say()("person.not-said");
    const auto found = person_with(db(), person);
    if (!found.ok() || !found.value()) return person;
    return found.value()->name == kErasedName ? say()("person.erased") : found.value()->name;
}

std::string Session::room_name(const std::string& room) const {
    const Room* found = content().room(room);
    return found == nullptr ? room : say()(found->name);
}

Page Session::blank(std::string id) const {
    Page page;
    page.id = std::move(id);
    page.language = language_;
    page.left = say()(content().site.name);
    page.right = person_ ? person_->name + " · " + clock(now()) : day(now()) + " · " + clock(now());
    if (content().site.example) page.example = say()("site.example");
    page.help = {"help", say()("bar.help"), "", true, ""};
    page.night = night();
    page.next_change_ms = (now() / 60'000 + 1) * 60'000;
    return page;
}

Button Session::back_button() const { return {"back", say()("bar.back"), "", true, ""}; }

Result<Fact> Session::signed_fact(std::string kind, const std::string& person, std::string meaning,
                                  nlohmann::json data) const {
    Fact fact;
    fact.kind = std::move(kind);
    fact.by = {person};
    fact.data = std::move(data);
    fact.data["signature"] = {{"name", TRY(name_hash_of(db(), person))},
                              {"meaning", std::move(meaning)},
                              {"language", language_}};
    return fact;
}

void Session::open_person(Person person) {
    language_ = person.language.empty() ? language_ : person.language;
    person_ = std::move(person);
    desk_open_ = false;
}

// Whether it can be entered or not, nobody stays signed on at an unattended glass.
void Session::sign_off() {
    std::optional<Error> failure;
    if (person_) {
        Fact fact;
        fact.kind = "signed-off";
        fact.by = {person_->id};
        if (const auto done = book().enter(fact); !done) failure = done.error();
    }
    person_.reset();
    desk_open_ = false;
    language_ = content().site.language;
    close_work();
    if (failure) note_failure(*failure);
}

// Down to the floor, but for what goes on without anybody.
void Session::close_work() {
    const auto over = std::remove_if(stack_.begin() + 1, stack_.end(), [](const auto& flow) {
        return !flow->outlives_session();
    });
    stack_.erase(over, stack_.end());
}

// An air alarm comes up by itself, over any page; what lies under it stays as it is. After a start
// those that still stand come up again. Records that cannot be read are for the page to tell.
void Session::show_new_alarms() {
    const auto alarms = standing_alarms(db());
    if (!alarms) return;
    for (const AirAlarm& alarm : alarms.value()) {
        if (alarm.entry <= alarms_shown_) continue;
        alarms_shown_ = alarm.entry;
        stack_.push_back(std::make_unique<AirAlarmFlow>(alarm.room));
    }
}

void Session::apply(Next next) {
    switch (next.way) {
        case Next::Way::stay: break;
        case Next::Way::push: stack_.push_back(std::move(next.flow)); break;
        case Next::Way::replace:
            if (stack_.size() > 1) stack_.pop_back();
            stack_.push_back(std::move(next.flow));
            break;
        case Next::Way::back:
            if (stack_.size() > 1) stack_.pop_back();
            break;
        case Next::Way::done:
        case Next::Way::finish:
            while (stack_.size() > 1 && stack_.back()->is_piece()) stack_.pop_back();
            if (next.way == Next::Way::finish && stack_.size() > 1) stack_.pop_back();
            if (next.flow) stack_.push_back(std::move(next.flow));
            break;
        case Next::Way::unwind:
            close_work();
            if (next.flow) stack_.push_back(std::move(next.flow));
            break;
        case Next::Way::sign_off: sign_off(); break;
    }
}

void Session::note_failure(const Error& error) {
    std::vector<std::string> lines{say()("failure.nothing-stored"), error.sentence()};
    if (auto body = degraded_body(say(), error)) {
        lines = std::move(body->lines);
        lines.front() = body->heading + ". " + lines.front();
        lines.insert(lines.begin(), say()("failure.on-paper"));
    }
    stack_.push_back(std::make_unique<MessageFlow>(LugState::held, say()("failure.heading"),
                                                   std::move(lines)));
}

Result<void> Session::watch() {
    TRY(clock_watch_.look(world_));
    return shift_seal_.look(world_, shift());
}

// A look that was missed comes up over whatever is open. True: it has just come up.
bool Session::watch_lockouts() {
    const auto missed = missed_lockouts(*this);
    if (!missed || missed.value().empty()) return false;
    const bool shown = std::any_of(stack_.begin(), stack_.end(),
                                   [](const auto& flow) { return flow->is_alarm(); });
    if (!shown) stack_.push_back(std::make_unique<LeaveZoneFlow>(missed.value().front()));
    return !shown;
}

void Session::act(const Action& action) {
    touched_ms_ = now();
    if (watch_lockouts() && action.id != "help") return;
    // Before anything that may fail: the sheets open whatever has happened.
    if (action.id == "help") return apply(Next::push(std::make_unique<EmergencyFlow>()));
    const auto watched = watch();
    if (!watched && stack_.back()->needs_records()) return note_failure(watched.error());
    if (action.id == "stay") return;
    auto next = stack_.back()->act(*this, action);
    if (next) {
        apply(std::move(next).value());
    } else {
        note_failure(next.error());
    }
    if (told_) stack_.push_back(std::move(told_));
}

// Before anything is entered without a touch, which would hide how the clock stood at the last
// entry. What fails here is tried again, and said, at the next touch.
void Session::tick() { static_cast<void>(watch()); }

void Session::look_around() {
    const std::int64_t idle_ms = content().site.policy.idle_seconds * 1000LL;
    if (person_ && now() - touched_ms_ >= idle_ms) sign_off();
    show_new_alarms();
    watch_lockouts();
}

Result<Page> Session::page() const {
    Page page = TRY(stack_.back()->page(*this));
    add_idle_watch(page);
    add_sound(*this, page);
    page.more_above = say()("scroll.above");
    page.more_below = say()("scroll.below");
    return page;
}

// The last seconds of a session are counted where all can see them.
void Session::add_idle_watch(Page& page) const {
    const std::int64_t due = next_lockout_due(*this).value_or(0);
    if (due != 0) page.next_change_ms = std::min(page.next_change_ms, due);
    if (!person_) return;
    const std::int64_t off_ms = touched_ms_ + content().site.policy.idle_seconds * 1000LL;
    const std::int64_t left_ms = off_ms - now();
    if (left_ms <= kCountdownMs) {
        const auto seconds = (left_ms + 999) / 1000;
        page.countdown = say()("bar.countdown", {{"seconds", std::to_string(seconds)}});
        page.next_change_ms = std::min(page.next_change_ms, now() + 1000);
    } else {
        page.next_change_ms = std::min(page.next_change_ms, off_ms - kCountdownMs);
    }
}

}  // namespace holdpin
