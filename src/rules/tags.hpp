// The tag that mirrors a hold at the machine: its code, and whether a person still has to be asked
// for it (1910.145(f): on the machine until the hazard is gone; WAC 296-307-33011, read in a
// secondary copy). A tag is a message, not a lock.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace holdpin {

// Letters and digits that are not taken for each other when read from a card: common practice.
inline constexpr std::string_view kTagLetters = "ACDEFHJKMNPRTVXY34679";
inline constexpr std::size_t kTagLength = 6;

// The code of a number below 21^6.
std::string tag_code(std::uint32_t number);
inline constexpr std::uint32_t kTagCodes = 85'766'121;
// What was typed, as a code: capitals, without blanks and dashes. Of a tag's line, its code.
std::string typed_code(std::string_view typed);
// What the QR code of a tag says: "HPTAG:SW-14:K7DM3X:512", with the number of the finding.
std::string tag_line(std::string_view machine, std::string_view code, std::int64_t finding);

struct Tag {
    std::string machine;
    std::string code;
    std::int64_t finding = 0;    // that it was issued for
    std::int64_t issued_ms = 0;
    bool put_up = false;         // somebody says that it is on the start control
    std::string put_up_by;       // empty where nobody was signed on
    std::string read_by;         // who last read the right code off it
};

// Whoever has put it up or read it has seen it; everybody else is asked for the code.
bool is_asked_for(const Tag& tag, std::string_view person);

}  // namespace holdpin
