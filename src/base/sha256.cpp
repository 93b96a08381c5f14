#include "base/sha256.hpp"

#include <algorithm>
#include <bit>

namespace holdpin {
namespace {

// FIPS 180-4, section 4.2.2: the first 32 bits of the fractional parts of the cube roots of the
// first 64 primes.
constexpr std::array<std::uint32_t, 64> kRound{
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

using Word = std::uint32_t;

std::uint32_t big_endian(const std::uint8_t* bytes) {
    return std::uint32_t{bytes[0]} << 24 | std::uint32_t{bytes[1]} << 16 |
           std::uint32_t{bytes[2]} << 8 | std::uint32_t{bytes[3]};
}

std::uint32_t small_sigma(std::uint32_t x, int first, int second, int shift) {
    return std::rotr(x, first) ^ std::rotr(x, second) ^ (x >> shift);
}

std::uint32_t big_sigma(std::uint32_t x, int first, int second, int third) {
    return std::rotr(x, first) ^ std::rotr(x, second) ^ std::rotr(x, third);
}

std::array<std::uint32_t, 64> schedule_of(const std::uint8_t* block) {
    std::array<std::uint32_t, 64> w{};
    for (std::size_t t = 0; t < 16; ++t) w[t] = big_endian(block + 4 * t);
    for (std::size_t t = 16; t < 64; ++t) {
        w[t] = small_sigma(w[t - 2], 17, 19, 10) + w[t - 7] + small_sigma(w[t - 15], 7, 18, 3) +
               w[t - 16];
    }
    return w;
}

}  // namespace

void Sha256::take_block(const std::uint8_t* block) {
    const auto w = schedule_of(block);
    auto [a, b, c, d, e, f, g, h] = state_;
    // The letters change places from step to step: after eight they stand where they stood.
    const auto step = [](Word sa, Word sb, Word sc, Word& sd, Word se, Word sf, Word sg, Word& sh,
                         Word constants) {
        const Word choose = sg ^ (se & (sf ^ sg));
        const Word majority = (sa & sb) | (sc & (sa | sb));
        const Word t1 = sh + big_sigma(se, 6, 11, 25) + choose + constants;
        sd += t1;
        sh = t1 + big_sigma(sa, 2, 13, 22) + majority;
    };
    for (std::size_t t = 0; t < 64; t += 8) {
        step(a, b, c, d, e, f, g, h, kRound[t] + w[t]);
        step(h, a, b, c, d, e, f, g, kRound[t + 1] + w[t + 1]);
        step(g, h, a, b, c, d, e, f, kRound[t + 2] + w[t + 2]);
        step(f, g, h, a, b, c, d, e, kRound[t + 3] + w[t + 3]);
        step(e, f, g, h, a, b, c, d, kRound[t + 4] + w[t + 4]);
        step(d, e, f, g, h, a, b, c, kRound[t + 5] + w[t + 5]);
        step(c, d, e, f, g, h, a, b, kRound[t + 6] + w[t + 6]);
        step(b, c, d, e, f, g, h, a, kRound[t + 7] + w[t + 7]);
    }
    const std::array<std::uint32_t, 8> mixed{a, b, c, d, e, f, g, h};
    for (std::size_t i = 0; i < state_.size(); ++i) state_[i] += mixed[i];
}

void Sha256::update(std::span<const std::uint8_t> bytes) {
    byte_count_ += bytes.size();
    while (!bytes.empty()) {
        if (waiting_count_ == 0 && bytes.size() >= kBlockSize) {
            take_block(bytes.data());
            bytes = bytes.subspan(kBlockSize);
            continue;
        }
        const std::size_t count = std::min(kBlockSize - waiting_count_, bytes.size());
        std::copy_n(bytes.begin(), count, waiting_.data() + waiting_count_);
        waiting_count_ += count;
        bytes = bytes.subspan(count);
        if (waiting_count_ == kBlockSize) {
            take_block(waiting_.data());
            waiting_count_ = 0;
        }
    }
}

void Sha256::update(std::string_view text) {
    update({reinterpret_cast<const std::uint8_t*>(text.data()), text.size()});
}

Sha256Digest Sha256::finish() {
    const std::uint64_t bit_count = byte_count_ * 8;
    // One 1 bit, then zeros until the length fits at the end of a block (section 5.1.1).
    const std::uint8_t padding[kBlockSize] = {0x80};
    const std::size_t rest = waiting_count_;
    const std::size_t padding_count = (rest < 56 ? 56 : 120) - rest;
    update({padding, padding_count});
    std::uint8_t length[8];
    for (std::size_t i = 0; i < 8; ++i) {
        length[i] = static_cast<std::uint8_t>(bit_count >> (56 - 8 * i));
    }
    update({length, sizeof length});

    Sha256Digest digest{};
    for (std::size_t i = 0; i < digest.size(); ++i) {
        digest[i] = static_cast<std::uint8_t>(state_[i / 4] >> (24 - 8 * (i % 4)));
    }
    *this = Sha256{};
    return digest;
}

Sha256Digest sha256(std::string_view text) {
    Sha256 hash;
    hash.update(text);
    return hash.finish();
}

}  // namespace holdpin
