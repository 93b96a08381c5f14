// How the quantities of an estimate are shown: in metric or in US customary units, as the site
// says. Sums are made in metric units (m³, m³/h, L, kg, m, °C, kPa, km/h, minutes); a dial holds
// what is shown, so that its steps are round in the site's own units. Factors are exact by
// definition.
#pragma once

#include <string>

namespace holdpin {

enum class Quantity {
    volume,       // m³ or ft³
    airflow,      // m³/h or ft³/min
    gas_flow,     // L/min of carbon monoxide, in both
    ppm,
    percent,
    minutes,      // "1 h 30 min"
    temperature,  // °C or °F
    pressure,     // from kPa: bar or psi
    mass,         // kg or lb
    length,       // m or ft
    angle,        // °
    force,        // N or lbf
    area,         // m² or ft²
    speed,        // km/h or mph
    liquid,       // L or gal
    liquid_flow,  // L/min or gal/min
};

class Units {
  public:
    explicit Units(bool us) : us_(us) {}
    double shown(Quantity quantity, double metric) const;
    double metric(Quantity quantity, double shown) const;
    std::string unit(Quantity quantity) const;
    // "9 000 m³", with a no-break space.
    std::string text(Quantity quantity, double metric) const;
    // The same of a number that is in the unit shown.
    std::string text_of_shown(Quantity quantity, double shown) const;
    bool us() const { return us_; }

  private:
    bool us_;
};

// Three digits or more, no exponent, no noughts at the end: "9 000", "0.35".
std::string plain_number(double value);

}  // namespace holdpin
