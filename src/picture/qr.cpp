#include "picture/qr.hpp"

#include <qrencode.h>

#include <memory>

namespace holdpin {
namespace {

struct FreeCode {
    void operator()(QRcode* code) const { QRcode_free(code); }
};
using Encoded = std::unique_ptr<QRcode, FreeCode>;

Encoded encoded(const std::string& text, QRecLevel level) {
    constexpr int kSmallest = 0;
    constexpr int kCaseMatters = 1;
    return Encoded(
        QRcode_encodeString(text.c_str(), kSmallest, level, QR_MODE_8, kCaseMatters));
}

}  // namespace

Result<QrCode> qr_code(const std::string& text) {
    const bool fine = !text.empty() && text.find('\0') == text.npos;
    Encoded found = fine ? encoded(text, QR_ECLEVEL_M) : nullptr;
    if (fine && !found) found = encoded(text, QR_ECLEVEL_L);
    if (!found) {
        return Error{ErrorKind::invalid, "this text does not fit into a QR code", "", ""};
    }
    QrCode code{found->width, {}};
    const auto count =
        static_cast<std::size_t>(code.width) * static_cast<std::size_t>(code.width);
    code.dark.reserve(count);
    // The lowest bit of each byte is the colour of a module.
    for (std::size_t i = 0; i < count; ++i) code.dark.push_back((found->data[i] & 1U) != 0);
    return code;
}

}  // namespace holdpin
