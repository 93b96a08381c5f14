#include "flows/air_alarm_work.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace holdpin {
namespace {

using Json = nlohmann::json;

std::string draft_key(const std::string& room) { return "air-alarm/" + room; }

template <typename State>
State state_in(const Json& value, State last) {
    const int number = value.is_number_integer() ? value.get<int>() : 0;
    return static_cast<State>(std::clamp(number, 0, static_cast<int>(last)));
}

}  // namespace

Head AlarmWork::head(const std::string& who) const {
    const auto at = heads.find(who);
    return at == heads.end() ? Head::unasked : at->second;
}

Result<AlarmWork> alarm_work(Database& db, const AirAlarm& alarm) {
    AlarmWork work;
    work.alarm = alarm.entry;
    const auto draft = TRY(find_draft(db, draft_key(alarm.room)));
    if (!draft) return work;
    const Json body = Json::parse(draft->body, nullptr, false);
    if (!body.is_object() || body.value("alarm", std::int64_t{0}) != alarm.entry) return work;
    work.state = state_in(body.value("state", Json(0)), AlarmState::lifted);
    work.from_ppm = body.value("from_ppm", kUnmeasuredPpm);
    work.since_ms = body.value("since_ms", std::int64_t{0});
    work.engine_runs = body.value("engine_runs", false);
    const Json heads = body.value("heads", Json::object());
    for (const auto& [who, head] : heads.items()) work.heads[who] = state_in(head, Head::missing);
    return work;
}

Result<void> keep_alarm_work(Session& session, const std::string& room, const AlarmWork& work) {
    Json heads = Json::object();
    for (const auto& [who, head] : work.heads) heads[who] = static_cast<int>(head);
    const Json body{{"alarm", work.alarm},       {"state", static_cast<int>(work.state)},
                    {"heads", heads},            {"from_ppm", work.from_ppm},
                    {"since_ms", work.since_ms}, {"engine_runs", work.engine_runs}};
    return keep_draft(session.db(), {draft_key(room), body.dump(), session.now()});
}

Result<void> drop_alarm_work(Session& session, const std::string& room) {
    return drop_draft(session.db(), draft_key(room));
}

std::vector<std::string> not_seen(const AirAlarm& alarm, const AlarmWork& work,
                                  const std::string& signer) {
    std::vector<std::string> open;
    for (const std::string& person : alarm.listed) {
        if (person != signer && work.head(person) != Head::seen) open.push_back(person);
    }
    const std::string others(kOthers);
    if (work.head(others) == Head::missing) open.push_back(others);
    return open;
}

Result<double> airing_from(const Session& session, const AirAlarm& alarm) {
    const auto last = TRY(last_air_reading(session.db(), alarm.room, ""));
    if (last && last->at_ms >= alarm.at_ms) return last->ppm;
    return alarm.cause == AlarmCause::reading ? alarm.ppm : kUnmeasuredPpm;
}

Result<AiringNow> airing_of(const Session& session, const std::string& room,
                            const AlarmWork& work) {
    const Room* found = session.content().room(room);
    if (found == nullptr) return Error{ErrorKind::absent, "there is no such room", room, ""};
    AiringQuestion question;
    question.room = found;
    question.doors = TRY(doors_of(session.db(), room));
    question.policy = session.content().site.air;
    question.from_ppm = work.from_ppm;
    question.since_ms = work.since_ms;
    question.now_ms = session.now();
    const auto last = TRY(last_air_reading(session.db(), room, ""));
    if (last && last->at_ms > work.since_ms) {
        question.from_ppm = last->ppm;
        question.since_ms = last->at_ms;
    }
    return airing_now(question);
}

}  // namespace holdpin
