// The plate and its holds, put into words: one picture that explains "why not" on the floor, in the
// round, when refused and at the desk.
#pragma once

#include <string>
#include <vector>

#include "flows/page.hpp"
#include "flows/session.hpp"
#include "rules/release.hpp"
#include "rules/tags.hpp"

namespace holdpin {

// Everything the decision needs about this person, machine and room now. `room` empty: the
// machine's home room.
Result<Snapshot> snapshot_of(const Session& session, const std::string& plate,
                             const std::string& room = "");

struct MachineFacts {
    Snapshot snapshot;
    std::vector<Hold> holds;  // standing
    std::optional<Tag> tag;   // that hangs on it, or should
    bool locked_out = false;  // a lockout is running, which this kiosk guides
};
// With the person signed on; with nobody, the holds of the machine alone.
Result<MachineFacts> facts_of(const Session& session, const std::string& plate,
                              const std::string& room = "");

PlateView plate_view(const Session& session, const MachineFacts& facts);
HoldCard hold_card(const Session& session, const Snapshot& snapshot, const Hold& hold);
std::vector<HoldCard> hold_cards(const Session& session, const MachineFacts& facts);
std::vector<LugView> lug_views(const Session& session, const std::vector<Hold>& holds);

// The headline of a finding: what the author wrote for the reading, else what was reported.
std::string finding_title(const Session& session, const std::string& plate,
                          const OpenFinding& finding);
std::string finding_title(const Session& session, const Say& say, const std::string& plate,
                          const OpenFinding& finding);
// Why such a finding matters; may be empty.
std::string finding_why(const Session& session, const std::string& plate,
                        const OpenFinding& finding);
// "1 284.6 h"
std::string hours_text(std::int64_t tenths);
// The point of a round of the machine's class, or null.
const Point* point_of(const Session& session, const std::string& plate, const std::string& point);
const MachineClass* class_of(const Session& session, const std::string& plate);

}  // namespace holdpin
