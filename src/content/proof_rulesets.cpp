// Checks of footings, the hold table, duties, screen texts and classes.
#include <fmt/format.h>

#include <algorithm>

#include "content/hold_codes.hpp"
#include "content/proofreader.hpp"

namespace holdpin {
namespace {

void proof_hold(Proof& proof, const HoldRule& hold, const Spot& at) {
    proof.known(hold.code, {kHoldCodes.begin(), kHoldCodes.end()}, at.key("code"), "hold code");
    const bool never = std::find(kNeverOverridden.begin(), kNeverOverridden.end(), hold.code) !=
                       kNeverOverridden.end();
    if (hold.overridable && never) {
        proof.note(at.key("overridable"),
                   fmt::format("the hold \"{}\" is never overridden", hold.code),
                   "write overridable = false");
    }
    if (hold.lifted_by.empty() && at.node().find("lifted_by")) {
        proof.note(at.key("lifted_by"), fmt::format("nobody lifts the hold \"{}\"", hold.code),
                   "name at least one duty");
    }
    proof.placeholders(hold.title, at.key("title"), "title");
    proof.placeholders(hold.reason, at.key("reason"), "reason");
    proof.placeholders(hold.lift, at.key("lift"), "lift");
    proof.screen_words(at);
}

void proof_holds(Proof& proof) {
    const auto& holds = proof.pack().holds;
    const auto& places = proof.places().holds;
    for (std::size_t i = 0; i < holds.size(); ++i) proof_hold(proof, holds[i], places[i]);
    proof.unique(ids_of(holds, &HoldRule::code), places, "hold");
    // Without a table the reader has said so.
    if (holds.empty()) return;
    for (const auto code : kHoldCodes) {
        if (proof.pack().hold(code)) continue;
        proof.note(places.back(), fmt::format("the hold \"{}\" has no row", code),
                   fmt::format("add [[hold]] code = \"{}\"", code));
    }
}

void proof_duties(Proof& proof) {
    std::vector<std::string> names;
    for (const auto& rule : proof.pack().duties) names.emplace_back(name_of(rule.duty));
    proof.unique(names, proof.places().duties, "duty");
    if (names.empty()) return;
    for (int i = 0; i <= static_cast<int>(Duty::auditing); ++i) {
        const std::string name(name_of(static_cast<Duty>(i)));
        if (std::find(names.begin(), names.end(), name) != names.end()) continue;
        proof.note(proof.places().duties.back(), fmt::format("the duty \"{}\" has no row", name),
                   fmt::format("add [[duty]] id = \"{}\"", name));
    }
}

void proof_class_round(Proof& proof, const MachineClass& machine, RoundKind kind, const Spot& at) {
    const std::string& id = kind == RoundKind::before ? machine.round_before : machine.round_after;
    if (!proof.known(id, ids_of(proof.pack().rounds, &Round::id), at, "round")) return;
    const Round& round = *proof.pack().round(id);
    if (round.kind != kind || round.machine_class != machine.id) {
        proof.note(at,
                   fmt::format("round \"{}\" is of kind {} and class {}", id, name_of(round.kind),
                               round.machine_class),
                   fmt::format("name a round of kind {} and this class", name_of(kind)));
    }
}

constexpr std::string_view kLockoutJob = "lockout";  // a job without a file of its own

void proof_topics(Proof& proof, const MachineClass& machine, const Spot& at) {
    for (std::size_t i = 0; i < machine.topics.size(); ++i) {
        const Topic& topic = machine.topics[i];
        const Spot spot = at.item("topic", i);
        proof.footing(topic.footing, spot);
        for (const std::string& job : topic.jobs) {
            if (job == kLockoutJob) continue;
            proof.known(job, ids_of(proof.pack().works, &Work::id), spot.key("jobs"), "job");
        }
        if (!proof.known(topic.guide, ids_of(proof.pack().guides, &Guide::id), spot.key("guide"),
                         "guide")) {
            continue;
        }
        const auto& taught = proof.pack().guide(topic.guide)->topics;
        if (std::find(taught.begin(), taught.end(), topic.id) == taught.end()) {
            proof.note(spot.key("guide"),
                       fmt::format("guide \"{}\" does not teach \"{}\"", topic.guide, topic.id),
                       "add the topic to the guide's topics or take the guide out here");
        }
    }
    proof.unique(ids_of(machine.topics, &Topic::id), places_of(at, "topic", machine.topics.size()),
                 "topic");
}

// A tag in the place of a lock needs one more measure: a part of the circuit taken out, a switch
// blocked, another disconnect opened, a handle taken off (WAC 296-803-50005; 1910.147(c)(3), from
// memory).
void proof_tag(Proof& proof, const Energy& energy, const Spot& at) {
    if (energy.tag_only == !energy.extra_measure.empty()) return;
    proof.note(at,
               energy.tag_only
                   ? fmt::format("\"{}\" takes a tag only, and no extra measure is named "
                                 "(1910.147(c)(3))", energy.id)
                   : fmt::format("\"{}\" has an extra measure though it takes a lock", energy.id),
               "write tag_only = true and extra_measure = { en = \"…\", es = \"…\" }, or neither");
}

// What creeps is stored; what is raised has its own supports (1910.147(d)(5), read in a secondary
// copy).
void proof_energies(Proof& proof, const MachineClass& machine, const Spot& at) {
    proof.unique(ids_of(machine.energies, &Energy::id),
                 places_of(at, "energy", machine.energies.size()), "energy");
    for (std::size_t i = 0; i < machine.energies.size(); ++i) {
        const Energy& energy = machine.energies[i];
        proof_tag(proof, energy, at.item("energy", i));
        if (energy.reverify_minutes == 0 || energy.stored) continue;
        proof.note(at.item("energy", i).key("reverify_minutes"),
                   fmt::format("\"{}\" comes back though it is not stored", energy.id),
                   "write stored = true");
    }
    proof.unique(ids_of(machine.props, &Prop::id), places_of(at, "prop", machine.props.size()),
                 "prop");
    for (std::size_t i = 0; i < machine.props.size(); ++i) {
        proof.known(machine.props[i].part, ids_of(machine.parts, &Part::id),
                    at.item("prop", i).key("part"), "part");
    }
    if (machine.hopper && machine.props.empty()) {
        proof.note(at.key("hopper"), "a hopper is raised and nothing supports it",
                   "add a [[prop]] for each side");
    }
}

}  // namespace

void proof_rulesets(Proof& proof) {
    proof.unique(ids_of(proof.pack().footings, &Footing::id), proof.places().footings, "footing");
    proof_holds(proof);
    proof_duties(proof);
    proof_retention(proof);
    for (const auto& [key, text] : proof.pack().strings) {
        const Spot& at = proof.places().strings.at(key);
        proof.placeholders(text, at, key);
        proof.screen_words(at);
    }
}

void proof_classes(Proof& proof) {
    for (std::size_t i = 0; i < proof.pack().classes.size(); ++i) {
        const MachineClass& machine = proof.pack().classes[i];
        const Spot& at = proof.places().classes[i];
        proof_class_round(proof, machine, RoundKind::before, at.key("round_before"));
        proof_class_round(proof, machine, RoundKind::after, at.key("round_after"));
        proof_topics(proof, machine, at);
        proof_figures(proof, machine, at);
        proof_energies(proof, machine, at);
        proof.unique(ids_of(machine.parts, &Part::id), places_of(at, "part", machine.parts.size()),
                     "part");
    }
}

}  // namespace holdpin
