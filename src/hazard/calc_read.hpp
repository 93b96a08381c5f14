// Reads the words of an estimate by the kinds of its keys. Nothing is guessed: a unit after a
// number, a decimal comma, a key that is not one or comes twice are refused with what to write
// instead.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "hazard/calc.hpp"

namespace holdpin {

Result<CalcInput> read_calc_input(const Calc& calc, const std::vector<std::string>& words);

}  // namespace holdpin
