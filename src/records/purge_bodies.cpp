#include "records/purge_bodies.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base_json/values.hpp"
#include "ledger/seal.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

struct PurgeKind {
    std::string_view kind;
    GoesWith how;
};
constexpr std::array kKinds{
    PurgeKind{"signed-on", GoesWith::nothing},
    PurgeKind{"signed-off", GoesWith::nothing},
    PurgeKind{"sign-on-refused", GoesWith::nothing},
    PurgeKind{"sign-refused", GoesWith::nothing},
    PurgeKind{"pin-issued", GoesWith::nothing},
    PurgeKind{"shift-book-checked", GoesWith::nothing},
    PurgeKind{"override-placed", GoesWith::nothing},
    PurgeKind{"outcome-told", GoesWith::thread},
    PurgeKind{"finding-entered", GoesWith::thread},
    PurgeKind{"finding-described", GoesWith::thread},
    PurgeKind{"finding-secured", GoesWith::thread},
    PurgeKind{"finding-withdrawn", GoesWith::thread},
    PurgeKind{"limit-decided", GoesWith::thread},
    PurgeKind{"repair-stated", GoesWith::thread},
    PurgeKind{"recheck-done", GoesWith::thread},
    PurgeKind{"returned-to-service", GoesWith::thread},
    PurgeKind{"tag-issued", GoesWith::thread},
    PurgeKind{"tag-printed", GoesWith::thread},
    PurgeKind{"tag-put-up", GoesWith::thread},
    PurgeKind{"tag-read", GoesWith::thread},
    PurgeKind{"disagreement-noted", GoesWith::thread},
    PurgeKind{"round-signed", GoesWith::track},
    PurgeKind{"release-given", GoesWith::track},
    PurgeKind{"returned", GoesWith::track},
    PurgeKind{"release-voided", GoesWith::track},
    PurgeKind{"guide-read", GoesWith::person},
    PurgeKind{"quiz-finished", GoesWith::person},
    PurgeKind{"instructed", GoesWith::person},
    PurgeKind{"practised", GoesWith::person},
    PurgeKind{"evaluated", GoesWith::person},
    PurgeKind{"refresher-opened", GoesWith::person},
    PurgeKind{"authorised", GoesWith::person},
    PurgeKind{"authorisation-withdrawn", GoesWith::person},
    PurgeKind{"service-done", GoesWith::successor},
    PurgeKind{"inspection-done", GoesWith::successor},
};
// Tables of the state that keep one row for one entry, by its number.
constexpr std::array kRowsOfEntries{"s_round", "s_release", "s_finding", "s_override",
                                    "s_disagreement", "s_securing", "s_refusal"};
// Entries that the present state still leans on.
constexpr const char* kStanding =
    "SELECT entry FROM s_finding WHERE open=1 UNION SELECT finding FROM s_tag "
    "UNION SELECT finding FROM s_hose UNION SELECT entry FROM s_release WHERE returned=0 "
    "UNION SELECT entry FROM s_authorisation";
constexpr const char* kMarker = "purging";

void add_number(const Json& value, std::vector<std::int64_t>& numbers) {
    if (value.is_number_integer() && value != 0) numbers.push_back(value.get<std::int64_t>());
}

// Every earlier entry that an entry names.
std::vector<std::int64_t> numbers_in(const Entry& entry) {
    std::vector<std::int64_t> numbers;
    if (entry.about != 0) numbers.push_back(entry.about);
    const Json nothing;
    const auto part = [&](const Json& of, const char* key) -> const Json& {
        const auto at = of.find(key);
        return at != of.end() ? *at : nothing;
    };
    for (const char* key : {"round", "release"}) add_number(part(entry.data, key), numbers);
    for (const char* key : {"findings", "limits"}) {
        const Json& list = part(entry.data, key);
        if (!list.is_array()) continue;
        for (const Json& one : list) add_number(one, numbers);
    }
    const Json& readings = part(entry.data, "readings");
    if (!readings.is_array()) return numbers;
    for (const Json& one : readings) {
        if (one.is_object()) add_number(part(one, "finding"), numbers);
    }
    return numbers;
}

}  // namespace

std::size_t PurgeBodies::count() const {
    std::size_t all = 0;
    for (const auto& [one, number] : classes) all += number;
    return all;
}

// ---- what hangs together ----

void BodySweep::take(const Entry& entry, const RetentionClass* one, bool over) {
    const auto kind = std::find_if(kKinds.begin(), kKinds.end(),
                                   [&](const PurgeKind& each) { return each.kind == entry.kind; });
    const auto numbers = numbers_in(entry);
    if (kind == kKinds.end()) {
        needed_.insert(needed_.end(), numbers.begin(), numbers.end());
        return;
    }
    const std::size_t item = items_.size();
    items_.push_back({entry.n, item, kind->kind, one, !over, ""});
    for (const std::int64_t n : numbers) named_.emplace_back(item, n);
    hang_together(item, entry, kind->how);
}

void BodySweep::hang_together(std::size_t item, const Entry& entry, GoesWith how) {
    const std::string machine = text_of(entry.data, "machine");
    switch (how) {
        case GoesWith::nothing: return;
        case GoesWith::thread: join_thread(item, entry); return;
        case GoesWith::track: join_track(item, entry); return;
        case GoesWith::person:
            items_[item].person = text_of(entry.data, "person");
            join(item, "person/" + items_[item].person);
            return;
        case GoesWith::successor: last_[entry.kind + "/" + machine] = item; return;
    }
}

// A tag outlives the finding that it was issued for: others lean on it until it comes off.
void BodySweep::join_thread(std::size_t item, const Entry& entry) {
    const std::string machine = text_of(entry.data, "machine");
    for (const std::int64_t n : numbers_in(entry)) {
        if (const auto other = item_of(n)) unite(item, *other);
    }
    for (const char* key : {"code", "tag"}) {
        const std::string code = text_of(entry.data, key);
        if (!code.empty()) join(item, "tag/" + machine + "/" + code);
    }
    const std::string tag = tags_[machine];
    if (entry.kind == "tag-issued") tags_[machine] = text_of(entry.data, "code");
    if (entry.kind == "finding-entered" && !tag.empty()) join(item, "tag/" + machine + "/" + tag);
    if (entry.kind == "returned-to-service" && text_of(entry.data, "tag") == tag) {
        tags_[machine].clear();
    }
    // Leaks of a coupling are counted from the return of the finding of its hose.
    if (entry.data.contains("leak")) stay(item);
}

void BodySweep::join_track(std::size_t item, const Entry& entry) {
    const std::string machine = text_of(entry.data, "machine");
    tracks_[machine].push_back(item);
    last_[entry.kind + text_of(entry.data, "round_kind") + "/" + machine] = item;
    for (const char* key : {"hours", "fuel"}) {
        if (entry.data.contains(key)) last_[std::string(key) + "/" + machine] = item;
    }
}

void BodySweep::join(std::size_t item, const std::string& key) {
    unite(item, joined_.emplace(key, item).first->second);
}

void BodySweep::unite(std::size_t one, std::size_t other) {
    const std::size_t first = unit_of(one);
    const std::size_t second = unit_of(other);
    const bool stays = items_[first].stays || items_[second].stays;
    items_[std::max(first, second)].unit = std::min(first, second);
    items_[std::min(first, second)].stays = stays;
}

std::size_t BodySweep::unit_of(std::size_t item) {
    while (items_[item].unit != item) {
        items_[item].unit = items_[items_[item].unit].unit;
        item = items_[item].unit;
    }
    return item;
}

std::optional<std::size_t> BodySweep::item_of(std::int64_t n) const {
    const auto at = std::lower_bound(items_.begin(), items_.end(), n,
                                     [](const Item& item, std::int64_t wanted) {
                                         return item.n < wanted;
                                     });
    if (at == items_.end() || at->n != n) return std::nullopt;
    return static_cast<std::size_t>(at - items_.begin());
}

std::string_view BodySweep::kind_of(std::int64_t n) const {
    const auto item = item_of(n);
    return item ? items_[*item].kind : std::string_view();
}

// ---- what stays ----

bool BodySweep::stay(std::size_t item) {
    return !std::exchange(items_[unit_of(item)].stays, true);
}

Result<void> BodySweep::keep_what_stands(Database& db) {
    const auto sealed = static_cast<std::int64_t>(TRY(newest_sealed_size(db)));
    for (std::size_t item = 0; item < items_.size(); ++item) {
        if (items_[item].n > sealed) stay(item);
    }
    Query standing = db.query(kStanding);
    while (TRY(standing.next())) needed_.push_back(standing.integer(0));
    for (const std::int64_t n : needed_) {
        if (const auto item = item_of(n)) stay(*item);
    }
    for (const auto& [sort, item] : last_) stay(item);
    return {};
}

// What an entry that stays names is to be found.
bool BodySweep::keep_named() {
    bool changed = false;
    for (const auto& [item, n] : named_) {
        if (!items_[unit_of(item)].stays) continue;
        if (const auto other = item_of(n)) changed = stay(*other) || changed;
    }
    return changed;
}

// A round is voided by what comes after it, so that one that stays needs all that follow.
bool BodySweep::keep_tracks() {
    bool changed = false;
    for (const auto& [machine, track] : tracks_) {
        bool stays = false;
        for (const std::size_t item : track) {
            if (stays) changed = stay(item) || changed;
            stays = items_[unit_of(item)].stays;
        }
    }
    return changed;
}

void BodySweep::settle() {
    bool changed = true;
    while (changed) {
        changed = keep_named();
        changed = keep_tracks() || changed;
    }
}

Result<PurgeBodies> BodySweep::plan(Database& db) {
    TRY(keep_what_stands(db));
    settle();
    PurgeBodies bodies;
    for (std::size_t i = 0; i < items_.size(); ++i) {
        const Item& item = items_[i];
        if (items_[unit_of(i)].stays || item.one == nullptr) continue;
        ++bodies.classes[item.one->id];
        if (!item.person.empty()) bodies.people.insert(item.person);
        if (!bodies.ranges.empty() && bodies.ranges.back().second + 1 == item.n) {
            bodies.ranges.back().second = item.n;
        } else {
            bodies.ranges.emplace_back(item.n, item.n);
        }
    }
    return bodies;
}

// ---- doing it ----

Result<void> take_bodies_out(Database& db, const std::vector<EntryRange>& ranges) {
    TRY(set_fact(db, kMarker, "yes"));
    for (const auto& [first, last] : ranges) {
        TRY(db.query("UPDATE entry SET body = x'' WHERE n BETWEEN ? AND ?")
                .bind(first).bind(last).run());
    }
    return db.query("DELETE FROM fact WHERE name = ?").bind(kMarker).run();
}

Result<void> drop_rows_of(Database& db, const PurgeBodies& bodies) {
    for (const char* table : kRowsOfEntries) {
        const std::string sql =
            fmt::format("DELETE FROM {} WHERE entry BETWEEN ? AND ?", table);
        for (const auto& [first, last] : bodies.ranges) {
            TRY(db.query(sql).bind(first).bind(last).run());
        }
    }
    for (const std::string& person : bodies.people) {
        TRY(db.query("DELETE FROM s_topic WHERE person = ?").bind(person).run());
    }
    return {};
}

}  // namespace holdpin
