// A QR code (ISO/IEC 18004) as dark and light modules, for paper and for a screen to draw. Texts of
// capitals, digits and " $%*+-./:" take a third less room than others. The quiet zone of four
// modules around it is left to whoever draws.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"

namespace holdpin {

struct QrCode {
    int width = 0;           // modules
    std::vector<bool> dark;  // rows from the top
    bool at(int x, int y) const {
        return dark[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                    static_cast<std::size_t>(x)];
    }
};

inline constexpr int kQrQuiet = 4;

// With error correction M, or L where the text is too long for it. Error: invalid (longer still,
// empty, or with a zero byte in it).
Result<QrCode> qr_code(const std::string& text);

}  // namespace holdpin
