// The exchange of house colours and the accent of marked parts: texts in, texts out.
#include <algorithm>
#include <array>
#include <cctype>

#include "picture/drawing.hpp"

namespace holdpin {

namespace {

struct Exchange {
    std::string_view day;  // lower case
    std::string_view night;
};

// Outlines turn light, areas dark; the dark grey turns lighter than the bodies, as it also stands
// alone on a dark tile. The colours that carry a meaning by standard (ISO 3864 yellow and blue, the
// red of danger) are the same in both.
constexpr std::array kExchanges = {
    Exchange{"#15191d", "#edeff1"},  // ink
    Exchange{"#3c434a", "#bac2c8"},  // second ink
    Exchange{"#efede6", "#14181c"},  // ground
    Exchange{"#e4e1d7", "#0e1114"},  // strip
    Exchange{"#fbfaf6", "#1d2328"},  // plate and paper
    Exchange{"#ffffff", "#1d2328"},  // white paper
    Exchange{"#dedcd4", "#49525a"},  // the lighter machine grey
    Exchange{"#d3d0c8", "#3b434a"},  // the darker machine grey
    Exchange{"#d2cfc7", "#3b434a"},
    Exchange{"#c9ced2", "#555f68"},  // metal
    Exchange{"#c9dce8", "#2c4a5e"},  // water
    Exchange{"#bdbab0", "#333a41"},
    Exchange{"#b9b6ab", "#566069"},  // hair lines
    Exchange{"#8a877e", "#7d868d"},
    Exchange{"#6b6a64", "#737c84"},  // the dark grey: must be seen on a dark tile
    Exchange{"#1f4e6b", "#a9c8dc"},  // touch
    Exchange{"#d7e2ea", "#22323d"},  // tile
    Exchange{"#bfd5e3", "#2f5168"},  // accent
    Exchange{"#8e1e1e", "#ff9a91"},  // held
    Exchange{"#f07f1a", "#f2a35e"},  // due
    Exchange{"#145a37", "#7fd1a4"},  // on
};

// The accent in three depths, so that a dial stays lighter and a tyre darker than what they sit on.
struct Accent {
    std::string_view area;  // class of the illustrations
    std::string_view day;
    std::string_view night;
};
constexpr std::array kAccents = {
    Accent{".body", "#bfd5e3", "#2f5168"},  Accent{".body2", "#bfd5e3", "#2f5168"},
    Accent{".metal", "#bfd5e3", "#2f5168"}, Accent{".paper", "#e3edf4", "#223c4e"},
    Accent{".dark", "#6f9ab6", "#6f9ab6"},
};

constexpr std::size_t kHexLength = 7;

std::string_view exchanged(std::string_view colour) {
    std::string lower(colour);
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    const auto* const found =
        std::find_if(kExchanges.begin(), kExchanges.end(),
                     [&](const Exchange& exchange) { return exchange.day == lower; });
    return found == kExchanges.end() ? colour : found->night;
}

}  // namespace

std::string in_night_colours(std::string_view svg) {
    std::string out;
    out.reserve(svg.size());
    std::size_t at = 0;
    while (at < svg.size()) {
        const auto hash = svg.find('#', at);
        if (hash == std::string_view::npos || hash + kHexLength > svg.size()) {
            break;
        }
        out += svg.substr(at, hash - at);
        out += exchanged(svg.substr(hash, kHexLength));
        at = hash + kHexLength;
    }
    return out.append(svg.substr(std::min(at, svg.size())));
}

std::string accent_sheet(const std::vector<std::string>& parts, bool night) {
    std::string sheet;
    for (const auto& part : parts) {
        for (const auto& accent : kAccents) {
            const std::string element = "#" + part;
            const std::string area(accent.area);
            sheet += element + " " + area + ", " + element + area +
                     " {fill:" + std::string(night ? accent.night : accent.day) + " !important}\n";
        }
    }
    return sheet;
}

}  // namespace holdpin
