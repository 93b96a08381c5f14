#include "content/text_rules.hpp"

#include <doctest/doctest.h>

using namespace holdpin;

TEST_CASE("placeholders are the names in braces") {
    CHECK(placeholders_in("{machine} in {room-2} and {machine}").value() ==
          std::set<std::string>{"machine", "room-2"});
    CHECK(placeholders_in("none").value().empty());
    for (const auto* bad : {"{", "}", "{}", "{Machine}", "{a b}", "{a{b}", "a}{b}"}) {
        CHECK_FALSE(placeholders_in(bad).ok());
    }
}

TEST_CASE("sentences end at a mark that a new beginning follows") {
    CHECK(count_sentences("Close it. Key out.").statements == 2);
    CHECK(count_sentences("Close it").statements == 1);
    CHECK(count_sentences("Wait 1.5 hours.").statements == 1);
    CHECK(count_sentences("Use a rag, p. ej. a towel.").statements == 1);
    CHECK(count_sentences("It leaks? Valve shut.").statements == 1);
    CHECK(count_sentences("¡Pare! Salga.").statements == 2);
    CHECK(count_sentences("").statements == 0);
}

TEST_CASE("the longest sentence is measured in words") {
    CHECK(count_sentences("One two. One two three. One.").longest_words == 3);
    CHECK(count_sentences("one - two").longest_words == 2);
    CHECK(count_sentences("está así").longest_words == 2);
    CHECK(count_sentences("a\nb").longest_words == 2);
}

TEST_CASE("words are found whole and in any case") {
    CHECK(has_word("It WILL fall", "will"));
    CHECK(has_word("will", "will"));
    CHECK_FALSE(has_word("willing", "will"));
    CHECK_FALSE(has_word("goodwill", "will"));
    CHECK(has_word("willing or will", "will"));
    CHECK(banned_word_in("100 % complete now") == "100 % complete");
    CHECK(banned_word_in("A Falsified round") == "falsified");
    CHECK(banned_word_in("plain words").empty());
}

TEST_CASE("PINs that are tried first are weak") {
    for (const auto* weak :
         {"000000", "123456", "654321", "890123", "121212", "123123", "112233"}) {
        CHECK_MESSAGE(is_weak_pin(weak), weak);
    }
    for (const auto* other : {"402913", "759201", "4071"}) CHECK_FALSE(is_weak_pin(other));
}
