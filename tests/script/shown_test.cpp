#include "script/shown.hpp"

#include <doctest/doctest.h>

using namespace holdpin;

TEST_CASE("a plain space in a script stands for thin and no-break spaces on the screen") {
    const std::vector<std::string> texts{"1\u202F284.6\u00A0h"};
    CHECK(is_shown(texts, "1 284.6 h"));
    CHECK(is_shown(texts, "284.6"));
    CHECK_FALSE(is_shown(texts, "285"));
}

TEST_CASE("the texts of a page are its strip, its body and its buttons") {
    Page page;
    page.left = "Ash Lane";
    page.body = MessageBody{LugState::held, "Heading", {"one line"}};
    page.main = {"main", "Go on", "what follows", true, ""};
    CHECK(texts_of(page) ==
          std::vector<std::string>{"Ash Lane", "Heading", "one line", "Go on", "what follows"});
}

TEST_CASE("the targets of a page are its tiles, its rows, its plates and its buttons") {
    Page page;
    ChoiceBody body;
    body.tiles = {{"reading:fine", "Holds", "", "", TileState::plain, false, "not yet"}};
    page.body = body;
    page.main = {"next", "Next", "", true, ""};
    const auto targets = targets_of(page);
    REQUIRE(targets.size() == 2);
    CHECK(targets[0].id == "reading:fine");
    CHECK_FALSE(targets[0].enabled);
    CHECK(targets[0].why_not == "not yet");
    CHECK(targets[1].main);
}
