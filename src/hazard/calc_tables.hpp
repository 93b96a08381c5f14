// The three parts of the table of calc.hpp. Only calc.cpp puts them together.
#pragma once

#include <span>

#include "hazard/calc.hpp"

namespace holdpin {

std::span<const Calc> air_calcs();   // carbon monoxide: the room and the body
std::span<const Calc> gas_calcs();   // LP gas, its cylinders, hydrogen
std::span<const Calc> work_calcs();  // cleaning, noise, vibration, ramps, the hopper

// An error for keys that do not go together.
Error calc_misuse(std::string_view key, std::string_view what, std::string_view mend);

}  // namespace holdpin
