// Widgets of the screens that the kit does not have: a stack of texts that is measured before it is
// drawn, so that a screen can take the largest sizes with which everything fits; the compact
// warning band; the band of a remark; QR codes. Drawn with the kit only.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "flows/page.hpp"
#include "kiosk/kit.hpp"

namespace holdpin {

// Texts above each other. Empty texts are left out together with their gap.
class Stack {
  public:
    // `gap` is the distance to the text before, in sketch pixels.
    void add(std::string text, TextSpec spec, float gap = 0);
    bool is_empty() const { return pieces_.empty(); }
    float height(const Ui& ui, float width) const;
    // From the top of the room. What does not fit takes smaller types, and is recorded as clipped
    // when even those do not help. Returns the height used.
    float draw(Ui& ui, Rect room) const;

  private:
    struct Piece {
        std::string text;
        TextSpec spec;
        float gap;
    };
    std::vector<Piece> pieces_;
};

// How large the words of a screen are set. A screen starts with `large` and steps down.
enum class Setting {
    large,    // actions 40, body 26, warnings 26
    medium,   // actions 32
    compact,  // actions 32, warnings 22
    small,    // actions 32, warnings and body 22
};
inline constexpr Setting kSettings[] = {Setting::large, Setting::medium, Setting::compact,
                                        Setting::small};
Type action_type(Setting setting);
Type body_type(Setting setting);
Type body_bold_type(Setting setting);
Type aside_type(Setting setting);  // warnings, and what stands beside the main column

// The first setting with which `height` says at most `room`; the last one when none does.
Setting setting_that_fits(float room, const std::function<float(Setting)>& height);

// Signal word in a band of the standard colours, the words below it.
float warning_band(Ui& ui, Dot at, float width, const WarningView& warning, Setting setting);
float warning_band_height(const Ui& ui, float width, const WarningView& warning, Setting setting);
// Several under each other, with the height of all of them.
float warning_bands(Ui& ui, Dot at, float width, const std::vector<WarningView>& warnings,
                    Setting setting);
float warning_bands_height(const Ui& ui, float width, const std::vector<WarningView>& warnings,
                           Setting setting);

// A QR code with its quiet zone, at the top of the room; nothing where the text is too long.
void qr_square(Ui& ui, Rect room, const std::string& text);

// What is said about an answer: a panel with a bar at its left edge.
void remark_band(Ui& ui, Rect room, const std::string& remark, bool held);
float remark_band_height(const Ui& ui, float width, const std::string& remark);

}  // namespace holdpin
