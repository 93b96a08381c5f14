// The Coburn–Forster–Kane equation for carbon monoxide in blood, in its non-linear form, and its
// exact solution for steady air. Source: OSHA Salt Lake Technical Center, method note of the
// repository COHb (2025, read in full); equation of Coburn, Forster and Kane 1965.
//   dc/dt = VCO/Vb + PICO/(Vb·β) − c·PcO2/(M·Vb·β·(cap − c)),   β = 1/DL + (PB − 47)/VA
//   PICO = ppm·1e-6·(PB − 47),   PcO2 = xO2·(PB − 47 − PICO) − 49,   %COHb = 100·c/cap
// Units: mL of CO in one mL of blood, mmHg, mL, minutes. Plain numbers in and out: uptake.hpp
// checks ranges. Error: the measured spread between people is ±3.8 %COHb at high levels (Benignus
// 1994, abstract read). The linear form, with cap − c held still, is not here: at 40 % it is far
// off.
#pragma once

namespace holdpin {

struct Cfk {
    double beta = 0;            // mmHg·min/mL
    double capacity = 0;        // cap, mL of CO that one mL of blood can bind
    double blood_ml = 0;        // Vb
    double dry_mmhg = 0;        // PB − 47: pressure of the air in the lung without its water
    double o2_fraction = 0;     // xO2
    double own_ml_min = 0.007;  // VCO, what the body makes itself
    double affinity = 218;      // M, haemoglobin for CO against oxygen

    double co_mmhg(double ppm) const { return ppm * 1e-6 * dry_mmhg; }
    double capillary_o2_mmhg(double ppm) const {
        return o2_fraction * (dry_mmhg - co_mmhg(ppm)) - 49;
    }
    double bound(double percent) const { return percent / 100 * capacity; }
    double percent(double bound_co) const { return 100 * bound_co / capacity; }

    // The right-hand side. `bound_co` from 0 to below the capacity.
    double rate(double bound_co, double ppm) const;

    // Where steady air leads in the end.
    double equilibrium(double ppm) const;
    // The steady air whose end this is; negative where even clean air ends above it.
    double equilibrium_ppm(double bound_co) const;

    // Exact: after `minutes` of steady air, from the implicit solution
    //   ln((A·Q − S)/(B·Q − S)) = (Q/R)·(t·Q/(Vb·β·M) + A − B).
    double after(double start_bound, double ppm, double minutes) const;

    // Time in which a low level halves in clean air: ln2·M·cap·Vb·β/PcO2.
    double half_time_min() const;
};

}  // namespace holdpin
