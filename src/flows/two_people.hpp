// What takes two different people: the one signed on signs first, then somebody else puts a badge
// and signs. Only then does the work go on; it is entered with both.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "flows/session.hpp"

namespace holdpin {

struct TwoPeople {
    std::string heading;
    std::string statement;            // what both sign
    std::string concerned;            // a person who cannot be the second; empty: none
    std::optional<Right> second_may;  // the second person must have this right; none: anybody
    std::string why_not;              // said when the second is not taken
};
using ThenBoth = std::function<Result<Next>(Session&, const Person& second)>;

std::unique_ptr<Flow> two_people(const Session& session, TwoPeople ask, ThenBoth then);

}  // namespace holdpin
