#include "ledger/witness.hpp"

#include <charconv>

#include "base/sha256.hpp"
#include "base/text.hpp"

namespace holdpin {
namespace {

// Of each group that hands mix up (0 O, 1 I L, 2 Z, 5 S, 6 G, 8 B, U V) at most one is in it.
constexpr std::string_view kAlphabet = "34679ABCDEFHJKMNPQRSTVWXYZ";
constexpr std::string_view kMisread = "825GU";
constexpr std::string_view kMeant = "BZS6V";
constexpr std::size_t kLength = 8;
constexpr std::size_t kHalf = 4;
constexpr std::size_t kNumberBytes = 8;

std::optional<char> letter_of(char typed) {
    const bool lower = typed >= 'a' && typed <= 'z';
    const char upper = lower ? static_cast<char>(typed - 'a' + 'A') : typed;
    const auto at = kMisread.find(upper);
    const char meant = at == std::string_view::npos ? upper : kMeant[at];
    if (kAlphabet.find(meant) == std::string_view::npos) return std::nullopt;
    return meant;
}

Error no_code() {
    return {ErrorKind::invalid, "this is no witness code", "",
            "type eight characters, and if it is known @ and the number of entries: "
            "K7DM-3XQA@1234"};
}

Result<std::uint64_t> size_from(std::string_view text) {
    std::uint64_t size = 0;
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), size);
    if (code != std::errc{} || end != text.data() + text.size() || size == 0) return no_code();
    return size;
}

}  // namespace

std::string witness_code(std::uint64_t size, const Hash& root) {
    const auto digest =
        sha256("holdpin witness 1\n" + std::to_string(size) + "\n" + hex(root) + "\n");
    std::uint64_t number = 0;
    for (std::size_t i = 0; i < kNumberBytes; ++i) number = number << 8 | digest[i];
    std::string code;
    for (std::size_t i = 0; i < kLength; ++i) {
        if (i == kHalf) code += '-';
        code += kAlphabet[number % kAlphabet.size()];
        number /= kAlphabet.size();
    }
    return code;
}

Result<Witness> witness_from(std::string_view typed) {
    const auto at = typed.find('@');
    Witness witness;
    for (const char c : typed.substr(0, at)) {
        if (c == ' ' || c == '-') continue;
        const auto letter = letter_of(c);
        if (!letter) return no_code();
        if (witness.code.size() == kHalf) witness.code += '-';
        witness.code += *letter;
    }
    if (witness.code.size() != kLength + 1) return no_code();
    if (at != std::string_view::npos) {
        witness.size = TRY(size_from(trimmed(typed.substr(at + 1))));
    }
    return witness;
}

}  // namespace holdpin
