// Every estimate of this room by name: its keys with units and defaults, its results, its source,
// its caution, and the function. One table for `holdpin calc` and for the screen Estimates, so that
// both ask and say the same. Text in, numbers out; an unknown, missing, doubled or unreadable key
// and whatever lies outside a formula's valid range end as an Error with how to mend it. Keys take
// plain numbers in the unit of their name. It rounds nothing: `rounding` tells whoever shows it.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/result.hpp"
#include "hazard/cylinder_due.hpp"
#include "hazard/valid_range.hpp"

namespace holdpin {

enum class CalcKind {
    number,
    count,   // a whole number
    word,    // one of those that `unit` lists
    month,   // YYYY-MM
    timed,   // hours@level, repeated
    stamps,  // YYYY-MM:method, repeated
};

enum class CalcNeed {
    needed,
    either,    // one of some ways to say it; `note` names the others
    optional,  // a default stands for it, or something is left out of the results
};

struct CalcKey {
    std::string_view name;
    std::string_view unit;  // or the words that may be given
    CalcKind kind = CalcKind::number;
    CalcNeed need = CalcNeed::needed;
    std::string_view fallback = {};  // the default, as it would be typed
    std::string_view note = {};
};

enum class CalcRounding {
    nearest,
    down,  // time that is left
    up,    // time to wait, air to move
};

struct CalcResultKey {
    std::string_view name;
    std::string_view words;  // the same for a person
    std::string_view unit;
    CalcRounding rounding = CalcRounding::nearest;
    bool on_screen = true;  // false: misleading without its caution, no kiosk screen shows it
};

// A number, a text (a month), or nothing: it never comes to that.
using CalcAnswer = std::variant<std::monostate, double, std::string>;
struct CalcValue {
    const CalcResultKey* key = nullptr;
    CalcAnswer answer;
};

// What was typed, read by the kinds of the keys.
class CalcInput {
  public:
    bool has(std::string_view key) const;
    double number(std::string_view key) const;  // of a key that is needed or has a default
    std::optional<double> given(std::string_view key) const;
    std::string word(std::string_view key) const;  // empty where nothing was given
    const std::vector<TimedLevel>& day() const { return day_; }
    const std::vector<CylinderStamp>& stamps() const { return stamps_; }

  private:
    friend class CalcReader;
    std::map<std::string, double, std::less<>> numbers_;
    std::map<std::string, std::string, std::less<>> words_;
    std::vector<TimedLevel> day_;
    std::vector<CylinderStamp> stamps_;
};

// The answers by the names of `Calc::results`; a name that is missing was not asked for.
using CalcAnswers = std::vector<std::pair<std::string_view, CalcAnswer>>;

struct Calc {
    std::string_view name;
    std::string_view what;
    std::span<const CalcKey> keys;
    std::span<const CalcResultKey> results;
    std::string_view source;
    std::string_view caution;  // said after every result; may be empty
    bool health = false;       // followed by kPlanningEstimate
    Result<CalcAnswers> (*run)(const CalcInput& input) = nullptr;
};

inline constexpr std::string_view kPlanningEstimate =
    "A planning estimate: no measurement, and no clearance to enter. A meter and a competent "
    "person decide. Emergency action never waits for a sum.";

// All of them, in the order of the list.
std::span<const Calc> calcs();
// Error: absent, with the nearest name.
Result<const Calc*> calc_named(std::string_view name);
// `words`: each "key=value", or a bare "hours@level" or "YYYY-MM:method" where the sum takes them.
Result<std::vector<CalcValue>> calculate(const Calc& calc, const std::vector<std::string>& words);

// The number with four significant digits, rounded the way the result is.
double rounded(double value, CalcRounding rounding);

}  // namespace holdpin
