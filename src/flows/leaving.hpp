// When a person leaves: the badge is free, the PIN gone, no duty left. And when a person is erased,
// by two people: name and free texts go, entries and proofs stay. A legal hold stops erasing.
#pragma once

#include <vector>

#include "flows/session.hpp"

namespace holdpin {

// Rows for the person's page at the desk, and what is begun by them; nothing for other ids.
Result<std::vector<Row>> leaving_rows(const Session& session, const Person& person);
Result<Next> begin_leaving(Session& session, const Person& person, const std::string& id);

}  // namespace holdpin
