// The full check in one pass that costs little more than reading and hashing. It hashes every
// body, grows the tree once and holds its root against every seal; only where something is not
// as it should be it gives up, and the slow reading of full_check.cpp finds out what. Used
// inside ledger/.
#pragma once

#include <optional>

#include "ledger/check.hpp"

namespace holdpin {

// All holds, or nothing: then the slow reading has to name the fault. Entries under the newest seal
// are not decoded again, nor is it asked whether their signatures are bound, unless every signature
// is asked for: the seal says that they are what was written when it was put on.
Result<std::optional<FullReport>> check_quickly(Database& db, const Evidence& evidence);

}  // namespace holdpin
