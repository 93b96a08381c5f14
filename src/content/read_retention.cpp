// Reads, checks and freezes the classes of records: how long each kind is kept, and why.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "base_json/canonical_json.hpp"
#include "content/digest.hpp"
#include "content/draft.hpp"
#include "content/node_reader.hpp"
#include "content/proofreader.hpp"

namespace holdpin {
namespace {

constexpr Range kYears{1, 100};
constexpr std::string_view kAirReading = "air-read";
// What tells of exposure to bad air stands in one class, beside the readings.
constexpr std::array<std::string_view, 8> kExposure{
    kAirReading,         "air-alarm-raised", "air-alarm-lifted", "heads-counted",
    "symptoms-reported", "symptoms-named",   "tailpipe-tested",  "door-set"};
const NodeReader::Names<std::string> kAll{{std::string(kEveryKind), std::string(kEveryKind)}};
const NodeReader::Names<bool> kFrom{{"entry", false}, {"employment", true}};

// Kinds are ids, or one "*" for every kind that no class names.
std::vector<std::string> read_kinds(NodeReader& reader) {
    const Node* list = reader.at().node().find("kinds");
    const bool all = list != nullptr && list->items.size() == 1 && list->items.front().text == "*";
    return all ? reader.choices("kinds", kAll, Need::must) : reader.ids("kinds");
}

RetentionClass read_class_of(NodeReader& reader) {
    RetentionClass one;
    one.id = reader.id("id");
    one.name = reader.text("name");
    one.kinds = read_kinds(reader);
    one.from_employment = reader.choice("from", kFrom);
    one.years = reader.whole("years", kYears);
    one.purge = reader.flag("purge");
    one.why = reader.text("why");
    one.who = reader.text("who");
    one.footing = reader.id("footing");
    reader.done();
    return one;
}

bool takes(const RetentionClass& one, std::string_view kind) {
    return std::find(one.kinds.begin(), one.kinds.end(), kind) != one.kinds.end();
}

void proof_exposure(Proof& proof, const RetentionClass& one, const Spot& place) {
    if (!takes(one, kAirReading)) return;
    for (const std::string_view kind : kExposure) {
        if (takes(one, kind)) continue;
        proof.note(place.key("kinds"), fmt::format("\"{}\" tells of exposure to bad air", kind),
                   "write it beside \"air-read\"");
    }
}

}  // namespace

void read_retention(const Spot& file, ContentDraft& draft, Faults& faults) {
    NodeReader reader(file, faults);
    for (auto& below : reader.tables("class", Need::must)) {
        draft.content.pack.retention.push_back(read_class_of(below));
        draft.places.retention.push_back(below.at());
    }
    reader.done();
}

void proof_retention(Proof& proof) {
    const auto& classes = proof.pack().retention;
    const auto& places = proof.places().retention;
    proof.unique(ids_of(classes, &RetentionClass::id), places, "class of records");
    std::vector<std::string> kinds;
    std::vector<Spot> kind_places;
    for (std::size_t i = 0; i < classes.size(); ++i) {
        proof.footing(classes[i].footing, places[i]);
        proof_exposure(proof, classes[i], places[i]);
        for (const std::string& kind : classes[i].kinds) {
            kinds.push_back(kind);
            kind_places.push_back(places[i].key("kinds"));
            if (kind != kAirReading || !classes[i].purge) continue;
            proof.note(places[i].key("purge"), "readings of air are never purged with the rest",
                       "write purge = false");
        }
    }
    proof.unique(kinds, kind_places, "kind");
    if (classes.empty()) return;
    for (const std::string_view kind : {kEveryKind, kAirReading}) {
        if (std::find(kinds.begin(), kinds.end(), kind) != kinds.end()) continue;
        proof.note(places.back(), fmt::format("no class of records takes \"{}\"", kind),
                   fmt::format("write \"{}\" under kinds of one class", kind));
    }
}

std::string frozen_retention(const Pack& pack) {
    nlohmann::json list = nlohmann::json::array();
    for (const RetentionClass& one : pack.retention) {
        list.push_back({{"id", one.id},
                        {"name", one.name.by_language},
                        {"kinds", one.kinds},
                        {"from", one.from_employment ? "employment" : "entry"},
                        {"years", one.years},
                        {"purge", one.purge},
                        {"why", one.why.by_language},
                        {"who", one.who.by_language},
                        {"footing", one.footing}});
    }
    auto bytes = canonical(nlohmann::json{{"class", std::move(list)}});
    return bytes.ok() ? std::move(bytes).value() : std::string{};
}

}  // namespace holdpin
