#include "flows/two_people.hpp"

#include "flows/pieces.hpp"

namespace holdpin {
namespace {

bool may_be_second(const Session& session, const TwoPeople& ask, const Person& second) {
    if (second.id == session.person_id() || second.id == ask.concerned) return false;
    return !ask.second_may || session.pack().grants(second.duties, *ask.second_may);
}

Result<Next> ask_second(Session& session, const TwoPeople& ask, const ThenBoth& then) {
    return Next::push(std::make_unique<BadgeFlow>(
        session.say()("pin.second-person"),
        [ask, then](Session& s, const Person& second) -> Result<Next> {
            if (!may_be_second(s, ask, second)) {
                return Next::push(refusal(s, s.say()("pin.second-person"), ask.why_not));
            }
            return Next::push(std::make_unique<SignFlow>(
                second, ask.heading, ask.statement,
                [second, then](Session& t) { return then(t, second); }));
        }));
}

}  // namespace

std::unique_ptr<Flow> two_people(const Session& session, TwoPeople ask, ThenBoth then) {
    std::string heading = ask.heading;
    std::string statement = ask.statement;
    return std::make_unique<SignFlow>(
        *session.person(), std::move(heading), std::move(statement),
        [ask = std::move(ask), then = std::move(then)](Session& s) {
            return ask_second(s, ask, then);
        });
}

}  // namespace holdpin
