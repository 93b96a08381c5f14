#include "binder/table_cells.hpp"

#include "base/text.hpp"

namespace holdpin::cells {
namespace {

using nlohmann::json;

std::string cell_of(const json& data, const char* key) {
    const auto at = data.find(key);
    if (at == data.end() || at->is_null()) return {};
    if (at->is_string()) return at->get<std::string>();
    if (!at->is_array()) return at->dump();
    std::vector<std::string> parts;
    for (const json& part : *at) {
        parts.push_back(part.is_string() ? part.get<std::string>() : part.dump());
    }
    return joined(parts, " ");
}

std::string first_topic(const json& data) {
    const auto at = data.find("topics");
    const bool has = at != data.end() && at->is_array() && !at->empty() && at->front().is_string();
    return has ? at->front().get<std::string>() : cell_of(data, "topic");
}

// A point is looked for in the round that was signed, else in those of the machine's class.
const Point* point_of(const RowSource& row, const MachineClass* machine_class) {
    const std::string id = cell_of(row.part, "point");
    const auto in = [&](std::string_view name) -> const Point* {
        const Round* round = row.lookup.content().pack.round(name);
        return round == nullptr ? nullptr : round->find(id);
    };
    const Point* point = in(cell_of(row.entry.data, "round"));
    if (point != nullptr || machine_class == nullptr) return point;
    point = in(machine_class->round_before);
    return point != nullptr ? point : in(machine_class->round_after);
}

RowFooting point_footing(const RowSource& row, RowFooting footing, const MachineClass* known) {
    const Point* point = point_of(row, known);
    // A report, or a point of a round that is gone: the machine in need of repair.
    footing.id = point == nullptr ? "osha-178-p1" : point->footing;
    return footing;
}

RowFooting topic_footing(const RowSource& row, RowFooting footing) {
    const std::string topic = first_topic(row.entry.data);
    if (footing.classes.empty()) footing.classes = row.lookup.classes_with(topic);
    for (const auto& id : footing.classes) {
        const MachineClass* known = row.lookup.content().pack.machine_class(id);
        if (known == nullptr) continue;
        for (const Topic& item : known->topics) {
            if (item.id == topic) footing.id = item.footing;
        }
    }
    return footing;
}

RowFooting footing_of(const RowSource& row, std::string_view hint) {
    RowFooting footing{std::string(hint), {}};
    const MachineClass* known = row.lookup.class_of(cell_of(row.entry.data, "machine"));
    const std::string class_id = cell_of(row.entry.data, "class");
    if (known != nullptr) footing.classes = {known->id};
    if (!class_id.empty()) footing.classes = {class_id};
    if (hint == "point") return point_footing(row, std::move(footing), known);
    if (hint == "topic") return topic_footing(row, {"osha-178-l2", footing.classes});
    const Site& site = row.lookup.content().site;
    if (hint == "air") footing.id = site.air.footing;
    if (hint == "cylinders") footing.id = site.cylinders.footing;
    const bool is_training = footing.id.starts_with("osha-178-l");
    if (is_training && footing.classes.empty()) {
        footing.classes = row.lookup.classes_with(first_topic(row.entry.data));
    }
    return footing;
}

}  // namespace

std::string local_text_of(std::int64_t at_ms, int offset_min) {
    const std::int64_t local = at_ms + std::int64_t{offset_min} * 60'000;
    const int size = offset_min < 0 ? -offset_min : offset_min;
    return utc_text(local).substr(0, 19) + (offset_min < 0 ? "-" : "+") + clock_text(size);
}

std::string number(const RowSource& row, const char*) { return std::to_string(row.entry.n); }
std::string utc(const RowSource& row, const char*) { return utc_text(row.entry.at_ms); }
std::string local(const RowSource& row, const char*) {
    return local_text_of(row.entry.at_ms, row.entry.offset_min);
}
std::string kind(const RowSource& row, const char*) { return row.entry.kind; }
std::string by(const RowSource& row, const char*) { return joined(row.entry.by, " "); }
std::string signer(const RowSource& row, const char*) { return row.lookup.signer(row.entry); }
std::string meaning(const RowSource& row, const char*) {
    const auto signature = row.entry.data.find("signature");
    const bool has = signature != row.entry.data.end() && signature->is_object();
    return has ? cell_of(*signature, "meaning") : std::string();
}
std::string about(const RowSource& row, const char*) {
    return row.entry.about == 0 ? std::string() : std::to_string(row.entry.about);
}
std::string content(const RowSource& row, const char*) { return row.entry.content; }
std::string zone(const RowSource& row, const char*) { return row.entry.zone; }
std::string boot(const RowSource& row, const char*) { return row.entry.boot; }
std::string all_data(const RowSource& row, const char*) { return row.entry.data.dump(); }

std::string field(const RowSource& row, const char* key) { return cell_of(row.part, key); }
std::string whole_field(const RowSource& row, const char* key) {
    return cell_of(row.entry.data, key);
}
std::string instant(const RowSource& row, const char* key) {
    const auto at = row.part.find(key);
    if (at == row.part.end() || !at->is_number_integer()) return {};
    const auto ms = at->get<std::int64_t>();
    return ms == 0 ? std::string() : utc_text(ms);
}
std::string words(const RowSource& row, const char* key) {
    return row.lookup.words(cell_of(row.part, key));
}
std::string name(const RowSource& row, const char* key) {
    return row.lookup.name_of(cell_of(row.part, key));
}
std::string percent_right(const RowSource& row, const char*) {
    const auto asked = row.part.find("asked");
    const auto right = row.part.find("right");
    const bool counted = asked != row.part.end() && right != row.part.end() &&
                         asked->is_number_integer() && right->is_number_integer() &&
                         asked->get<std::int64_t>() > 0;
    if (!counted) return {};
    return std::to_string(right->get<std::int64_t>() * 100 / asked->get<std::int64_t>());
}

std::string second_signed(const RowSource& row, const char* key) {
    std::string noted = instant(row, key);
    if (!noted.empty() || !row.entry.data.contains("second_signature")) return noted;
    return utc_text(row.entry.at_ms);
}

std::string footing(const RowSource& row, const char* key) {
    return row.lookup.footing_kind(footing_of(row, key));
}
std::string footing_source(const RowSource& row, const char* key) {
    return row.lookup.footing_source(footing_of(row, key));
}

}  // namespace holdpin::cells
