#include "rules/cylinders.hpp"

#include <algorithm>
#include <array>

namespace holdpin {
namespace {

constexpr std::array<std::string_view, 4> kStates{"full", "empty", "set-aside", "on-machine"};
constexpr std::array<std::string_view, 6> kCylinderRefusals{"none",       "unreadable", "overdue",
                                                    "over-limit", "known",      "no-gas"};

}  // namespace

double counted_kg(const std::vector<Cylinder>& store, std::size_t unlisted) {
    double kg = 0;
    double heaviest = kCommonCylinderKg;
    for (const Cylinder& cylinder : store) {
        if (cylinder.state != CylinderState::on_machine) kg += cylinder.gas_kg;
        heaviest = std::max(heaviest, cylinder.gas_kg);
    }
    return kg + heaviest * static_cast<double>(unlisted);
}

Result<YearMonth> due_of(const Cylinder& cylinder, const CylinderPolicy& policy) {
    return cylinder_due(cylinder.made, cylinder.stamps,
                        {policy.first_years, policy.volumetric_years, policy.proof_years,
                         policy.visual_years});
}

CylinderRefusal refusal_to_list(const Cylinder& found, const std::vector<Cylinder>& store,
                                const CylinderPolicy& policy) {
    if (!due_of(found, policy).ok() || found.serial.empty()) return CylinderRefusal::unreadable;
    const bool known = std::any_of(store.begin(), store.end(), [&](const Cylinder& cylinder) {
        return cylinder.serial == found.serial;
    });
    if (known) return CylinderRefusal::known;
    return found.gas_kg > 0 ? CylinderRefusal::none : CylinderRefusal::no_gas;
}

CylinderRefusal refusal_of(const Cylinder& offered, const std::vector<Cylinder>& store,
                           std::size_t unlisted, const CylinderPolicy& policy, Date today) {
    const auto due = due_of(offered, policy);
    if (due.ok() && due.value() < YearMonth{today.year, today.month} && !offered.serial.empty()) {
        return CylinderRefusal::overdue;
    }
    const CylinderRefusal unlike = refusal_to_list(offered, store, policy);
    if (unlike != CylinderRefusal::none) return unlike;
    if (policy.limit_kg > 0 && counted_kg(store, unlisted) + offered.gas_kg > policy.limit_kg) {
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
    return kCylinderRefusals[static_cast<std::size_t>(refusal)];
}

}  // namespace holdpin
