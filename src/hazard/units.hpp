// Units of results: SI inside hazard/, the site's on a screen and in a command. Factors are those
// of NIST SP 811 (from memory; all but the psi exact by definition), so that a value and its way
// back agree to 1e-12. A unit that both systems share stays as it is.
// Only what is shown is turned: keys of `holdpin calc` keep the unit in their name.
#pragma once

#include <string_view>

namespace holdpin {

enum class UnitSystem {
    metric,
    us,  // US customary
};

struct Shown {
    double value = 0;
    std::string_view unit;
};
// `unit`: as the tables of this room write it, for example "m³/h".
Shown shown_in(UnitSystem system, double value, std::string_view unit);
// The other way: a value in the shown unit back in `unit`.
double value_from(UnitSystem system, double shown, std::string_view unit);

}  // namespace holdpin
