// An air alarm of a room: why one stands, when people who feel ill make one, when they are asked,
// what a low reading needs before it ends one, and how long the room airs. Symptoms: two people ill
// in one room is the clue (CDC MMWR 1993 on Vermont 1992, read); the minutes within which two
// reports count together are common practice, no source. The airing time is a planning estimate
// with every engine off and outdoor air alone, rounded up: no measurement, no clearance to enter.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "rules/air.hpp"
#include "rules/shifts.hpp"

namespace holdpin {

enum class AlarmCause { reading, symptoms, button };
std::string_view name_of(AlarmCause cause);
// An alarm raised before causes were kept had a reading.
AlarmCause alarm_cause(std::string_view name);

// ---- symptoms ----
struct IllReport {
    std::int64_t at_ms = 0;
    int count = 0;  // 1, or 2 for two or more
};
// People reported ill in one room within the last `minutes`. Reports are without names, so that two
// of one person count as two: the mistake that sends people outside is the smaller one.
int ill_within(const std::vector<IllReport>& reports, int minutes, std::int64_t now_ms);
bool is_alarm(int ill);

struct MidShift {
    std::optional<ShiftWindow> shift;  // running now
    std::int64_t now_ms = 0;
    bool engine_out = false;  // a machine with an engine is handed over into the room
    bool shut = false;        // no door to outdoors counts as open
    bool alarm = false;       // stands
    bool asked = false;       // in this shift
};
// From the middle of the shift to its end, once.
bool is_time_to_ask(const MidShift& question);

// ---- the end of an alarm ----
// The level below which a measured reading lets people back in.
double reentry_level_ppm(const AirPolicy& policy);

enum class LiftRefusal { none, not_below, not_counted, not_entitled, not_current };
struct LiftQuestion {
    double ppm = 0;  // measured
    double level_ppm = 0;
    bool counted = false;   // everybody who is listed was seen outside
    bool entitled = false;  // to return to service
    bool current = false;   // in a class of machine of the room
};
LiftRefusal judge_lift(const LiftQuestion& question);

// ---- airing ----
// Where nothing was measured, a room is counted from the level immediately dangerous to life and
// health (NIOSH IDLH, 1,200 ppm).
inline constexpr double kUnmeasuredPpm = 1200;

struct AiringQuestion {
    const Room* room = nullptr;
    std::vector<DoorState> doors;
    AirPolicy policy;
    double from_ppm = kUnmeasuredPpm;
    std::int64_t since_ms = 0;  // when the air was at `from_ppm`, and every engine off
    std::int64_t now_ms = 0;
};
struct AiringNow {
    double ppm = 0;  // by the sum, now
    // Until the level for going back in, with the doors as they count now, rounded up; 0: over.
    // Absent: more than a day, or no outdoor air to count with.
    std::optional<int> minutes_left;
};
// Error where a figure of the room is outside what the sum takes; see hazard/purge.hpp.
Result<AiringNow> airing_now(const AiringQuestion& question);

}  // namespace holdpin
