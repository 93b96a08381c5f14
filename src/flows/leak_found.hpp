// A gas leak that is found ends the release that runs on the machine, in the transaction that says
// so: nobody has it any more, and its round counts for nobody. Whatever was found holds the machine
// by its own entries; this only takes away what let it go.
// Not from a round after use: the return that follows it ends the release by itself.
#pragma once

#include <string>
#include <vector>

#include "flows/session.hpp"

namespace holdpin {

// Adds `release-voided` where the machine is out; else nothing.
Result<void> add_void_for_leak(const Session& session, const std::string& plate,
                               std::vector<Fact>& facts);

}  // namespace holdpin
