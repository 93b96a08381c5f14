// A round walked to its end becomes an entry that is signed, and with it the machine is given back.
#include <nlohmann/json.hpp>

#include "flows/floor.hpp"
#include "flows/machine.hpp"
#include "flows/pieces.hpp"
#include "flows/round.hpp"
#include "flows/shift_book.hpp"
#include "rules/numbers.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

}  // namespace

const char* purpose_name(RoundPurpose purpose) {
    switch (purpose) {
        case RoundPurpose::start: return "before";
        case RoundPurpose::give_back: return "after";
        case RoundPurpose::close_for_other: break;
    }
    return "close";
}

Result<Next> RoundFlow::ask_signature(Session& session) {
    const Say say = session.say();
    const char* key =
        purpose_ == RoundPurpose::start ? "round.meaning-before" : "round.meaning-after";
    return Next::push(std::make_unique<SignFlow>(
        *session.person(), say("round.sign-heading", {{"machine", plate_}}),
        say(key, {{"machine", plate_}}) + " " +
            say("round.count", {{"points", std::to_string(points_.size())},
                                {"findings", std::to_string(finding_count())}}),
        [this](Session& s) { return sign(s); }));
}

Result<Fact> RoundFlow::walked_fact(Session& session) const {
    Json readings = Json::array();
    Json data{{"machine", plate_},
              {"round", round_.id},
              {"round_kind", std::string(name_of(round_.kind))},
              {"purpose", purpose_name(purpose_)},
              {"takeover", work_.takeover},
              {"started_ms", work_.started_ms},
              {"findings", finding_count()}};
    for (const Point* one : points_) {
        const Answer& answer = work_.answers.at(one->id);
        Json row{{"point", one->id}};
        if (session.content().site.policy.reading_times) row["at_ms"] = answer.at_ms;
        if (one->number) {
            row["value"] = tenths_text(answer.value_tenths);
            if (!one->number->keeps.empty()) data[one->number->keeps] = row["value"];
        } else {
            row["reading"] = answer.reading;
        }
        if (answer.finding != 0) row["finding"] = answer.finding;
        readings.push_back(std::move(row));
    }
    data["readings"] = std::move(readings);
    data["shift_end_ms"] = session.work_end_ms();
    Fact fact = TRY(session.signed_fact("round-signed", person_, "walked-and-read", data));
    fact.content = session.pack().digest("round", round_.id);
    return fact;
}

Result<Fact> RoundFlow::returned_fact(const Session& session) const {
    const MachineState state = TRY(machine_state(session.db(), plate_));
    Fact fact;
    fact.kind = "returned";
    fact.by = {person_};
    fact.data = {{"machine", plate_},
                 {"release", state.out ? state.out->entry : 0},
                 {"findings", finding_count()},
                 {"closed_for_other", purpose_ == RoundPurpose::close_for_other}};
    return fact;
}

Result<Next> RoundFlow::sign(Session& session) {
    std::vector<Fact> facts{TRY(walked_fact(session))};
    if (purpose_ != RoundPurpose::start) facts.push_back(TRY(returned_fact(session)));
    TRY(session.book().enter(std::move(facts),
                             [&] { return drop_draft(session.db(), draft_key()); }));
    work_.state = RoundState::done;
    if (purpose_ == RoundPurpose::give_back) return given_back(session);
    return after_signing(session, plate_);
}

Result<Next> RoundFlow::given_back(const Session& session) const {
    const Say say = session.say();
    std::vector<std::string> lines{say("round.given-back-line")};
    const std::string book =
        is_shift_change(session) ? TRY(shift_book_line(session)) : std::string();
    if (!book.empty()) lines.push_back(book);
    return Next::unwind(std::make_unique<MessageFlow>(
        LugState::open, say("round.given-back", {{"machine", plate_}}), std::move(lines),
        [](Session& s) { return leave_kiosk(s); }, say("handed.done")));
}

}  // namespace holdpin
