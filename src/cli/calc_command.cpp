#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "hazard/calc.hpp"
#include "hazard/units.hpp"

namespace holdpin {
namespace {

nlohmann::json json_of(const CalcAnswer& answer) {
    if (const double* number = std::get_if<double>(&answer)) return *number;
    if (const std::string* text = std::get_if<std::string>(&answer)) return *text;
    return nullptr;
}

nlohmann::json json_of(const std::vector<CalcValue>& values) {
    auto object = nlohmann::json::object();
    for (const CalcValue& value : values) {
        object[std::string(value.key->name)] = json_of(value.answer);
    }
    return object;
}

nlohmann::json json_of(const Calc& calc) {
    auto keys = nlohmann::json::array();
    for (const CalcKey& key : calc.keys) {
        keys.push_back({{"name", key.name},
                        {"unit", key.unit},
                        {"needed", key.need == CalcNeed::needed},
                        {"default", key.fallback},
                        {"note", key.note}});
    }
    auto results = nlohmann::json::array();
    for (const CalcResultKey& result : calc.results) {
        results.push_back({{"name", result.name}, {"unit", result.unit}});
    }
    return {{"name", calc.name},
            {"what", calc.what},
            {"keys", keys},
            {"results", results},
            {"source", calc.source}};
}

std::string key_line(const CalcKey& key) {
    std::string line = fmt::format("    {:<17} {}", key.name, key.unit.empty() ? "-" : key.unit);
    if (!key.fallback.empty()) {
        line += fmt::format("; default {}", key.fallback);
    } else if (key.need == CalcNeed::optional) {
        line += "; may be left out";
    }
    return key.note.empty() ? line : line + fmt::format("; {}", key.note);
}

int say_list(bool as_json) {
    auto list = nlohmann::json::array();
    for (const Calc& calc : calcs()) {
        if (as_json) {
            list.push_back(json_of(calc));
            continue;
        }
        say(fmt::format("{}: {}", calc.name, calc.what));
        say("  keys");
        for (const CalcKey& key : calc.keys) say(key_line(key));
        say("  results");
        for (const CalcResultKey& result : calc.results) {
            say(fmt::format("    {:<17} {}", result.name, result.unit.empty() ? "-" : result.unit));
        }
        say(fmt::format("  source\n    {}\n", calc.source));
    }
    if (as_json) say_json(list);
    return kExitFine;
}

std::string value_text(const CalcValue& value, UnitSystem system) {
    if (const std::string* text = std::get_if<std::string>(&value.answer)) return *text;
    const double* number = std::get_if<double>(&value.answer);
    if (number == nullptr) return "never";
    const Shown shown = shown_in(system, *number, value.key->unit);
    const std::string text = fmt::format("{:.7g}", rounded(shown.value, value.key->rounding));
    return shown.unit.empty() ? text : fmt::format("{} {}", text, shown.unit);
}

void say_answers(const Calc& calc, const std::vector<CalcValue>& values, UnitSystem system) {
    for (const CalcValue& value : values) {
        say(fmt::format("{}: {}", value.key->words, value_text(value, system)));
    }
    if (calc.health) say(kPlanningEstimate);
    if (!calc.caution.empty()) say(calc.caution);
    say(fmt::format("Source: {}", calc.source));
}

// Every fault of an estimate is one of what was typed.
int complain_of_use(const Error& error) {
    complain(error);
    return kExitWrongUse;
}

}  // namespace

int run_calc(const Common& common, const CalcOptions& options) {
    if (options.list) {
        if (options.name.empty()) return say_list(common.json);
        return complain_of_use(
            {ErrorKind::invalid, "--list takes no name", "calc", "leave the name out, or --list"});
    }
    if (options.name.empty()) {
        return complain_of_use({ErrorKind::invalid, "the name of an estimate is missing", "calc",
                                "give one of those that calc --list says"});
    }
    const auto calc = calc_named(options.name);
    if (!calc) return complain_of_use(calc.error());
    const auto values = calculate(*calc.value(), options.words);
    if (!values) return complain_of_use(values.error());
    if (common.json) {
        say_json(json_of(values.value()));
    } else {
        say_answers(*calc.value(), values.value(),
                    options.units == "us" ? UnitSystem::us : UnitSystem::metric);
    }
    return kExitFine;
}

}  // namespace holdpin
