#include "kiosk/paging.hpp"

#include <doctest/doctest.h>

using namespace holdpin;

namespace {

// Rows of 100 with 20 between them.
std::vector<ScrollRow> rows(int count) {
    std::vector<ScrollRow> all;
    for (int i = 0; i < count; ++i) {
        all.push_back({static_cast<float>(i) * 120, 100});
    }
    return all;
}

}  // namespace

TEST_CASE("a list that fits stands still and hides nothing") {
    const Paging paging(rows(3), 340);
    CHECK_FALSE(paging.is_needed());
    CHECK(paging.last() == 0);
    CHECK(paging.below(0) == 0);
    CHECK(Paging({}, 340).last() == 0);
}

TEST_CASE("a page ends at a whole row and the next begins with the row after it") {
    const Paging paging(rows(10), 400);
    CHECK(paging.filled(0) == 340);
    CHECK(paging.below(0) == 7);
    CHECK(paging.next(0) == 360);
    CHECK(paging.above(360) == 3);
    CHECK(paging.below(360) == 4);
    CHECK(paging.previous(360) == 0);
}

TEST_CASE("the last page is reached and nothing is below it") {
    const Paging paging(rows(10), 400);
    float at = 0;
    for (int i = 0; i < 4; ++i) at = paging.next(at);
    CHECK(at == paging.last());
    CHECK(at == 840);
    CHECK(paging.below(at) == 0);
    CHECK(paging.above(at) == 7);
    CHECK(paging.next(at) == at);
}

TEST_CASE("let go anywhere, a list moves on to the nearest row") {
    const Paging paging(rows(10), 400);
    CHECK(paging.nearest(130) == 120);
    CHECK(paging.nearest(179) == 120);
    CHECK(paging.nearest(181) == 240);
    CHECK(paging.nearest(2000) == 840);
}

TEST_CASE("rows of different heights are all seen on the way down and on the way up") {
    const std::vector<ScrollRow> all = {{0, 90}, {100, 240}, {350, 90}, {450, 310}, {770, 90}};
    const Paging paging(all, 320);
    std::vector<bool> seen(all.size());
    const auto look = [&](float at) {
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (all[i].top >= at && all[i].bottom() <= at + paging.filled(at)) seen[i] = true;
        }
    };
    float at = 0;
    for (int i = 0; i < 8; ++i, at = paging.next(at)) look(at);
    CHECK(seen == std::vector<bool>(all.size(), true));
    seen.assign(all.size(), false);
    for (int i = 0; i < 8; ++i, at = paging.previous(at)) look(at);
    CHECK(seen == std::vector<bool>(all.size(), true));
}

TEST_CASE("a row taller than the room is gone through in pieces that overlap") {
    const Paging paging({{0, 1000, 0}}, 400);
    CHECK(paging.is_needed());
    CHECK(paging.filled(0) == 400);
    CHECK(paging.next(0) == 340);
    CHECK(paging.next(340) == 600);
    CHECK(paging.last() == 600);
    CHECK(paging.previous(600) == 340);
    CHECK(paging.previous(340) == 0);
    CHECK(paging.below(0) == 0);
}
