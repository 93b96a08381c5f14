// Taking LP cylinders in and keeping them: what is refused at the gate, and how much gas counts
// against the site's limit. An empty cylinder still holds gas and counts as full (NFPA 58 8.2,
// read in a secondary copy); so does one that is set aside. An illegible or overdue mark is refused
// (49 CFR 180.205, 180.213, read in part). Limits and intervals are site content.
#pragma once

#include <string>
#include <vector>

#include "content_types/content.hpp"
#include "hazard/cylinder_due.hpp"

namespace holdpin {

enum class CylinderState { full, empty, set_aside, on_machine };

struct Cylinder {
    std::string serial;
    YearMonth made;
    std::vector<CylinderStamp> stamps;
    double gas_kg = 0;  // when full
    CylinderState state = CylinderState::full;
    std::int64_t entry = 0;
};

enum class CylinderRefusal {
    none,
    unreadable,  // the mark on the collar cannot be read, or makes no sense
    overdue,
    over_limit,  // the store would hold more gas than the site allows
    known,       // a cylinder of this serial is in the store already
    no_gas,      // its gas is not above nothing, and would count nothing
};

inline constexpr double kCommonCylinderKg = 19.7;  // 43.5 lb: common practice, no source
// Gas in the store, in kilograms: one that is fitted to a machine is not in it. One that came off a
// machine and is not listed yet counts as the heaviest of the list, or of those in common use.
double counted_kg(const std::vector<Cylinder>& store, std::size_t unlisted);

// The last month in which it may be filled. Error: invalid.
Result<YearMonth> due_of(const Cylinder& cylinder, const CylinderPolicy& policy);

CylinderRefusal refusal_of(const Cylinder& offered, const std::vector<Cylinder>& store,
                           std::size_t unlisted, const CylinderPolicy& policy, Date today);
// Of one that stands in the store already, as it came off a machine: it is listed overdue or over
// the limit too, so that it is known.
CylinderRefusal refusal_to_list(const Cylinder& found, const std::vector<Cylinder>& store,
                                const CylinderPolicy& policy);

// What may be said of one by hand. What is set aside leaves by being given back alone, so that no
// damaged one is fitted; one on a machine is changed by the exchange that takes it off.
bool may_be_set(CylinderState from, CylinderState to);
bool may_be_given_back(CylinderState state);

std::string_view name_of(CylinderState state);  // "full", "empty", "set-aside", "on-machine"
std::optional<CylinderState> cylinder_state_named(std::string_view name);
std::string_view name_of(CylinderRefusal refusal);

}  // namespace holdpin
