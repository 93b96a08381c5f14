#include "hazard/battery_air.hpp"

#include "hazard/valid_range.hpp"

namespace holdpin {
namespace {

constexpr ValidRange kCells = {"cells", "", 1, 500};
constexpr ValidRange kGassing = {"gassing_a", "A", 0.001, 500};
constexpr ValidRange kCapacity = {"capacity_ah", "Ah", 1, 5000};
constexpr ValidRange kPer100 = {"per_100ah", "A/100 Ah", 0.01, 50};
constexpr ValidRange kTemperature = {"temperature_c", "°C", -20, 60};

constexpr double kOlder_m3_ah = 0.05;
constexpr double k2014_m3_ah = 0.055;
constexpr double kOpening_cm2_h_m3 = 28.0;
constexpr double kFreeRoom_h = 2.5;

constexpr double kFaraday_c_mol = 96485.33212;
constexpr double kGas_j_mol_k = 8.314462618;
constexpr double kAtmosphere_pa = 101'325.0;

}  // namespace

Result<double> gassing_a(double capacity_ah, double per_100ah) {
    TRY(refuse_outside(kCapacity, capacity_ah));
    TRY(refuse_outside(kPer100, per_100ah));
    return capacity_ah / 100.0 * per_100ah;
}

Result<BatteryAir> battery_air(int cells, double gassing_a, ChargeStandard standard) {
    TRY(refuse_outside(kCells, cells));
    TRY(refuse_outside(kGassing, gassing_a));
    const double per_ah = standard == ChargeStandard::y2014 ? k2014_m3_ah : kOlder_m3_ah;
    BatteryAir air;
    air.airflow_m3h = per_ah * cells * gassing_a;
    air.opening_cm2 = kOpening_cm2_h_m3 * air.airflow_m3h;
    air.free_room_m3 = kFreeRoom_h * air.airflow_m3h;
    return air;
}

Result<double> charge_hydrogen_m3h(int cells, double gassing_a, double temperature_c) {
    TRY(refuse_outside(kCells, cells));
    TRY(refuse_outside(kGassing, gassing_a));
    TRY(refuse_outside(kTemperature, temperature_c));
    const double mol_h = cells * gassing_a * 3600.0 / (2.0 * kFaraday_c_mol);
    return mol_h * kGas_j_mol_k * (temperature_c + 273.15) / kAtmosphere_pa;
}

}  // namespace holdpin
