// What a session looks after by itself: that wall clock and monotonic clock agree, and that the
// ledger is sealed when one shift follows another. Each writes at most one entry or seal and does
// nothing while there is nothing to say. Shows nothing.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "flows/world.hpp"
#include "rules/shifts.hpp"

namespace holdpin {

// A wall clock that was set, back or forward, or a longer time without the kiosk than the site
// allows: entry `clock-doubted`, which holds every machine until the time was compared.
// Within one boot the monotonic clock tells how much time went by; between two boots only the last
// entry does. Steps of a minute, and half a thousandth of the time gone by, are a time service's.
class ClockWatch {
  public:
    Result<void> look(World& world);

  private:
    struct Reading {
        std::int64_t wall_ms = 0;
        std::int64_t mono_ms = 0;
        std::string boot;
    };
    static Reading read(const Clock& clock);
    static Result<std::optional<Reading>> last_entry(World& world);
    std::optional<Reading> trusted_;  // the clocks when they were last believed
};

// Seals at the first look of each shift, so that a code for the shift book stands ready.
class ShiftSeal {
  public:
    Result<void> look(World& world, const std::optional<ShiftWindow>& shift);

  private:
    std::optional<std::int64_t> start_ms_;  // of the shift seen last; 0: between shifts
};

}  // namespace holdpin
