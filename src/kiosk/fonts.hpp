// The typefaces of the screens: B612 and B612 Mono, with Noto Sans merged for what they lack. Each
// Type is one face at one size on the glass. Reading a face that is not installed is an error at
// start. Knows code points of Latin languages only: ImGui does not shape text.
#pragma once

#include <array>
#include <memory>
#include <string>

#include "base/result.hpp"
#include "kiosk/scale.hpp"

struct ImFont;
struct ImFontAtlas;

namespace holdpin {

enum class Type {
    small,       // 22 in the sketches: second lines, captions, footings
    small_bold,
    body,        // 26
    body_bold,
    lead,        // 31: what a message says
    heading,     // 32, bold: the question, the action
    big,         // 40, bold: names, numbers on keys
    state,       // bold, capitals of 6 mm: the state word on a plate
    mono,        // 26: codes, times, what is typed
    mono_bold,   // 32
    plate,       // mono bold, 64: plate number on the floor; only ASCII
    plate_huge,  // mono bold, capitals of 15 mm; only ASCII
};
inline constexpr int kTypes = 12;

class Fonts {
  public:
    static Result<std::unique_ptr<Fonts>> load(Scale scale);
    // The same fonts for every caller of one scale in this process: an atlas takes a quarter of a
    // second and is only read after it is built.
    static Result<std::shared_ptr<Fonts>> shared(Scale scale);
    ~Fonts();
    Fonts(const Fonts&) = delete;
    Fonts& operator=(const Fonts&) = delete;

    ImFont* font(Type type) const { return fonts_[static_cast<std::size_t>(type)]; }
    ImFontAtlas* atlas() const { return atlas_.get(); }
    Scale scale() const { return scale_; }
    // Height of a capital letter in pixels.
    float capitals(Type type) const;
    // From the top of a line to the top of its capitals.
    float above_capitals(Type type) const;
    // True when every code point has a glyph of its own.
    bool knows(Type type, const std::string& text) const;

  private:
    explicit Fonts(Scale scale);
    Result<void> add(Type type);

    Scale scale_;
    std::unique_ptr<ImFontAtlas> atlas_;
    std::array<ImFont*, kTypes> fonts_{};
};

// The next smaller type of the same weight and face, or the same one when there is none.
Type one_smaller(Type type);

}  // namespace holdpin
