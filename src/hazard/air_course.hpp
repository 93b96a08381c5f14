// How the concentration at one place goes over a stretch of time: it starts somewhere, rises or
// falls, and the change dies away. One shape covers what a well-mixed room can do: steady air, the
// straight rise in a closed room, build-up towards a steady level, and airing out.
//   C(t) = start + rise·t·(1 − e^(−x))/x,  x = settling·t      (ppm, minutes)
// Exact for the mass balance of one room. Written without a difference of near-equal numbers, so
// that a room with almost no airflow comes out as well as one with none. Plain numbers in: whoever
// makes a course has checked them.
#pragma once

#include <optional>

namespace holdpin {

struct AirCourse {
    double start_ppm = 0;
    double rise_ppm_min = 0;      // at the start; negative where the air gets cleaner
    double settling_per_min = 0;  // 0: goes on as it began

    double at(double minutes) const;
    double mean(double minutes) const;     // over 0..minutes; at 0 the start
    std::optional<double> steady() const;  // absent where it goes on for ever
    // When it comes to `ppm`, from either side; absent where it never does.
    std::optional<double> minutes_to(double ppm) const;
};

}  // namespace holdpin
