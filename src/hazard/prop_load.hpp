// What a raised hopper puts on the pins of its props, and how far that is from their yielding.
// Moments about the hinge: all props together push with F = m g arm/(prop sin(angle)); each pin
// is sheared by its part of F over `shear_planes` circles of its diameter; it yields at
// yield/sqrt(3) (von Mises; textbook mechanics, no published example). Valid: see the ranges in
// prop_load.cpp. Static, stiff, both sides sharing evenly, pin sound and fully home: a blow, a
// crooked frame or wear takes a factor of several away, and then one pin carries it all.
// One pin is NEVER enough, whatever the factor says. It is computed for one pin only to show what
// that pin would have to bear; nobody goes under a hopper until both props are in.
#pragma once

#include "base/result.hpp"

namespace holdpin {

struct RaisedHopper {
    double hopper_kg = 0;       // with what is in it
    double arm_m = 0;           // level distance from the hinge to the centre of mass
    double prop_m = 0;          // from the hinge to where the props bear
    double prop_angle_deg = 0;  // between a prop and the line from the hinge to where it bears
    double pin_mm = 0;          // diameter
    int pins = 2;               // 1 or 2
    int shear_planes = 2;       // 1 or 2: the pin is held on one side or on both
    double yield_mpa = 0;       // tensile yield strength of the pin's steel
};

struct PropLoad {
    double force_per_pin_n = 0;
    double shear_mpa = 0;
    double factor = 0;  // shear at which the pin yields, over the shear it bears; no permission
};
Result<PropLoad> prop_load(const RaisedHopper& hopper);

}  // namespace holdpin
