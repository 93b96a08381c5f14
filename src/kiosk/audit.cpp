#include "kiosk/audit.hpp"

#include <cstdio>

namespace holdpin {

namespace {

constexpr float kHalfPixel = 0.5F;

std::string one_decimal(float value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1f", static_cast<double>(value));
    return text;
}

std::string name_of(const Drawn& drawn) {
    if (!drawn.target) {
        return "the text \"" + drawn.text + "\"";
    }
    return "\"" + drawn.label + "\" (" + drawn.id + ")";
}

bool leaves(const Rect& rect, const Rect& display) {
    return rect.x < display.x - kHalfPixel || rect.y < display.y - kHalfPixel ||
           rect.right() > display.right() + kHalfPixel ||
           rect.bottom() > display.bottom() + kHalfPixel;
}

void audit_target(const Drawn& drawn, Scale scale, std::vector<std::string>& faults) {
    const float width = drawn.rect.w + kHalfPixel;
    const float height = drawn.rect.h + kHalfPixel;
    const std::string name = name_of(drawn);
    if (height < scale.mm(drawn.min_mm)) {
        faults.push_back(name + " is " + one_decimal(scale.to_mm(drawn.rect.h)) +
                         " mm high, less than " + one_decimal(drawn.min_mm));
    }
    if (width < scale.mm(drawn.min_mm)) {
        faults.push_back(name + " is " + one_decimal(scale.to_mm(drawn.rect.w)) +
                         " mm wide, less than " + one_decimal(drawn.min_mm));
    }
    if (drawn.main && width < scale.mm(kMainActionMm)) {
        faults.push_back(name + " is the main action and only " +
                         one_decimal(scale.to_mm(drawn.rect.w)) + " mm wide");
    }
}

void audit_text(const Drawn& drawn, std::vector<std::string>& faults) {
    const std::string name = name_of(drawn);
    if (drawn.clipped) {
        faults.push_back(name + " does not fit into its room");
    }
    if (drawn.missing_glyph) {
        faults.push_back(name + " has a letter that no typeface has");
    }
    if (drawn.contrast < kLeastContrast && !drawn.exempt) {
        faults.push_back(name + " has a contrast of " + one_decimal(drawn.contrast) +
                         ":1, less than 7");
    }
}

bool same_place(const Rect& a, const Rect& b) {
    const Rect both = common_part(a, b);
    return both.w > kHalfPixel && both.h > kHalfPixel;
}

void audit_overlaps(const Recorder& recorder, std::vector<std::string>& faults) {
    const std::vector<Drawn>& all = recorder.drawn;
    for (std::size_t i = 0; i < all.size(); ++i) {
        for (std::size_t j = i + 1; j < all.size(); ++j) {
            if (all[i].over != all[j].over) {
                continue;
            }
            const bool targets = all[i].target && all[j].target;
            const bool texts = !all[i].target && !all[j].target;
            if ((targets || texts) && same_place(all[i].visible, all[j].visible)) {
                faults.push_back(name_of(all[i]) + " and " + name_of(all[j]) + " overlap");
            }
        }
    }
}

}  // namespace

std::vector<std::string> audit(const Recorder& recorder, Scale scale) {
    std::vector<std::string> faults;
    for (const Drawn& drawn : recorder.drawn) {
        drawn.target ? audit_target(drawn, scale, faults) : audit_text(drawn, faults);
        const bool in_sight = !drawn.visible.is_empty();
        if ((in_sight && leaves(drawn.visible, recorder.display)) ||
            (leaves(drawn.rect, recorder.display) && !drawn.scrolls)) {
            faults.push_back(name_of(drawn) + " leaves the display");
        }
    }
    audit_overlaps(recorder, faults);
    return faults;
}

}  // namespace holdpin
