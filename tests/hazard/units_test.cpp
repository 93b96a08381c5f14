#include "hazard/units.hpp"

#include "near.hpp"

using namespace holdpin;

namespace {

constexpr std::string_view kUnits[] = {"°C",   "kPa", "MPa", "m",   "m²",    "m²/h", "m³",
                                       "m³/h", "cm²", "L",   "kg",  "kg/m³", "N",    "ppm",
                                       "min",  "h",   "%",   "dBA", "m/s²",  ""};

}  // namespace

TEST_CASE("every unit comes back from what is shown, in both systems") {
    for (const UnitSystem system : {UnitSystem::metric, UnitSystem::us}) {
        for (const std::string_view unit : kUnits) {
            for (const double value : {-40.0, 0.0, 0.001, 1.0, 98.7, 1e6}) {
                const Shown shown = shown_in(system, value, unit);
                CHECK(near(value_from(system, shown.value, unit), value, 1e-9 + 1e-12 * value));
            }
        }
    }
}

TEST_CASE("customary units have their published sizes") {
    // NIST SP 811, from memory.
    CHECK(near(shown_in(UnitSystem::us, 100, "°C").value, 212, 1e-9));
    CHECK(near(shown_in(UnitSystem::us, 101.325, "kPa").value, 14.696, 0.0005));
    CHECK(near(shown_in(UnitSystem::us, 0.3048, "m").value, 1, 1e-12));
    CHECK(near(shown_in(UnitSystem::us, 1, "m³").value, 35.3147, 0.00005));
    CHECK(near(shown_in(UnitSystem::us, 1, "m³/h").value, 0.588578, 5e-7));
    CHECK(near(shown_in(UnitSystem::us, 3.785411784, "L").value, 1, 1e-12));
    CHECK(near(shown_in(UnitSystem::us, 0.45359237, "kg").value, 1, 1e-12));
    CHECK(near(shown_in(UnitSystem::us, 4.4482216152605, "N").value, 1, 1e-12));
    CHECK(near(shown_in(UnitSystem::us, 1000, "kg/m³").value, 8.345, 0.0005));
    CHECK(shown_in(UnitSystem::us, 5, "m³/h").unit == "ft³/min");
}

TEST_CASE("metric stays as it is, and so does a unit that both systems share") {
    CHECK(shown_in(UnitSystem::metric, 5, "m³").value == 5);
    CHECK(shown_in(UnitSystem::metric, 5, "m³").unit == "m³");
    CHECK(shown_in(UnitSystem::us, 5, "ppm").value == 5);
    CHECK(shown_in(UnitSystem::us, 5, "ppm").unit == "ppm");
}
