// Inside of fold.cpp: one group of state tables with the kinds of entries that change them. A new
// group is one file and one line in `kGroups`; tables of another group are only written through
// the kinds of that group, so that a file tells all that happens to its tables.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/local_time.hpp"
#include "base/result.hpp"
#include "base/text.hpp"
#include "ledger/ledger.hpp"
#include "store/database.hpp"

namespace holdpin {

// One entry being folded, with short ways to its data.
struct Folding {
    Database& db;
    const Entry& entry;
    const Zone& zone;

    std::string text(const char* key) const { return entry.data.value(key, std::string()); }
    std::int64_t integer(const char* key) const { return entry.data.value(key, std::int64_t{0}); }
    bool flag(const char* key) const { return entry.data.value(key, false); }
    std::string list(const char* key) const {
        const auto at = entry.data.find(key);
        return at == entry.data.end() ? "[]" : at->dump();
    }
    std::vector<std::string> strings(const char* key) const {
        return entry.data.value(key, std::vector<std::string>());
    }
    std::int64_t tenths(const char* key) const { return parse_tenths(text(key)).value_or(0); }
    std::string signer() const { return entry.by.empty() ? "" : entry.by.front(); }
    std::string date() const { return iso_date(zone.local(entry.at_ms).date); }
};

struct FoldKind {
    std::string_view name;
    Result<void> (*apply)(const Folding&);
};

struct FoldGroup {
    const char* tables;  // CREATE … IF NOT EXISTS
    std::span<const char* const> table_names;
    std::span<const FoldKind> kinds;
};

extern const FoldGroup kPeopleFolds;
extern const FoldGroup kMachinesFolds;
extern const FoldGroup kAirFolds;
extern const FoldGroup kAlarmFolds;
extern const FoldGroup kWorksFolds;
extern const FoldGroup kPrivacyFolds;
extern const FoldGroup kLockoutFolds;

}  // namespace holdpin
