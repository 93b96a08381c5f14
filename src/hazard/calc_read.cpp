#include "hazard/calc_read.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "base/text.hpp"
#include "hazard/calc_tables.hpp"

namespace holdpin {
namespace {

Error bad(std::string_view key, std::string what, std::string mend) {
    return {ErrorKind::invalid, std::move(what), std::string(key), std::move(mend)};
}

std::string number_asked(const CalcKey& key) {
    if (key.unit.empty()) return "give a plain number";
    return fmt::format("give a plain number in {}", key.unit);
}

Result<double> number_of(const CalcKey& key, std::string_view text) {
    double number = 0;
    const char* last = text.data() + text.size();
    const auto [end, fault] = std::from_chars(text.data(), last, number);
    const std::string mend = number_asked(key);
    if (fault == std::errc::result_out_of_range) {
        return bad(key.name, fmt::format("{} is absurdly large or small", text), mend);
    }
    if (fault != std::errc() || !std::isfinite(number)) {
        return bad(key.name, fmt::format("\"{}\" is no number", text), mend);
    }
    if (end == last) return number;
    if (*end == ',') {
        return bad(key.name, fmt::format("\"{}\" has a comma", text),
                   "write a decimal point, and nothing between thousands");
    }
    return bad(key.name,
               fmt::format("\"{}\" after the number is not understood",
                           std::string_view(end, static_cast<std::size_t>(last - end))),
               mend + ", without a unit");
}

Result<double> count_of(const CalcKey& key, std::string_view text) {
    const double number = TRY(number_of(key, text));
    if (number != std::floor(number) || std::fabs(number) > 1e9) {
        return bad(key.name, fmt::format("{} is no count", text), "give a whole number");
    }
    return number;
}

Result<std::string> word_of(const CalcKey& key, std::string_view text) {
    const std::vector<std::string> known = split(key.unit, ' ');
    for (const std::string& word : known) {
        if (word == text) return word;
    }
    const std::string near = nearest(text, known);
    return bad(key.name, fmt::format("\"{}\" is none of its words", text),
               near.empty() ? fmt::format("give one of: {}", key.unit)
                            : fmt::format("did you mean {}? It takes: {}", near, key.unit));
}

// "2.5@90" in the form of the key, "hours@dba".
Result<TimedLevel> timed_of(const CalcKey& key, std::string_view text) {
    const std::size_t at = text.find('@');
    if (at == std::string_view::npos) {
        return bad(key.name, fmt::format("\"{}\" does not name hours and level", text),
                   fmt::format("write it as {}, for example 2.5@90", key.unit));
    }
    const CalcKey level{key.unit.substr(key.unit.find('@') + 1), ""};
    TimedLevel part;
    part.hours = TRY(number_of({"hours", "h"}, text.substr(0, at)));
    part.level = TRY(number_of(level, text.substr(at + 1)));
    return part;
}

Result<CylinderStamp> stamp_of(const CalcKey& key, std::string_view text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos) {
        return bad(key.name, fmt::format("\"{}\" does not name month and method", text),
                   "write it as YYYY-MM:method, for example 2020-05:visual");
    }
    CylinderStamp stamp;
    stamp.month = TRY(parse_year_month(text.substr(0, colon)));
    stamp.test = TRY(parse_cylinder_test(text.substr(colon + 1)));
    return stamp;
}

bool repeats(const CalcKey& key) {
    return key.kind == CalcKind::timed || key.kind == CalcKind::stamps;
}

// "volume_ft3" and "volume_m3" begin alike: most likely the unit is wrong.
std::string same_stem(const Calc& calc, std::string_view name) {
    const std::string_view stem = name.substr(0, name.find('_'));
    for (const CalcKey& key : calc.keys) {
        if (key.name.find('_') == std::string_view::npos) continue;
        if (key.name.substr(0, key.name.find('_')) == stem) return std::string(key.name);
    }
    return "";
}

Error unknown_key(const Calc& calc, std::string_view name) {
    std::vector<std::string> names;
    for (const CalcKey& key : calc.keys) names.emplace_back(key.name);
    std::string near = same_stem(calc, name);
    if (near.empty()) near = nearest(name, names);
    return bad(calc.name, fmt::format("it has no key \"{}\"", name),
               near.empty() ? fmt::format("its keys are: {}", joined(names, " "))
                            : fmt::format("did you mean {}?", near));
}

// What repeats may be called by its form ("hours@dba"), by one of it ("interval"), or not at all.
const CalcKey* key_named(const Calc& calc, std::string_view name) {
    for (const CalcKey& key : calc.keys) {
        if (key.name == name) return &key;
        if (!repeats(key)) continue;
        if (name == key.unit || name == key.name.substr(0, key.name.size() - 1)) return &key;
    }
    return nullptr;
}

const CalcKey* key_of_bare(const Calc& calc, std::string_view word) {
    for (const CalcKey& key : calc.keys) {
        if (key.kind == CalcKind::timed && word.find('@') != std::string_view::npos) return &key;
        if (key.kind == CalcKind::stamps && word.find(':') != std::string_view::npos) return &key;
    }
    return nullptr;
}

}  // namespace

// Fills an input word by word; CalcInput lets nobody else write into it.
class CalcReader {
  public:
    explicit CalcReader(const Calc& calc) : calc_(calc) {}

    Result<void> read(std::string_view word) {
        const std::size_t equals = word.find('=');
        if (equals == std::string_view::npos) {
            const CalcKey* bare = key_of_bare(calc_, word);
            if (bare != nullptr) return located(*bare, put_all(*bare, word));
            return bad(calc_.name, fmt::format("\"{}\" is no key=value", word),
                       "write the key, an equals sign and the value");
        }
        const CalcKey* key = key_named(calc_, word.substr(0, equals));
        if (key == nullptr) return unknown_key(calc_, word.substr(0, equals));
        if (!repeats(*key) && input_.has(key->name)) {
            return bad(key->name, "it is given twice", "give it once");
        }
        return located(*key, put_all(*key, word.substr(equals + 1)));
    }

    Result<CalcInput> finish() {
        for (const CalcKey& key : calc_.keys) {
            const bool there =
                input_.has(key.name) || (key.kind == CalcKind::timed && !input_.day_.empty());
            if (there) continue;
            if (!key.fallback.empty()) TRY(put(key, key.fallback));
            if (key.need == CalcNeed::needed) {
                const auto* means = key.kind == CalcKind::word ? "one of: " : "";
                return bad(key.name, "it is missing",
                           fmt::format("give {}={}{}", key.name, means,
                                       key.unit.empty() ? "a number" : key.unit));
            }
        }
        return std::move(input_);
    }

  private:
    static Result<void> located(const CalcKey& key, Result<void> done) {
        if (done || !done.error().where.empty()) return done;
        Error error = done.error();
        error.where = key.name;
        return error;
    }

    Result<void> put_all(const CalcKey& key, std::string_view text) {
        if (!repeats(key)) return put(key, text);
        for (const std::string& part : split(text, ',')) TRY(put(key, part));
        return {};
    }

    Result<void> put(const CalcKey& key, std::string_view text) {
        const std::string name(key.name);
        switch (key.kind) {
            case CalcKind::number:
                input_.numbers_[name] = TRY(number_of(key, text));
                break;
            case CalcKind::count:
                input_.numbers_[name] = TRY(count_of(key, text));
                break;
            case CalcKind::word:
                input_.words_[name] = TRY(word_of(key, text));
                break;
            case CalcKind::month:
                input_.words_[name] = year_month_text(TRY(parse_year_month(text)));
                break;
            case CalcKind::timed:
                input_.day_.push_back(TRY(timed_of(key, text)));
                break;
            case CalcKind::stamps:
                input_.stamps_.push_back(TRY(stamp_of(key, text)));
                break;
        }
        return {};
    }

    const Calc& calc_;
    CalcInput input_;
};

Result<CalcInput> read_calc_input(const Calc& calc, const std::vector<std::string>& words) {
    CalcReader reader(calc);
    for (const std::string& word : words) TRY(reader.read(word));
    return reader.finish();
}

}  // namespace holdpin
