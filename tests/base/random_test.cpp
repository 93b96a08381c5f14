#include "base/random.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <vector>

using namespace holdpin;

namespace {

// Gives out the numbers it was told to, lowest byte first, as below() reads them.
class ToldRandom final : public Random {
  public:
    explicit ToldRandom(std::vector<std::uint32_t> numbers) : numbers_(std::move(numbers)) {}
    void fill(std::span<std::uint8_t> bytes) override {
        const std::uint32_t number = numbers_.at(at_++);
        for (std::size_t i = 0; i < bytes.size(); ++i) {
            bytes[i] = static_cast<std::uint8_t>(number >> (8 * i));
        }
    }
    std::size_t drawn() const { return at_; }

  private:
    std::vector<std::uint32_t> numbers_;
    std::size_t at_ = 0;
};

}  // namespace

TEST_CASE("a seed gives the known stream: the top bytes of SplitMix64") {
    // SplitMix64 with seed 1234567 (Steele, Lea and Flood 2014; values recomputed independently):
    // 6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431,
    // 16408922859458223821.
    SeededRandom random(1234567);
    std::array<std::uint8_t, 5> bytes{};
    random.fill(bytes);
    CHECK(bytes == std::array<std::uint8_t, 5>{89, 44, 136, 63, 227});
}

TEST_CASE("the same seed gives the same bytes however they are fetched") {
    SeededRandom whole(77);
    SeededRandom pieces(77);
    std::array<std::uint8_t, 64> a{};
    std::array<std::uint8_t, 64> b{};
    whole.fill(a);
    for (std::size_t i = 0; i < b.size(); i += 16) pieces.fill(std::span(b).subspan(i, 16));
    CHECK(a == b);

    SeededRandom other(78);
    other.fill(b);
    CHECK(a != b);
}

TEST_CASE("a number below one is always nought") {
    SeededRandom random(5);
    for (int i = 0; i < 100; ++i) CHECK(random.below(1) == 0);
}

TEST_CASE("a draw that would favour small numbers is drawn again") {
    // 2^32 leaves a rest over 0x80000001: what lies at or above it is no fair draw.
    constexpr std::uint32_t kBound = 0x8000'0001U;
    ToldRandom random({0xffff'ffffU, kBound, 0x8000'0000U});
    CHECK(random.below(kBound) == 0x8000'0000U);
    CHECK(random.drawn() == 3);

    ToldRandom top({0xffff'ffffU, 5U});
    CHECK(top.below(3) == 2);
    CHECK(top.drawn() == 2);
}

TEST_CASE("numbers below a bound stay below it and every one of them comes about equally often") {
    constexpr std::uint64_t kSeed = 20261125;
    INFO("seed ", kSeed);
    SeededRandom random(kSeed);
    constexpr std::uint32_t kBound = 7;
    constexpr int kDraws = 70'000;
    std::array<int, kBound> counts{};
    for (int i = 0; i < kDraws; ++i) {
        const std::uint32_t drawn = random.below(kBound);
        REQUIRE(drawn < kBound);
        ++counts[drawn];
    }
    // Ten thousand each; five standard deviations are about 460.
    for (const int count : counts) CHECK(std::abs(count - kDraws / 7) < 500);
}

TEST_CASE("the system gives as many bytes as asked for, beyond what one call may fetch") {
    SystemRandom random;
    std::vector<std::uint8_t> bytes(1000, 0);
    random.fill(bytes);
    // That the last 100 of 1000 random bytes are all nought does not happen (1 in 2^800).
    CHECK(std::any_of(bytes.end() - 100, bytes.end(), [](std::uint8_t b) { return b != 0; }));
    random.fill(std::span<std::uint8_t>());
}
