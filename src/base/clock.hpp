// Time comes in from outside. Wall time (UTC, may jump) and monotonic time (never goes back
// within a boot) are kept apart, so that a clock set back can be seen.
#pragma once

#include <cstdint>
#include <string>

namespace holdpin {

class Clock {
  public:
    virtual ~Clock() = default;
    virtual std::int64_t now_ms() const = 0;   // UTC, milliseconds since 1970-01-01
    virtual std::int64_t mono_ms() const = 0;  // milliseconds since boot
    virtual std::string boot() const = 0;      // changes with every boot; at most 36 characters
};

class RealClock final : public Clock {
  public:
    std::int64_t now_ms() const override;
    std::int64_t mono_ms() const override;
    std::string boot() const override;
};

// A clock that moves only when told to: tests, rehearsals and driven screens.
class HandClock final : public Clock {
  public:
    explicit HandClock(std::int64_t now_ms) : now_ms_(now_ms) {}

    std::int64_t now_ms() const override { return now_ms_; }
    std::int64_t mono_ms() const override { return mono_ms_; }
    std::string boot() const override { return boot_; }

    // Time passes: wall and monotonic clocks move together. `ms` >= 0.
    void pass(std::int64_t ms) {
        now_ms_ += ms;
        mono_ms_ += ms;
    }
    // Somebody sets the wall clock; the monotonic clock stays.
    void set_wall(std::int64_t now_ms) { now_ms_ = now_ms; }
    // The machine restarts: a new boot, the monotonic clock begins again.
    void reboot() {
        boot_ = "hand-" + std::to_string(++boots_);
        mono_ms_ = 0;
    }

  private:
    std::int64_t now_ms_;
    std::int64_t mono_ms_ = 0;
    int boots_ = 0;
    std::string boot_ = "hand-0";
};

}  // namespace holdpin
