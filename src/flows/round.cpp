#include "flows/round.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

#include "flows/emergency.hpp"
#include "flows/machine.hpp"
#include "flows/pieces.hpp"
#include "flows/plates.hpp"
#include "flows/tags.hpp"
#include "rules/numbers.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

constexpr std::string_view kReading = "reading:";
constexpr std::string_view kMark = "mark:";
constexpr std::string_view kWithdraw = "withdraw:";

const Reading* reading_of(const Point& point, const std::string& id) {
    const auto at = std::find_if(point.readings.begin(), point.readings.end(),
                                 [&](const Reading& reading) { return reading.id == id; });
    return at == point.readings.end() ? nullptr : &*at;
}

std::unique_ptr<Flow> tag_hangs(const Session& session, const std::string& plate) {
    const Say say = session.say();
    return refusal(session, say("tag-hangs.heading", {{"machine", plate}}), say("tag-hangs.line"));
}

}  // namespace

// ---- opening and drafts --------------------------------------------------------------------

Result<std::unique_ptr<Flow>> RoundFlow::open(const Session& session, const std::string& plate,
                                              RoundPurpose purpose) {
    const MachineClass* machine_class = class_of(session, plate);
    const bool before = purpose == RoundPurpose::start;
    const Round* round = machine_class == nullptr
                             ? nullptr
                             : session.pack().round(before ? machine_class->round_before
                                                           : machine_class->round_after);
    if (round == nullptr) {
        return Error{ErrorKind::absent, "there is no round for this machine", plate,
                     "tell the author"};
    }
    std::unique_ptr<RoundFlow> flow(
        new RoundFlow(*round, plate, session.person_id(), purpose));
    flow->work_.started_ms = session.now();
    if (before) {
        flow->work_.takeover = takeover_enough(TRY(machine_state(session.db(), plate)),
                                               session.pack().digest("round", round->id),
                                               session.work_shift());
    }
    const auto draft = TRY(find_draft(session.db(), flow->draft_key()));
    if (draft && Json::parse(draft->body, nullptr, false).value("digest", "") ==
                     session.pack().digest("round", round->id)) {
        flow->take_up(draft->body);
    }
    flow->choose_points();
    return std::unique_ptr<Flow>(std::move(flow));
}

void RoundFlow::choose_points() {
    for (const Station& station : round_.stations) {
        for (const Point& point : station.points) {
            if (!work_.takeover || point.takeover) points_.push_back(&point);
        }
    }
}

std::string RoundFlow::draft_key() const {
    return "round/" + person_ + "/" + plate_ + "/" + purpose_name(purpose_);
}

std::string RoundFlow::draft_body(const Session& session) const {
    Json answers = Json::object();
    for (const auto& [id, answer] : work_.answers) {
        answers[id] = {{"reading", answer.reading},
                       {"value", answer.value_tenths},
                       {"at_ms", answer.at_ms},
                       {"finding", answer.finding}};
    }
    return Json{{"digest", session.pack().digest("round", round_.id)},
                {"state", static_cast<int>(work_.state)},
                {"at", work_.at},
                {"started_ms", work_.started_ms},
                {"takeover", work_.takeover},
                {"answers", answers}}
        .dump();
}

void RoundFlow::take_up(const std::string& draft) {
    const Json body = Json::parse(draft);
    work_.state = static_cast<RoundState>(body.value("state", 0));
    work_.at = body.value("at", std::size_t{0});
    work_.started_ms = body.value("started_ms", std::int64_t{0});
    work_.takeover = body.value("takeover", false);
    const Json answers = body.value("answers", Json::object());
    for (const auto& [id, answer] : answers.items()) {
        work_.answers[id] = {answer.value("reading", ""), answer.value("value", std::int64_t{0}),
                             answer.value("at_ms", std::int64_t{0}),
                             answer.value("finding", std::int64_t{0})};
    }
}

Result<void> RoundFlow::keep(Session& session) const {
    return keep_draft(session.db(), {draft_key(), draft_body(session), session.now()});
}

Result<std::unique_ptr<Flow>> unfinished_round(const Session& session) {
    const std::string prefix = "round/" + session.person_id() + "/";
    const auto drafts = TRY(drafts_under(session.db(), prefix));
    for (const Draft& draft : drafts) {
        const auto parts = split(draft.key, '/');
        if (parts.size() == 4 && parts[3] == "before") {
            return RoundFlow::open(session, parts[2], RoundPurpose::start);
        }
    }
    return std::unique_ptr<Flow>();
}

// ---- reading --------------------------------------------------------------------------------

const Station& RoundFlow::station_of(const Point& point) const {
    for (const Station& station : round_.stations) {
        for (const Point& one : station.points) {
            if (&one == &point) return station;
        }
    }
    return round_.stations.front();
}

const RoundFlow::Answer* RoundFlow::answer_to(const Point& point) const {
    const auto at = work_.answers.find(point.id);
    return at == work_.answers.end() ? nullptr : &at->second;
}

std::size_t RoundFlow::finding_count() const {
    return static_cast<std::size_t>(
        std::count_if(work_.answers.begin(), work_.answers.end(),
                      [](const auto& answer) { return answer.second.finding != 0; }));
}

bool RoundFlow::holds(RoundGuard guard, Outcome outcome) const {
    const bool more = std::any_of(points_.begin(), points_.end(), [&](const Point* one) {
        return one != points_[work_.at] && answer_to(*one) == nullptr;
    });
    switch (guard) {
        case RoundGuard::always: return true;
        case RoundGuard::finding: return outcome != Outcome::fine;
        case RoundGuard::fine_more: return outcome == Outcome::fine && more;
        case RoundGuard::fine_last: return outcome == Outcome::fine && !more;
        case RoundGuard::more: return more;
        case RoundGuard::last: return !more;
    }
    return false;
}

Fact RoundFlow::finding_fact(const Answer& answer, Outcome outcome) const {
    Fact fact;
    fact.kind = "finding-entered";
    fact.by = {person_};
    fact.data = {{"machine", plate_},
                 {"point", point().id},
                 {"reading", answer.reading.empty() ? tenths_text(answer.value_tenths)
                                                    : answer.reading},
                 {"outcome", std::string(name_of(outcome))},
                 {"hazard", std::string(name_of(point().hazard))},
                 {"source", "round"}};
    return fact;
}

Fact RoundFlow::withdrawn_fact(std::int64_t finding) const {
    Fact fact;
    fact.kind = "finding-withdrawn";
    fact.by = {person_};
    fact.about = finding;
    fact.data = {{"machine", plate_}};
    return fact;
}

// With its tag on the start control a finding is no slip any more; see the table in tags.hpp.
Result<bool> RoundFlow::tag_hangs_for(const Session& session, std::int64_t finding) const {
    const auto tag = TRY(tag_of(session.db(), plate_));
    if (!tag || !tag->put_up) return false;
    return !TRY(tag_to_take_off(session, plate_, finding)).empty();
}

// Stores a reading and, where it is a finding, the finding; an earlier finding of the same point is
// withdrawn in the same transaction.
Result<Next> RoundFlow::read(Session& session, Answer answer, Outcome outcome) {
    const auto row = step(kRoundTable, work_.state, RoundEvent::read,
                          [&](RoundGuard guard) { return holds(guard, outcome); });
    if (!row) return Next::stay();
    const Work before = work_;
    std::vector<Fact> facts;
    const Answer* old = answer_to(point());
    if (old != nullptr && old->finding != 0) {
        if (outcome != Outcome::stop && TRY(tag_hangs_for(session, old->finding))) {
            return Next::push(tag_hangs(session, plate_));
        }
        facts.push_back(withdrawn_fact(old->finding));
    }
    if (outcome != Outcome::fine) {
        facts.push_back(finding_fact(answer, outcome));
        facts.back().content = session.pack().digest("round", round_.id);
        answer.finding = static_cast<std::int64_t>(session.book().ledger().size() + facts.size());
        if (outcome == Outcome::stop) TRY(add_tag(session, plate_, facts));
    }
    work_.answers[point().id] = answer;
    work_.state = row->to;
    if (work_.state == RoundState::asking) {
        const auto next = std::find_if(points_.begin(), points_.end(), [&](const Point* one) {
            return answer_to(*one) == nullptr;
        });
        work_.at = static_cast<std::size_t>(next - points_.begin());
    }
    const auto stored = session.book().enter(std::move(facts), [&] { return keep(session); });
    if (!stored) {
        work_ = before;
        return stored.error();
    }
    doubt_.clear();
    return moved_on(session);
}

Result<Next> RoundFlow::read_tile(Session& session, const std::string& id) {
    const Reading* reading = reading_of(point(), id);
    if (reading == nullptr) return Next::stay();
    Answer answer;
    answer.reading = id;
    answer.at_ms = session.now();
    const std::string sheet = reading->sheet;
    auto next = TRY(read(session, answer, reading->outcome));
    if (sheet.empty()) return next;
    return Next::push(std::make_unique<SheetFlow>(sheet));
}

std::int64_t RoundFlow::last_value(const Session& session, const NumberPoint& number) const {
    const auto state = machine_state(session.db(), plate_);
    if (!state.ok()) return -1;
    return number.keeps == "hours" ? state.value().hours_tenths : -1;
}

// A value that does not fit is asked for twice: typing slips are likelier than odd meters.
Result<Next> RoundFlow::read_number(Session& session, const std::string& typed) {
    const NumberPoint& number = *point().number;
    const auto value = parse_tenths(typed);
    const NumberJudgement judgement =
        value.ok() ? judge(number, value.value(), last_value(session, number))
                   : NumberJudgement::out_of_range;
    const bool odd = judgement != NumberJudgement::fine && judgement != NumberJudgement::low;
    if (judgement == NumberJudgement::out_of_range || (odd && doubt_ != typed)) {
        doubt_ = typed;
        return Next::stay();
    }
    Answer answer;
    answer.value_tenths = value.value();
    answer.at_ms = session.now();
    auto next = TRY(read(session, answer, outcome_of(number, judgement)));
    return work_.state == RoundState::waiting ? go(session, RoundEvent::next) : std::move(next);
}

Result<Next> RoundFlow::go(Session& session, RoundEvent event) {
    const auto row = step(kRoundTable, work_.state, event,
                          [&](RoundGuard guard) { return holds(guard, Outcome::note); });
    if (!row) return Next::stay();
    work_.state = row->to;
    if (work_.state == RoundState::asking) {
        const auto next = std::find_if(points_.begin(), points_.end(), [&](const Point* one) {
            return answer_to(*one) == nullptr;
        });
        work_.at = static_cast<std::size_t>(next - points_.begin());
    }
    TRY(keep(session));
    return Next::stay();
}

Result<Next> RoundFlow::withdraw(Session& session, const std::string& point_id) {
    const auto at = std::find_if(points_.begin(), points_.end(),
                                 [&](const Point* one) { return one->id == point_id; });
    if (at == points_.end() || answer_to(**at) == nullptr || answer_to(**at)->finding == 0) {
        return Next::stay();
    }
    if (TRY(tag_hangs_for(session, answer_to(**at)->finding))) {
        return Next::push(tag_hangs(session, plate_));
    }
    const Work before = work_;
    const Fact fact = withdrawn_fact(answer_to(**at)->finding);
    work_.answers.erase(point_id);
    work_.at = static_cast<std::size_t>(at - points_.begin());
    work_.state = RoundState::asking;
    const auto stored = session.book().enter(fact, [&] { return keep(session); });
    if (!stored) {
        work_ = before;
        return stored.error();
    }
    return Next::stay();
}

Result<Next> RoundFlow::back(Session& session) {
    if (work_.state != RoundState::reviewing && work_.at == 0) return Next::back();
    if (work_.state != RoundState::reviewing) --work_.at;
    work_.state = answer_to(point()) == nullptr ? RoundState::asking : RoundState::waiting;
    TRY(keep(session));
    return Next::stay();
}

// ---- all together -------------------------------------------------------------------------

// A round with nothing found is signed at once; with findings they are looked over first.
Result<Next> RoundFlow::moved_on(Session& session) {
    const bool complete = work_.state == RoundState::reviewing;
    return complete && finding_count() == 0 ? ask_signature(session) : Next::stay();
}

Result<Next> RoundFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return back(session);
    if (action.id == "sign" && work_.state == RoundState::reviewing) return ask_signature(session);
    if (action.id.starts_with(kWithdraw) && work_.state == RoundState::reviewing) {
        return withdraw(session, action.id.substr(kWithdraw.size()));
    }
    if (work_.state == RoundState::reviewing) return Next::stay();
    if (action.id.starts_with(kMark) && point().number) {
        return read_number(session, action.id.substr(kMark.size()));
    }
    if (action.id == "next" && point().number) return read_number(session, action.arg);
    if (action.id == "next") return go(session, RoundEvent::next);
    if (action.id.starts_with(kReading)) {
        return read_tile(session, action.id.substr(kReading.size()));
    }
    return Next::stay();
}

}  // namespace holdpin
