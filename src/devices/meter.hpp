// A carbon monoxide meter as the kiosk sees it: the last value it gave and when, and what is wrong
// if the last try gave none. A value stays what it was when it was read: whoever uses it looks at
// its time. Nothing here judges a value, and silence is never a zero.
#pragma once

#include <cstdint>
#include <mutex>
#include <optional>
#include <string>

#include "base/result.hpp"

namespace holdpin {

// More is gas in place of air; see hazard/room_air.hpp.
inline constexpr double kMostPpm = 100'000;

struct MeterValue {
    double ppm = 0;
    std::int64_t read_ms = 0;  // UTC
};

struct MeterState {
    enum class Quality { unasked, good, failing };
    Quality quality = Quality::unasked;  // of the last try
    std::optional<MeterValue> value;     // of the last try that gave one
    std::string trouble;                 // a sentence, while failing
};

class Meter {
  public:
    virtual ~Meter() = default;
    virtual MeterState latest() const = 0;  // from any thread; does not wait for the meter
};

// The latest state, handed from the thread that asks a meter to the one that uses it.
class MeterSlot {
  public:
    void put(const Result<double>& ppm, std::int64_t read_ms);
    MeterState get() const;

  private:
    mutable std::mutex mutex_;
    MeterState state_;
};

// A meter that shows what it is told to: tests and rehearsals.
class MemoryMeter final : public Meter {
  public:
    void give(double ppm, std::int64_t read_ms) { slot_.put(ppm, read_ms); }
    void fail(std::string trouble, std::int64_t read_ms) {
        slot_.put(Error{ErrorKind::failed, std::move(trouble), "", ""}, read_ms);
    }
    MeterState latest() const override { return slot_.get(); }

  private:
    MeterSlot slot_;
};

}  // namespace holdpin
