// For every hold code the one thing that, done to a snapshot without holds, makes it stand; and
// what must stand when several are done at once. The second is written down from the rules as
// people state them, apart from the code under test.
#pragma once

#include <array>

#include "rules/release.hpp"

namespace holdpin::sample {

using BreakIt = void (*)(Snapshot&);

// By code, in the order of the enumeration.
const std::array<BreakIt, kHoldCount>& break_it();

// Snapshot with every code of `codes` broken, in the order of the enumeration.
Snapshot broken(const HoldSet& codes);

// What stands when all of `codes` were broken: some reasons make others meaningless.
HoldSet standing_of(HoldSet codes);

}  // namespace holdpin::sample
