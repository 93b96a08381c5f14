#include "rules/holds.hpp"

#include <array>

namespace holdpin {
namespace {

// In the order of the enumeration.
constexpr std::array<std::string_view, kHoldCount> kNames{
    "not-enrolled",        "no-duty",           "topic-not-instructed", "topic-not-practised",
    "topic-not-evaluated", "topic-lapsed",      "no-authorisation",     "condition-not-met",
    "refresher-open",      "round-missing",     "round-incomplete",     "round-stale",
    "round-other-person",  "round-other-content", "stop-finding",       "limit-undecided",
    "room-closed",         "room-air",          "air-alarm",            "service-overdue",
    "inspection-overdue",  "lockout-on",        "machine-unknown",      "already-released",
    "not-returned",        "clock-doubtful",    "ledger-doubtful",      "disk-low",
    "work-running",        "content-changed",   "hopper-up",
};
static_assert(static_cast<std::size_t>(HoldCode::hopper_up) + 1 == kHoldCount);

}  // namespace

std::string_view name_of(HoldCode code) { return kNames[index_of(code)]; }

std::optional<HoldCode> hold_named(std::string_view name) {
    for (std::size_t i = 0; i < kNames.size(); ++i) {
        if (kNames[i] == name) return static_cast<HoldCode>(i);
    }
    return std::nullopt;
}

HoldSet set_of(const std::vector<Hold>& holds) {
    HoldSet set;
    for (const Hold& hold : holds) set.set(index_of(hold.code));
    return set;
}

}  // namespace holdpin
