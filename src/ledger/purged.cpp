#include "ledger/purged.hpp"

#include <algorithm>

#include "ledger/rows.hpp"
#include "ledger/seal.hpp"

namespace holdpin {
namespace {

constexpr const char* kRanges = "entries";
constexpr const char* kSignature = "kiosk_signature";
// The outer keys of a body stand in their order, so these bytes are those of its own kind or of
// an object within its data; a closer look tells.
constexpr std::string_view kMark = R"(,"kind":"purged",)";

Bytes bytes_of(std::string_view text) { return {text.begin(), text.end()}; }

// Integers only, so that this is the canonical form, too.
Bytes signed_bytes(const nlohmann::json& ranges) {
    return bytes_of("holdpin purge 1\n" + ranges.dump() + "\n");
}

bool is_range(const nlohmann::json& one) {
    return one.is_array() && one.size() == 2 && one[0].is_number_integer() &&
           one[1].is_number_integer();
}

}  // namespace

nlohmann::json purged_data(const KioskKey& key, const std::vector<EntryRange>& ranges) {
    nlohmann::json list = nlohmann::json::array();
    for (const auto& [first, last] : ranges) list.push_back(nlohmann::json::array({first, last}));
    std::string signature = hex(sign(key, signed_bytes(list)));
    return {{kRanges, std::move(list)}, {kSignature, std::move(signature)}};
}

std::vector<EntryRange> purged_by(const Entry& entry, std::span<const std::uint8_t> public_key) {
    std::vector<EntryRange> ranges;
    const auto list = entry.data.find(kRanges);
    if (entry.kind != kPurged || list == entry.data.end() || !list->is_array()) return ranges;
    if (!public_key.empty()) {
        const auto text = entry.data.value(kSignature, nlohmann::json());
        const auto signature = unhex(text.is_string() ? text.get<std::string>() : std::string());
        if (!signature || !signature_holds(public_key, signed_bytes(*list), signature.value())) {
            return {};
        }
    }
    for (const auto& one : *list) {
        if (!is_range(one)) return {};
        ranges.emplace_back(one[0].get<std::int64_t>(),
                            std::min(one[1].get<std::int64_t>(), entry.n - 1));
    }
    return ranges;
}

Result<std::vector<EntryRange>> Purged::load() {
    std::vector<EntryRange> all;
    const auto sealed = static_cast<std::int64_t>(TRY(newest_sealed_size(db_)));
    auto query = db_.query("SELECT n, body, leaf FROM entry WHERE n <= ? AND instr(body, ?) > 0");
    query.bind(sealed).bind(bytes_of(kMark));
    while (TRY(query.next())) {
        const RowVerdict verdict = judge(row_of(query));
        if (verdict.fault != LedgerFault::none) continue;
        const auto key = public_key_ == nullptr ? std::span<const std::uint8_t>() : *public_key_;
        for (const EntryRange& range : purged_by(verdict.entry, key)) all.push_back(range);
    }
    std::sort(all.begin(), all.end());
    return all;
}

// Each entry is purged once, so that the ranges do not overlap.
Result<bool> Purged::names(std::int64_t n) {
    if (!ranges_) ranges_ = TRY(load());
    const auto after = std::upper_bound(
        ranges_->begin(), ranges_->end(), n,
        [](std::int64_t number, const EntryRange& range) { return number < range.first; });
    return after != ranges_->begin() && std::prev(after)->second >= n;
}

}  // namespace holdpin
