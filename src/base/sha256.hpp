// SHA-256 as FIPS 180-4 defines it, for digests of content and for tree hashing.
// Guarantees: same bytes, same digest, however they were cut into updates.
// Does not: keep secrets; it makes no claim of constant time and wipes nothing.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

namespace holdpin {

using Sha256Digest = std::array<std::uint8_t, 32>;

class Sha256 {
  public:
    void update(std::span<const std::uint8_t> bytes);
    void update(std::string_view text);
    // The digest of all updates. Afterwards the object starts anew.
    Sha256Digest finish();

  private:
    static constexpr std::size_t kBlockSize = 64;

    void take_block(const std::uint8_t* block);

    std::array<std::uint32_t, 8> state_ = kStart;
    std::array<std::uint8_t, kBlockSize> waiting_{};
    std::size_t waiting_count_ = 0;
    std::uint64_t byte_count_ = 0;

    static constexpr std::array<std::uint32_t, 8> kStart{0x6a09e667, 0xbb67ae85, 0x3c6ef372,
                                                         0xa54ff53a, 0x510e527f, 0x9b05688c,
                                                         0x1f83d9ab, 0x5be0cd19};
};

Sha256Digest sha256(std::string_view text);

}  // namespace holdpin
