#include <doctest/doctest.h>

#include "kiosk/audit.hpp"

using namespace holdpin;

namespace {

constexpr Scale kScale{5.9F};

Drawn target(const std::string& id, Rect rect) {
    Drawn drawn;
    drawn.id = id;
    drawn.label = id;
    drawn.rect = rect;
    drawn.visible = rect;
    drawn.target = true;
    drawn.min_mm = kOperatorTargetMm;
    return drawn;
}

Drawn text(const std::string& words, Rect rect) {
    Drawn drawn;
    drawn.text = words;
    drawn.rect = rect;
    drawn.visible = rect;
    drawn.contrast = 15;
    return drawn;
}

Recorder with(std::vector<Drawn> drawn) {
    return {{0, 0, 1280, 800}, std::move(drawn)};
}

std::string faults(std::vector<Drawn> drawn) {
    std::string all;
    for (const std::string& fault : audit(with(std::move(drawn)), kScale)) {
        all += (all.empty() ? "" : "\n") + fault;
    }
    return all;
}

}  // namespace

TEST_SUITE("kiosk") {
TEST_CASE("a frame that keeps the rules has no faults") {
    CHECK(faults({target("a", {0, 0, 118, 118}), target("b", {142, 0, 118, 118}),
                  text("hello", {10, 10, 60, 30})}) == "");
}

TEST_CASE("a target that is too small is found, by height and by width") {
    CHECK(faults({target("low", {0, 0, 200, 100})}) ==
          "\"low\" (low) is 16.9 mm high, less than 20.0");
    CHECK(faults({target("thin", {0, 0, 100, 118})}) ==
          "\"thin\" (thin) is 16.9 mm wide, less than 20.0");
}

TEST_CASE("targets that overlap are found, and a row scrolled away is not") {
    CHECK(faults({target("a", {0, 0, 118, 118}), target("b", {100, 0, 118, 118})}) ==
          "\"a\" (a) and \"b\" (b) overlap");
    Drawn away = target("b", {100, 0, 118, 118});
    away.visible = {};
    away.scrolls = true;
    CHECK(faults({target("a", {0, 0, 118, 118}), away}) == "");
}

TEST_CASE("a target outside the display is found") {
    CHECK(faults({target("a", {1200, 0, 118, 118})}) == "\"a\" (a) leaves the display");
}

TEST_CASE("a main action under 60 mm is found") {
    Drawn main = target("next", {0, 0, 300, 118});
    main.main = true;
    CHECK(faults({main}) == "\"next\" (next) is the main action and only 50.8 mm wide");
}

TEST_CASE("text that is cut off, has an unknown letter or is too faint is found") {
    Drawn clipped = text("long", {0, 0, 60, 30});
    clipped.clipped = true;
    CHECK(faults({clipped}) == "the text \"long\" does not fit into its room");
    Drawn unknown = text("?", {0, 0, 60, 30});
    unknown.missing_glyph = true;
    CHECK(faults({unknown}) == "the text \"?\" has a letter that no typeface has");
    Drawn faint = text("grey", {0, 0, 60, 30});
    faint.contrast = 4.5F;
    CHECK(faults({faint}) == "the text \"grey\" has a contrast of 4.5:1, less than 7");
    faint.exempt = true;
    CHECK(faults({faint}) == "");
}

TEST_CASE("two texts in one place are found, a notice over the page is not") {
    CHECK(faults({text("a", {0, 0, 60, 30}), text("b", {10, 10, 60, 30})}) ==
          "the text \"a\" and the text \"b\" overlap");
    Drawn notice = text("b", {10, 10, 60, 30});
    notice.over = true;
    CHECK(faults({text("a", {0, 0, 60, 30}), notice}) == "");
}
}
