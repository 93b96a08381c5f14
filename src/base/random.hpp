// Random bytes come in from outside: the system's for real use, a seeded stream for tests.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

namespace holdpin {

class Random {
  public:
    virtual ~Random() = default;
    virtual void fill(std::span<std::uint8_t> bytes) = 0;

    // A number from 0 to `bound` - 1, every one equally likely. `bound` >= 1.
    std::uint32_t below(std::uint32_t bound);
};

// The kernel's generator. Ends the process if the kernel cannot give random bytes.
class SystemRandom final : public Random {
  public:
    void fill(std::span<std::uint8_t> bytes) override;
};

// The same seed gives the same bytes on every machine (SplitMix64). Never for secrets.
class SeededRandom final : public Random {
  public:
    explicit SeededRandom(std::uint64_t seed) : state_(seed) {}
    void fill(std::span<std::uint8_t> bytes) override;

  private:
    std::uint64_t next();
    std::uint64_t state_;
};

}  // namespace holdpin
