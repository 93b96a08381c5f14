#include "content/text_rules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace holdpin {
namespace {

bool is_lower(char c) { return c >= 'a' && c <= 'z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }
// Bytes of a letter outside ASCII count as part of a word.
bool is_word_byte(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 ||
           static_cast<unsigned char>(c) >= 0x80;
}
bool is_blank(char c) { return c == ' ' || c == '\n'; }

bool is_placeholder_name(std::string_view name) {
    return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
        return is_lower(c) || is_digit(c) || c == '-' || c == '_';
    });
}

// A full stop, question or exclamation mark ends a sentence when a blank and no small letter
// follow: "p. ej." and "1.5" do not.
bool ends_sentence(std::string_view text, std::size_t at) {
    if (text[at] != '.' && text[at] != '!' && text[at] != '?') return false;
    if (at + 1 == text.size()) return true;
    if (!is_blank(text[at + 1])) return false;
    return at + 2 >= text.size() || !is_lower(text[at + 2]);
}

bool is_repeat(std::string_view digits, std::size_t period) {
    for (std::size_t i = period; i < digits.size(); ++i) {
        if (digits[i] != digits[i - period]) return false;
    }
    return true;
}

bool is_run(std::string_view digits, int step) {
    for (std::size_t i = 1; i < digits.size(); ++i) {
        if ((digits[i] - digits[i - 1] - step) % 10 != 0) return false;
    }
    return true;
}

constexpr std::array<std::string_view, 5> kBannedWords{"guaranteed", "falsified", "cheating",
                                                       "100 % complete", "certified operator card"};
constexpr std::array<std::string_view, 8> kCommonPins{"112233", "102030", "147258", "159753",
                                                      "789456", "147852", "123654", "246810"};

}  // namespace

Result<std::set<std::string>> placeholders_in(std::string_view text) {
    std::set<std::string> names;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] == '}') {
            return Error{ErrorKind::invalid, "a closing brace has no opening one", "", ""};
        }
        if (text[at] != '{') continue;
        const auto end = text.find('}', at);
        const auto name =
            end == std::string_view::npos ? std::string_view{} : text.substr(at + 1, end - at - 1);
        if (!is_placeholder_name(name)) {
            return Error{ErrorKind::invalid,
                         fmt::format("a brace holds no name: {}", text.substr(at, 20)), "", ""};
        }
        names.emplace(name);
        at = end;
    }
    return names;
}

SentenceCount count_sentences(std::string_view text) {
    SentenceCount count;
    int words = 0;
    bool in_word = false;
    bool has_letters = false;
    const auto end_word = [&] {
        if (in_word && has_letters) ++words;
        in_word = has_letters = false;
    };
    const auto end_sentence = [&](bool is_question) {
        end_word();
        if (words > 0 && !is_question) ++count.statements;
        count.longest_words = std::max(count.longest_words, words);
        words = 0;
    };
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (is_blank(text[at])) {
            end_word();
            continue;
        }
        in_word = true;
        has_letters = has_letters || is_word_byte(text[at]);
        if (ends_sentence(text, at)) end_sentence(text[at] == '?');
    }
    end_sentence(false);
    return count;
}

bool has_word(std::string_view text, std::string_view word) {
    const auto same = [](char a, char b) {
        return std::tolower(static_cast<unsigned char>(a)) ==
               std::tolower(static_cast<unsigned char>(b));
    };
    auto from = text.begin();
    while (true) {
        const auto found = std::search(from, text.end(), word.begin(), word.end(), same);
        if (found == text.end()) return false;
        const auto after = found + static_cast<std::ptrdiff_t>(word.size());
        const bool begins = found == text.begin() || !is_word_byte(*(found - 1));
        const bool ends = after == text.end() || !is_word_byte(*after);
        if (begins && ends) return true;
        from = found + 1;
    }
}

std::string_view banned_word_in(std::string_view english) {
    for (const auto word : kBannedWords) {
        if (has_word(english, word)) return word;
    }
    return "";
}

bool is_weak_pin(std::string_view digits) {
    for (std::size_t period = 1; period <= digits.size() / 2; ++period) {
        if (is_repeat(digits, period)) return true;
    }
    if (is_run(digits, 1) || is_run(digits, -1)) return true;
    return std::find(kCommonPins.begin(), kCommonPins.end(), digits) != kCommonPins.end();
}

}  // namespace holdpin
