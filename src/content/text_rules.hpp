// Rules about single texts, as pure functions: placeholders, sentences, words kept off screens.
// Word counts are a measure of reading load, not grammar.
#pragma once

#include <set>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace holdpin {

// Names in braces: "{machine} in {room}" -> machine, room. Error: a brace without its partner or
// a name that is not lower-case words joined by hyphens or underscores.
Result<std::set<std::string>> placeholders_in(std::string_view text);

struct SentenceCount {
    int statements = 0;  // sentences that are no questions
    int longest_words = 0;
};
SentenceCount count_sentences(std::string_view text);

// Whether the word or phrase stands in an English text, whatever its case.
bool has_word(std::string_view text, std::string_view word);
// The first of the words that never stand on a screen (vocabulary), or empty.
std::string_view banned_word_in(std::string_view english);

// PINs that are tried first: runs, repeats, years. Not a measure of strength.
bool is_weak_pin(std::string_view digits);

}  // namespace holdpin
