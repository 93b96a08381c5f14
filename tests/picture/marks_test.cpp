#include "picture/marks.hpp"

#include <doctest/doctest.h>

using namespace holdpin;

namespace {

constexpr Extent kRoom{400, 300};
constexpr Extent kName{80, 20};

bool apart(const Box& a, const Box& b) {
    return a.x >= b.x + b.width || b.x >= a.x + a.width || a.y >= b.y + b.height ||
           b.y >= a.y + a.height;
}

}  // namespace

TEST_CASE("a frame stands around its part and the name above it") {
    const auto marks = place_marks({{"tank", 100, 100, 60, 40}}, {kName}, {kRoom});
    REQUIRE(marks.size() == 1);
    CHECK(marks[0].frame == Box{92, 92, 76, 56});
    CHECK(marks[0].name == Box{90, 66, 80, 20});
}

TEST_CASE("a part at the top edge has its name below") {
    const auto marks = place_marks({{"mast", 100, 2, 60, 40}}, {kName}, {kRoom});
    CHECK(marks[0].frame.y >= 0);
    CHECK(marks[0].name.y >= marks[0].frame.y + marks[0].frame.height);
}

TEST_CASE("a name stays inside the picture when its part is at the corner") {
    const auto marks = place_marks({{"seat", 380, 280, 20, 20}}, {{150, 20}}, {kRoom});
    CHECK(marks[0].name.x >= 0);
    CHECK(marks[0].name.x + marks[0].name.width <= kRoom.width);
    CHECK(marks[0].frame.x + marks[0].frame.width <= kRoom.width);
}

TEST_CASE("names of neighbouring parts do not cover each other or a frame") {
    const auto marks =
        place_marks({{"left-prop", 100, 100, 30, 60}, {"right-prop", 150, 100, 30, 60}},
                    {kName, kName}, {kRoom});
    CHECK(apart(marks[0].name, marks[1].name));
    CHECK(apart(marks[0].name, marks[1].frame));
    CHECK(apart(marks[1].name, marks[0].frame));
}

TEST_CASE("a part without a name has a frame only") {
    const auto marks = place_marks({{"tank", 100, 100, 60, 40}}, {{}}, {kRoom});
    CHECK(marks[0].name.width == 0);
}

TEST_CASE("five parts on one spot have five names that can all be read") {
    const std::vector<PartBox> parts(5, PartBox{"valve", 180, 140, 40, 30});
    const auto marks = place_marks(parts, std::vector<Extent>(5, {180, 24}), {kRoom});
    for (std::size_t one = 0; one < marks.size(); ++one) {
        CHECK(marks[one].name.y + marks[one].name.height <= kRoom.height);
        for (std::size_t other = one + 1; other < marks.size(); ++other) {
            CHECK(apart(marks[one].name, marks[other].name));
        }
    }
}

TEST_CASE("a name beside its frame needs no line, one that had to move away has one to its frame") {
    const auto alone = place_marks({{"tank", 100, 100, 60, 40}}, {kName}, {kRoom});
    CHECK_FALSE(alone[0].leader.is_needed);
    // A large part all around leaves no free place next to the small one.
    const auto marks = place_marks({{"valve", 180, 140, 20, 20}, {"cylinder", 120, 90, 140, 120}},
                                   {kName, {}}, {kRoom});
    CHECK(apart(marks[0].name, marks[1].frame));
    REQUIRE(marks[0].leader.is_needed);
    CHECK(marks[0].leader.to_y >= marks[0].frame.y);
    CHECK(marks[0].leader.to_y <= marks[0].frame.y + marks[0].frame.height);
}

TEST_CASE("of the places beside its frame a name takes the one that hides nothing of the picture") {
    Raster picture{400, 300, std::vector<std::uint8_t>(400 * 300 * 4)};
    for (std::size_t y = 60; y < 88; ++y) {  // a stub above the part, left of its middle
        for (std::size_t x = 70; x < 90; ++x) picture.rgba[(y * 400 + x) * 4 + 3] = 255;
    }
    const std::vector<PartBox> valve{{"valve", 100, 100, 60, 200}};
    const Box plain = place_marks(valve, {{120, 20}}, {kRoom})[0].name;
    Ground ground{kRoom, 1, InkMap(picture)};
    CHECK(ground.ink_under(plain) > 0);
    const Box placed = place_marks(valve, {{120, 20}}, ground)[0].name;
    CHECK(ground.ink_under(placed) == 0);
    ground.ink_x = 300;  // the picture begins further right
    CHECK(place_marks(valve, {{120, 20}}, ground)[0].name == plain);
}
