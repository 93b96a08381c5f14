#include "ledger/base64.hpp"

#include <sodium.h>

namespace holdpin {

std::string base64(std::span<const std::uint8_t> bytes) {
    constexpr int kVariant = sodium_base64_VARIANT_ORIGINAL;
    std::string text(sodium_base64_encoded_len(bytes.size(), kVariant), '\0');
    sodium_bin2base64(text.data(), text.size(), bytes.data(), bytes.size(), kVariant);
    text.pop_back();  // the zero at its end
    return text;
}

std::optional<Bytes> from_base64(std::string_view text) {
    if (text.empty()) return std::nullopt;  // libsodium takes no buffer of no bytes
    Bytes bytes(text.size());
    std::size_t size = 0;
    const char* end = nullptr;
    const int code = sodium_base642bin(bytes.data(), bytes.size(), text.data(), text.size(),
                                       nullptr, &size, &end, sodium_base64_VARIANT_ORIGINAL);
    if (code != 0 || end != text.data() + text.size()) return std::nullopt;
    bytes.resize(size);
    return bytes;
}

}  // namespace holdpin
