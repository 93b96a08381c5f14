// A badge that was lost: from then on it opens nothing and is given to nobody; and the new badge of
// whoever has none. Each is signed by somebody else who answers for people.
#pragma once

#include <vector>

#include "flows/session.hpp"

namespace holdpin {

// Rows for the person's page at the desk, and what is begun by them; nothing for other ids.
Result<std::vector<Row>> badge_rows(const Session& session, const Person& person);
Result<Next> begin_badge_work(Session& session, const Person& person, const std::string& id);

}  // namespace holdpin
