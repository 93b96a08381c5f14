// What the pages of the gallery are made of.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "flows/page.hpp"
#include "gallery.hpp"

namespace holdpin::gallery {

// Gives the one of two texts that is in the language of the gallery.
class Words {
  public:
    explicit Words(std::string_view language) : spanish_(language == "es") {}
    std::string operator()(const char* english, const char* spanish) const {
        return spanish_ ? spanish : english;
    }
    bool spanish() const { return spanish_; }

  private:
    bool spanish_;
};
using W = const Words&;

inline constexpr auto U = LugState::unasked;
inline constexpr auto O = LugState::open;
inline constexpr auto D = LugState::due;
inline constexpr auto H = LugState::held;

Button button(std::string id, std::string label, std::string second = {});
Tile tile(std::string id, std::string label, std::string drawing = {},
          TileState state = TileState::plain);
// A page in the middle of a round; exhibits change what they need to.
Page page_of(W w, std::string id, Body body);

std::vector<Exhibit> plate_pages(W w);    // floor, holds, handed
std::vector<Exhibit> asking_pages(W w);   // step, choice
std::vector<Exhibit> typing_pages(W w);   // number, PIN, text
std::vector<Exhibit> reading_pages(W w);  // list, grid, sheet, message
std::vector<Exhibit> estimate_pages(W w);

}  // namespace holdpin::gallery
