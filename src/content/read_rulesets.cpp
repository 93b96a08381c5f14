// Reads what is named once for the whole pack: footings, holds, duties, screen texts, classes.
#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "content/draft.hpp"
#include "content/node_reader.hpp"

namespace holdpin {
namespace {

constexpr Range kMonths{1, 120};

const NodeReader::Names<std::string> kRegions{
    {"any", "any"}, {"US", "US"}, {"CA", "CA"}, {"GB", "GB"}, {"EU", "EU"}};
const NodeReader::Names<std::string> kStatuses{{"R", "R"}, {"R2", "R2"}, {"M", "M"}, {"CP", "CP"}};

Topic read_topic(NodeReader& reader) {
    Topic topic;
    topic.id = reader.id("id");
    topic.name = reader.text("name");
    topic.kind = reader.choice("kind", names_up_to(TopicKind::workplace));
    topic.guide = reader.id("guide", Need::may);
    topic.footing = reader.id("footing");
    topic.valid_months = reader.whole("valid_months", kMonths);
    topic.jobs = reader.ids("jobs", Need::may);
    reader.done();
    return topic;
}

// A text that the law asks for: without it the fault names the clause.
Text asked_text(NodeReader& reader, std::string_view key, std::string_view clause,
                std::string_view asks) {
    if (reader.has(key)) return reader.text(key);
    note_fault(reader.faults(), reader.at(),
               fmt::format("no `{}` in the lockout procedure: {} asks for {}", key, clause, asks),
               fmt::format("write {} = {{ en = \"…\", es = \"…\" }}", key));
    return {};
}

Procedure read_procedure(NodeReader& reader) {
    Procedure procedure;
    for (const ProcedureText& one : kProcedureTexts) {
        procedure.*one.text = asked_text(reader, one.key, one.clause, one.asks);
    }
    reader.done();
    return procedure;
}

Energy read_energy(NodeReader& reader) {
    Energy energy;
    energy.id = reader.id("id");
    energy.name = reader.text("name");
    energy.isolate =
        asked_text(reader, "isolate", "1910.147(c)(4)(ii)(B)", "how each source is isolated");
    energy.verify =
        asked_text(reader, "verify", "1910.147(c)(4)(ii)(D)", "how one sees that it is gone");
    energy.stored = reader.flag("stored", false);
    energy.before_an_arm = reader.flag("before_an_arm", false);
    energy.reverify_minutes = reader.whole("reverify_minutes", {0, 240}, 0);
    energy.tag_only = reader.flag("tag_only", false);
    energy.extra_measure = reader.text("extra_measure", Need::may);
    reader.done();
    return energy;
}

Prop read_prop(NodeReader& reader) {
    Prop prop;
    prop.id = reader.id("id");
    prop.name = reader.text("name");
    prop.part = reader.id("part");
    reader.done();
    return prop;
}

// The ranges of the figures are those that the sums of hazard/ take, so that no figure that was
// read is refused later. A prop is given by its acute angle.
EngineFigures read_engine(NodeReader& reader) {
    EngineFigures engine;
    engine.co_upper_lmin = reader.number("co_upper_lmin", 0.1, 1000);
    engine.burn_kg_h = reader.number("burn_kg_h", 0, 50);
    engine.cylinder_kg = reader.number("cylinder_kg", 0, 100, engine.cylinder_kg);
    engine.footing = reader.id("footing");
    reader.done();
    return engine;
}

HopperFigures read_hopper(NodeReader& reader) {
    HopperFigures hopper;
    hopper.hopper_kg = reader.number("hopper_kg", 1, 5000);
    hopper.arm_m = reader.number("arm_m", 0.01, 10);
    hopper.prop_m = reader.number("prop_m", 0.01, 10);
    hopper.prop_angle_deg = reader.number("prop_angle_deg", 10, 90);
    hopper.pin_mm = reader.number("pin_mm", 3, 100);
    hopper.shear_planes = reader.whole("shear_planes", {1, 2}, hopper.shear_planes);
    hopper.yield_mpa = reader.number("yield_mpa", 50, 2000);
    hopper.footing = reader.id("footing");
    reader.done();
    return hopper;
}

WorkFigures read_work(NodeReader& reader) {
    WorkFigures work;
    work.solution_l = reader.number("solution_l", 1, 5000);
    work.flow_lmin = reader.number("flow_lmin", 0.05, 100);
    work.recovery_l = reader.number("recovery_l", 1, 5000);
    work.pickup_percent = reader.number("pickup_percent", 0, 100);
    work.width_m = reader.number("width_m", 0.1, 10);
    work.speed_kmh = reader.number("speed_kmh", 0.1, 30);
    work.overlap_percent = reader.number("overlap_percent", 0, 90);
    reader.done();
    return work;
}

// A table is a text when it holds words of a language; other tables lead to texts.
bool is_text(const Node& node) {
    return std::any_of(std::begin(kPackLanguages), std::end(kPackLanguages),
                       [&](const PackLanguage& language) {
                           const Node* words = node.find(language.tag);
                           return words && words->kind != Node::Kind::table;
                       });
}

void read_string_table(const Spot& at, const std::string& path, ContentDraft& draft,
                       Faults& faults) {
    for (std::size_t i = 0; i < at.node().keys.size(); ++i) {
        const std::string& name = at.node().keys[i].name;
        const std::string key = path.empty() ? name : path + "." + name;
        const Spot below = at.item(i);
        if (!is_id(name)) {
            note_fault(faults, below, fmt::format("\"{}\" is no key", name),
                       "write lower-case words joined by hyphens");
        } else if (below.node().kind != Node::Kind::table) {
            note_fault(faults, below, fmt::format("\"{}\" is no text", key),
                       fmt::format("write {} = {{ en = \"…\", es = \"…\" }}", name));
        } else if (!is_text(below.node())) {
            read_string_table(below, key, draft, faults);
        } else if (!draft.places.strings.emplace(key, below).second) {
            const Spot& first = draft.places.strings.at(key);
            note_fault(faults, below, fmt::format("the text \"{}\" is there twice", key),
                       fmt::format("the first is at {}:{}", first.file(), first.node().line));
        } else {
            draft.content.pack.strings.emplace(key, read_text(below, key, faults));
        }
    }
}

}  // namespace

void read_footings(const Spot& file, ContentDraft& draft, Faults& faults) {
    NodeReader reader(file, faults);
    for (auto& below : reader.tables("footing", Need::must)) {
        Footing footing;
        footing.id = below.id("id");
        footing.kind = below.choice("kind", names_up_to(FootingKind::site));
        footing.region = below.choice("region", kRegions);
        footing.status = below.choice("status", kStatuses);
        footing.trucks_only = below.flag("trucks_only", false);
        footing.citation = below.text("citation");
        below.done();
        draft.content.pack.footings.push_back(std::move(footing));
        draft.places.footings.push_back(below.at());
    }
    reader.done();
}

void read_holds(const Spot& file, ContentDraft& draft, Faults& faults) {
    NodeReader reader(file, faults);
    for (auto& below : reader.tables("hold", Need::must)) {
        HoldRule hold;
        hold.code = below.id("code");
        hold.lug = below.choice("lug", names_up_to(Lug::site));
        hold.self = below.flag("self");
        hold.overridable = below.flag("overridable");
        hold.lifted_by = below.choices("lifted_by", names_up_to(Duty::auditing), Need::must);
        hold.title = below.text("title");
        hold.reason = below.text("reason");
        hold.lift = below.text("lift");
        below.done();
        draft.content.pack.holds.push_back(std::move(hold));
        draft.places.holds.push_back(below.at());
    }
    reader.done();
}

void read_duties(const Spot& file, ContentDraft& draft, Faults& faults) {
    NodeReader reader(file, faults);
    for (auto& below : reader.tables("duty", Need::must)) {
        DutyRule duty;
        duty.duty = below.choice("id", names_up_to(Duty::auditing));
        duty.name = below.text("name");
        duty.rights = below.choices("rights", names_up_to(Right::read_records), Need::must);
        below.done();
        draft.content.pack.duties.push_back(std::move(duty));
        draft.places.duties.push_back(below.at());
    }
    reader.done();
}

void read_strings(const Spot& file, ContentDraft& draft, Faults& faults) {
    read_string_table(file, "", draft, faults);
}

MachineClass read_class(const Spot& file, Faults& faults) {
    NodeReader reader(file, faults);
    MachineClass machine;
    machine.id = reader.id("id");
    machine.name = reader.text("name");
    machine.short_name = reader.text("short_name");
    machine.is_truck = reader.flag("is_truck");
    machine.has_engine = reader.flag("has_engine");
    machine.round_before = reader.id("round_before");
    machine.round_after = reader.id("round_after");
    if (auto below = reader.table("engine", Need::may)) machine.engine = read_engine(*below);
    if (auto below = reader.table("hopper", Need::may)) machine.hopper = read_hopper(*below);
    if (auto below = reader.table("work", Need::may)) machine.work = read_work(*below);
    if (auto below = reader.table("procedure", Need::may)) {
        machine.procedure = read_procedure(*below);
    } else if (!reader.has("procedure")) {
        note_fault(faults, file, "no [procedure] of the lockout: 1910.147(c)(4)(ii) asks for one",
                   "write what content/FORMAT.md lists under it");
    }
    for (auto& below : reader.tables("energy", Need::must)) {
        machine.energies.push_back(read_energy(below));
    }
    for (auto& below : reader.tables("prop", Need::may)) {
        machine.props.push_back(read_prop(below));
    }
    for (auto& below : reader.tables("topic", Need::must)) {
        machine.topics.push_back(read_topic(below));
    }
    for (auto& below : reader.tables("part", Need::may)) {
        Part part;
        part.id = below.id("id");
        part.name = below.text("name");
        below.done();
        machine.parts.push_back(std::move(part));
    }
    reader.done();
    return machine;
}

}  // namespace holdpin
