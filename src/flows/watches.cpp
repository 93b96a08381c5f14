#include "flows/watches.hpp"

#include "records/records.hpp"

namespace holdpin {
namespace {

constexpr std::int64_t kSlackMs = 60'000;       // time services correct small steps all day
constexpr std::int64_t kSlackShare = 2'000;     // and slew by at most 500 ppm (Linux, from memory)
constexpr std::int64_t kHourMs = 3'600'000;

Result<void> doubt(World& world, const char* cause, std::int64_t off_ms, std::int64_t last_ms) {
    Fact fact;
    fact.kind = "clock-doubted";
    fact.data = {{"cause", cause}, {"last_entry_ms", last_ms}};
    if (off_ms < 0) {
        fact.data["back_ms"] = -off_ms;
    } else {
        fact.data["forward_ms"] = off_ms;
    }
    TRY(world.book.enter(fact));
    return {};
}

}  // namespace

ClockWatch::Reading ClockWatch::read(const Clock& clock) {
    return {clock.now_ms(), clock.mono_ms(), clock.boot()};
}

Result<std::optional<ClockWatch::Reading>> ClockWatch::last_entry(World& world) {
    Ledger& ledger = world.book.ledger();
    std::optional<Reading> reading;
    if (ledger.size() == 0) return reading;
    const Entry entry = TRY(ledger.at(static_cast<std::int64_t>(ledger.size())));
    reading = Reading{entry.at_ms, entry.mono_ms, entry.boot};
    return reading;
}

Result<void> ClockWatch::look(World& world) {
    const Reading now = read(world.clock);
    if (!trusted_) trusted_ = TRY(last_entry(world));
    const bool in_doubt = TRY(clock_doubt(world.book.db())) != 0;
    if (!trusted_ || in_doubt) {
        trusted_ = now;
        return {};
    }
    const std::int64_t last_ms = TRY(last_entry_ms(world.book.db()));
    const std::int64_t gone_ms = now.wall_ms - trusted_->wall_ms;
    const bool same_boot = now.boot == trusted_->boot && now.mono_ms >= trusted_->mono_ms;
    const std::int64_t passed_ms = same_boot ? now.mono_ms - trusted_->mono_ms : 0;
    const std::int64_t slack_ms = kSlackMs + passed_ms / kSlackShare;
    const std::int64_t off_ms = gone_ms - passed_ms;
    const std::int64_t gap_ms = world.content.site.policy.clock_gap_hours * kHourMs;
    if (off_ms < -slack_ms) {
        TRY(doubt(world, "set-back", off_ms, last_ms));
    } else if (now.wall_ms + kSlackMs < last_ms) {
        TRY(doubt(world, "set-back", now.wall_ms - last_ms, last_ms));
    } else if (same_boot && off_ms > slack_ms) {
        TRY(doubt(world, "set-forward", off_ms, last_ms));
    } else if (!same_boot && gap_ms > 0 && gone_ms > gap_ms) {
        TRY(doubt(world, "gap", gone_ms, last_ms));
    } else if (same_boot) {
        return {};
    }
    trusted_ = now;
    return {};
}

Result<void> ShiftSeal::look(World& world, const std::optional<ShiftWindow>& shift) {
    const std::int64_t start_ms = shift ? shift->start_ms : 0;
    const bool changed = start_ms_ && *start_ms_ != start_ms;
    Sealer* sealer = world.book.sealer();
    if (changed && sealer != nullptr) {
        TRY(sealer->seal());
        sealer->keep_copy();
    }
    start_ms_ = start_ms;
    return {};
}

}  // namespace holdpin
