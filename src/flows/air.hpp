// The air of a room as the records have it now: doors, engines released into it, the last readings,
// an alarm, and the forecast that follows; and what its readings say for themselves: rolling means
// and the fitted room. The sums are in hazard/, the judging in rules/air.
#pragma once

#include <optional>
#include <string>

#include "flows/session.hpp"
#include "hazard/meter.hpp"
#include "rules/air.hpp"

namespace holdpin {

struct RoomAirNow {
    int engines = 0;  // released into the room
    int beyond = 0;   // released into rooms whose air comes here through doors and fans
    double source_lmin = 0;
    double airflow_m3h = 0;
    std::optional<AirReading> last;      // within the hour
    std::optional<AirAlarm> alarm;
    std::optional<AirForecast> forecast;  // to the end of the shift; absent: none is made
};

// With the engine of `plate` counted too, where it is not out yet; empty: as it is.
Result<RoomAirNow> air_now(const Session& session, const std::string& room,
                           const std::string& plate = "");

// What readings say, as of the last of them.
struct MeasuredAir {
    RollingMean means;
    std::optional<FittedRoom> fit;         // from the last hour
    std::optional<ShiftForecast> forecast;  // with it, and not without
    std::string no_fit;                    // why there is none: a sentence for a command
};
// `readings` of at least 8 hours, oldest first; absent where there are none. The 8-hour means of
// the forecast count what was measured before the hour of the fit, too.
std::optional<MeasuredAir> measured_air(const std::vector<AirReading>& readings, const Room& room,
                                        double minutes_left, double limit_ppm);
// For the page of a room: absent unless there is a reading within the hour.
Result<std::optional<MeasuredAir>> measured_now(const Session& session, const Room& room);

// What is to be said of meters that the kiosk reads itself and that are silent; empty: nothing.
Result<std::string> silent_meters(const Session& session, const std::string& room);

// "Air alarm: 210 ppm at 06:05", or what else raised it.
std::string alarm_line(const Session& session, const AirAlarm& alarm);
// "35 ppm", with a no-break space.
std::string ppm_text(double ppm);

}  // namespace holdpin
