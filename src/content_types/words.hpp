// What every item of content is made of: texts in each language, pictures and their parts,
// warnings.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace holdpin {

// One text in every language of the pack. Keys are BCP 47 tags ("en", "es").
struct Text {
    std::map<std::string, std::string> by_language;

    // In `language`, else in English, else empty.
    const std::string& in(const std::string& language) const;
    bool empty() const { return by_language.empty(); }
};

// ---- pictures -----------------------------------------------------------------------------

// An illustration with the parts in question: element ids of the SVG.
struct Picture {
    std::string file;  // assets/illustrations/<file>.svg, without the ending
    std::vector<std::string> parts;
    bool empty() const { return file.empty(); }
};

// ---- warnings -----------------------------------------------------------------------------

enum class Severity { death, injury, property };  // death or serious; minor or moderate; no injury
enum class Probability { will, could };
enum class SignalWord { danger, warning, caution, notice };

// From ANSI Z535.4 definitions (read in a secondary copy): the word is derived, never chosen.
SignalWord signal_word(Severity severity, Probability probability);

struct Warning {
    Severity severity = Severity::death;
    Probability probability = Probability::could;
    Text hazard;
    Text consequence;
    Text avoid;
    std::string footing;
};

}  // namespace holdpin
