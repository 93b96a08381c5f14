#include "hazard/calc.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/text.hpp"
#include "hazard/calc_read.hpp"
#include "hazard/calc_tables.hpp"

namespace holdpin {
namespace {

std::vector<Calc> joined_tables() {
    std::vector<Calc> all;
    for (const auto& part : {air_calcs(), gas_calcs(), work_calcs()}) {
        all.insert(all.end(), part.begin(), part.end());
    }
    return all;
}

// Only finite numbers leave: a quotient that overflowed is no answer.
Result<void> refuse_endless(const CalcAnswers& answers) {
    for (const auto& [name, answer] : answers) {
        const double* number = std::get_if<double>(&answer);
        if (number != nullptr && !std::isfinite(*number)) {
            return Error{ErrorKind::invalid, "these figures lead to no number", std::string(name),
                         "look for one that is far too large or far too small"};
        }
    }
    return {};
}

}  // namespace

bool CalcInput::has(std::string_view key) const {
    return numbers_.contains(key) || words_.contains(key);
}

double CalcInput::number(std::string_view key) const {
    const auto found = numbers_.find(key);
    return found == numbers_.end() ? std::nan("") : found->second;
}

std::optional<double> CalcInput::given(std::string_view key) const {
    const auto found = numbers_.find(key);
    return found == numbers_.end() ? std::nullopt : std::optional(found->second);
}

std::string CalcInput::word(std::string_view key) const {
    const auto found = words_.find(key);
    return found == words_.end() ? "" : found->second;
}

Error calc_misuse(std::string_view key, std::string_view what, std::string_view mend) {
    return {ErrorKind::invalid, std::string(what), std::string(key), std::string(mend)};
}

std::span<const Calc> calcs() {
    static const std::vector<Calc> all = joined_tables();
    return all;
}

Result<const Calc*> calc_named(std::string_view name) {
    std::vector<std::string> names;
    for (const Calc& calc : calcs()) {
        if (calc.name == name) return &calc;
        names.emplace_back(calc.name);
    }
    const std::string near = nearest(name, names);
    return Error{ErrorKind::absent, fmt::format("there is no estimate \"{}\"", name), "",
                 near.empty() ? "see calc --list" : fmt::format("did you mean {}?", near)};
}

Result<std::vector<CalcValue>> calculate(const Calc& calc, const std::vector<std::string>& words) {
    const CalcInput input = TRY(read_calc_input(calc, words));
    const CalcAnswers answers = TRY(calc.run(input));
    TRY(refuse_endless(answers));
    std::vector<CalcValue> values;
    for (const CalcResultKey& key : calc.results) {
        for (const auto& [name, answer] : answers) {
            if (name == key.name) values.push_back({&key, answer});
        }
    }
    return values;
}

double rounded(double value, CalcRounding rounding) {
    if (value == 0 || !std::isfinite(value)) return value;
    const double digits = 3.0 - std::floor(std::log10(std::fabs(value)));
    const double scale = std::pow(10.0, digits);
    // What differs by rounding alone is not pushed to the next step.
    const double room = 1e-9 * std::fabs(value * scale);
    if (rounding == CalcRounding::down) return std::floor(value * scale + room) / scale;
    if (rounding == CalcRounding::up) return std::ceil(value * scale - room) / scale;
    return std::round(value * scale) / scale;
}

}  // namespace holdpin
