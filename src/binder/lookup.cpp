#include "binder/lookup.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "base_json/values.hpp"
#include "records/privacy.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

constexpr const char* kSitePolicy = "site policy";
// Names come again and again, what somebody wrote comes once: memory stays flat.
constexpr std::size_t kWordsKept = 4096;

}  // namespace

void Lookup::learn(const Entry& entry) {
    if (entry.kind == "person-enrolled") {
        name_hashes_[text_of(entry.data, "person")] = text_of(entry.data, "name");
    } else if (entry.kind == "machine-enrolled") {
        machine_class_[text_of(entry.data, "machine")] = text_of(entry.data, "class");
    }
}

std::string Lookup::words(const std::string& hash) {
    if (hash.empty()) return {};
    const auto known = words_.find(hash);
    if (known != words_.end()) return known->second;
    if (words_.size() >= kWordsKept) words_.clear();
    const auto found = private_text(db_, hash);
    if (!found) {
        failure_ = found.error();
        return {};
    }
    return words_[hash] = found.value().value_or("");
}

std::string Lookup::name_of(const std::string& person) {
    const auto known = name_hashes_.find(person);
    return known == name_hashes_.end() ? std::string() : words(known->second);
}

std::string Lookup::signer(const Entry& entry) {
    const auto signature = entry.data.find("signature");
    if (signature != entry.data.end() && signature->is_object()) {
        return words(text_of(*signature, "name"));
    }
    return entry.by.empty() ? std::string() : name_of(entry.by.front());
}

std::optional<Entry> Lookup::disputed(std::int64_t about) {
    auto found = disputed_entry(db_, about);
    if (found) return std::move(found).value();
    failure_ = found.error();
    return std::nullopt;
}

const MachineClass* Lookup::class_of(const std::string& plate) const {
    const auto known = machine_class_.find(plate);
    return known == machine_class_.end() ? nullptr : content_.pack.machine_class(known->second);
}

std::string Lookup::kind_for(const Footing& footing, const std::string& class_id) const {
    const MachineClass* machine_class = content_.pack.machine_class(class_id);
    const FootingKind kind = footing.kind_for(machine_class != nullptr && machine_class->is_truck);
    // The law of another place binds here only because the site has taken it on.
    const bool binds_here = footing.region == "any" || footing.region == content_.site.region;
    if (kind == FootingKind::site || (kind == FootingKind::law && !binds_here)) return kSitePolicy;
    return std::string(holdpin::name_of(kind));
}

std::string Lookup::footing_kind(const RowFooting& row) const {
    const Footing* footing = content_.pack.footing(row.id);
    if (footing == nullptr) return {};
    if (row.classes.empty()) return kind_for(*footing, "");
    std::vector<std::string> each;
    bool same = true;
    const std::string first = kind_for(*footing, row.classes.front());
    for (const auto& id : row.classes) {
        const std::string kind = kind_for(*footing, id);
        same = same && kind == first;
        each.push_back(kind + " for " + id);
    }
    return same ? first : joined(each, "; ");
}

std::string Lookup::footing_source(const RowFooting& row) const {
    const Footing* footing = content_.pack.footing(row.id);
    return footing == nullptr ? std::string() : footing->citation.in("en");
}

std::vector<std::string> Lookup::classes_with(const std::string& topic) const {
    std::vector<std::string> ids;
    for (const auto& machine : content_.site.machines) {
        const MachineClass* known = content_.pack.machine_class(machine.machine_class);
        if (known == nullptr || std::count(ids.begin(), ids.end(), known->id) > 0) continue;
        const auto has = [&](const Topic& item) { return item.id == topic; };
        if (std::any_of(known->topics.begin(), known->topics.end(), has)) ids.push_back(known->id);
    }
    return ids;
}

}  // namespace holdpin
