#include "rules/cylinders.hpp"

#include <algorithm>
#include <array>

namespace holdpin {
namespace {

constexpr std::array<std::string_view, 4> kStates{"full", "empty", "set-aside", "on-machine"};
constexpr std::array<std::string_view, 6> kRefusals{"none",       "unreadable", "overdue",
                                                    "over-limit", "known",      "no-gas"};

}  // namespace

double counted_kg(const std::vector<Cylinder>& store) {
    double kg = 0;
    for (const Cylinder& cylinder : store) {
        if (cylinder.state != CylinderState::on_machine) kg += cylinder.gas_kg;
    }
    return kg;
}

Result<YearMonth> due_of(const Cylinder& cylinder, const CylinderPolicy& policy) {
    return cylinder_due(cylinder.made, cylinder.stamps,
                        {policy.first_years, policy.volumetric_years, policy.proof_years,
                         policy.visual_years});
}

CylinderRefusal refusal_of(const Cylinder& offered, const std::vector<Cylinder>& store,
                           const CylinderPolicy& policy, Date today) {
    const auto due = due_of(offered, policy);
    if (!due.ok() || offered.serial.empty()) return CylinderRefusal::unreadable;
    if (due.value() < YearMonth{today.year, today.month}) return CylinderRefusal::overdue;
    const bool known = std::any_of(store.begin(), store.end(), [&](const Cylinder& cylinder) {
        return cylinder.serial == offered.serial;
    });
    if (known) return CylinderRefusal::known;
    if (!(offered.gas_kg > 0)) return CylinderRefusal::no_gas;
    if (policy.limit_kg > 0 && counted_kg(store) + offered.gas_kg > policy.limit_kg) {
        return CylinderRefusal::over_limit;
    }
    return CylinderRefusal::none;
}

bool may_be_set(CylinderState from, CylinderState to) {
    const bool in_use = from == CylinderState::full || from == CylinderState::empty;
    return in_use && to != from && to != CylinderState::on_machine;
}

bool may_be_given_back(CylinderState state) { return state != CylinderState::on_machine; }

std::string_view name_of(CylinderState state) { return kStates[static_cast<std::size_t>(state)]; }

std::optional<CylinderState> cylinder_state_named(std::string_view name) {
    for (std::size_t i = 0; i < kStates.size(); ++i) {
        if (kStates[i] == name) return static_cast<CylinderState>(i);
    }
    return std::nullopt;
}

std::string_view name_of(CylinderRefusal refusal) {
    return kRefusals[static_cast<std::size_t>(refusal)];
}

}  // namespace holdpin
