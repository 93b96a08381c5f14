#include "ledger/quick_check.hpp"

#include <algorithm>
#include <charconv>

#include "base/sha256.hpp"
#include "base/text.hpp"
#include "ledger/purged.hpp"
#include "ledger/rows.hpp"

namespace holdpin {
namespace {

// A signature costs as much as a hundred entries. Of seals whose root is the one computed again, an
// old one without its signature would still say the truth; so of many only a spread is verified.
constexpr std::uint64_t kSignaturesWanted = 1000;

std::string_view text_of(std::span<const std::uint8_t> bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

// The number that follows the last, or the first, place where `key` stands.
std::optional<std::int64_t> number_after(std::string_view body, std::size_t at,
                                         std::string_view key) {
    if (at == body.npos) return std::nullopt;
    std::int64_t value = 0;
    const char* end = body.data() + body.size();
    const auto [stop, code] = std::from_chars(body.data() + at + key.size(), end, value);
    return code == std::errc{} && stop != end && *stop == ',' ? std::optional(value) : std::nullopt;
}

struct Glance {
    std::int64_t n = 0;
    std::int64_t at_ms = 0;
    std::string_view boot;
};

// What the check needs of a body. The keys stand in their order, and within a text a quotation mark
// has a backslash before it: so the first `,"at_ms":` and the last `,"n":` are those of the entry.
std::optional<Glance> glance(std::string_view body) {
    constexpr std::string_view kAt = R"(,"at_ms":)";
    constexpr std::string_view kBoot = R"(,"boot":")";
    constexpr std::string_view kN = R"(,"n":)";
    if (!body.starts_with(R"({"about":)")) return std::nullopt;
    const auto at_ms = number_after(body, body.find(kAt), kAt);
    const auto n = number_after(body, body.rfind(kN), kN);
    const auto boot = body.find(kBoot);
    if (!at_ms || !n || boot == body.npos) return std::nullopt;
    const auto from = boot + kBoot.size();
    const auto size = body.substr(from).find_first_of("\"\\");
    if (size == body.npos || body[from + size] == '\\') return std::nullopt;
    return Glance{*n, *at_ms, body.substr(from, size)};
}

// The seals, smallest first, while the tree grows past them.
class SealStream {
  public:
    SealStream(Database& db, const Evidence& evidence, std::uint64_t newest, FullReport& report)
        : query_(db.query("SELECT size, body FROM every_seal ORDER BY size")),
          evidence_(evidence),
          newest_(newest),
          stride_(evidence.every_signature || newest < kSignaturesWanted
                      ? 1
                      : newest / kSignaturesWanted),
          report_(report) {}

    Result<void> advance() {
        size_ = TRY(query_.next()) ? static_cast<std::uint64_t>(query_.integer(0)) : 0;
        return {};
    }
    std::uint64_t size() const { return size_; }  // of the seal that stands ready; 0: none

    // Whether it says what the tree says; then it is counted.
    bool holds(const Hash& root) {
        const std::string_view body = text_of(query_.blob_view(1));
        if (body.find("\"root\":\"" + hex(root) + "\"") == body.npos ||
            body.find("\"size\":" + std::to_string(size_) + ",") == body.npos) {
            return false;
        }
        if (size_ >= due_ || size_ == newest_) {
            const auto seal = seal_from(body);
            if (!seal || !seal_holds(seal.value(), evidence_.public_key)) return false;
            due_ = size_ + stride_;
            ++report_.signatures;
        }
        ++report_.seals;
        report_.newest_seal = size_;
        return true;
    }
    Result<Seal> seal() const { return seal_from(text_of(query_.blob_view(1))); }

  private:
    Query query_;
    const Evidence& evidence_;
    std::uint64_t newest_;
    std::uint64_t stride_;
    FullReport& report_;
    std::uint64_t size_ = 0;
    std::uint64_t due_ = 0;
};

// The digest that binds a signature to its entry, taken out of the bytes without reading them as
// JSON: what it says to be found wanting is read closely afterwards.
bool binding_holds(std::string_view body) {
    constexpr std::string_view kSigned = "\"signature\":{";
    constexpr std::string_view kRecord = ",\"record\":\"";
    const auto signature = body.find(kSigned);
    const auto place = signature == body.npos ? body.npos : body.find(kRecord, signature);
    if (place == body.npos) return true;
    const auto digest = place + kRecord.size();
    const auto end = body.find('"', digest);
    if (end == body.npos) return false;
    std::string without(body.substr(0, place));
    without += body.substr(end + 1);
    return hex(sha256(without)) == body.substr(digest, end - digest);
}

class QuickReading {
  public:
    QuickReading(Database& db, const Evidence& evidence, std::uint64_t newest, FullReport& report)
        : evidence_(evidence),
          newest_(newest),
          report_(report),
          seals_(db, evidence, newest, report),
          purged_(db, &evidence.public_key) {}

    Result<bool> begin() {
        TRY(seals_.advance());
        return true;
    }
    // False: something is not as it should be.
    Result<bool> take(const Query& row) {
        const auto body = row.blob_view(1);
        const auto leaf = row.blob_view(2);
        if (body.empty()) return pass_over(row);
        const Hash hash = leaf_hash(body);
        const auto seen = glance(text_of(body));
        const std::uint64_t n = tree_.size() + 1;
        if (!seen || !row.is_blob(1) || !row.is_blob(2) || !std::ranges::equal(leaf, hash) ||
            row.integer(0) != static_cast<std::int64_t>(n) || seen->n != row.integer(0)) {
            return false;
        }
        const bool sealed = n <= newest_;
        if (!sealed && judge(row_of(row)).fault != LedgerFault::none) return false;
        // Under a seal stands what was bound before: the same bytes need not be hashed twice.
        const bool asked = !sealed || evidence_.every_signature;
        if (asked && !binding_holds(text_of(body))) return false;
        note_clock(*seen);
        tree_.append(hash);
        return hold_against_seals();
    }
    bool finish() {
        report_.ledger.size = tree_.size();
        report_.ledger.root = tree_.root();
        const bool outside_beyond = evidence_.outside && !report_.outside_holds;
        return seals_.size() == 0 && !outside_beyond;
    }

  private:
    // A purged entry is its leaf.
    Result<bool> pass_over(const Query& row) {
        const EntryRow stored = row_of(row);
        const RowVerdict verdict = judge(stored);
        const auto n = static_cast<std::int64_t>(tree_.size()) + 1;
        if (verdict.fault != LedgerFault::missing_body || stored.n != n) return false;
        if (!TRY(purged_.names(n))) return false;
        tree_.append(verdict.leaf);
        return hold_against_seals();
    }
    void note_clock(const Glance& seen) {
        if (seen.boot == boot_ && seen.at_ms < at_ms_) {
            report_.ledger.clock_jumps.push_back(seen.n);
        }
        if (seen.boot != boot_) boot_ = seen.boot;
        at_ms_ = seen.at_ms;
    }

    Result<bool> hold_against_seals() {
        const std::uint64_t size = tree_.size();
        const bool sealed = seals_.size() == size;
        const bool outside = evidence_.outside && evidence_.outside->size == size;
        const bool witness = evidence_.witness && evidence_.witness->size == size;
        if (!sealed && !outside && !witness) return true;
        const Hash root = tree_.root();
        if (outside && evidence_.outside->root != root) return false;
        if (sealed && !seals_.holds(root)) return false;
        report_.outside_holds = report_.outside_holds || outside;
        TRY(look_for_witness(root, sealed, outside, witness));
        if (sealed) TRY(seals_.advance());
        return true;
    }

    Result<void> look_for_witness(const Hash& root, bool sealed, bool outside, bool by_size) {
        const auto& asked = evidence_.witness;
        const bool fits = asked && (!asked->size || by_size) && !report_.witnessed;
        if (!fits || witness_code(tree_.size(), root) != asked->code) return {};
        if (sealed) {
            report_.witnessed = TRY(seals_.seal());
        } else if (outside) {
            report_.witnessed = *evidence_.outside;
        } else {
            report_.witnessed = Seal{tree_.size(), root, "", "", {}};
        }
        return {};
    }

    const Evidence& evidence_;
    std::uint64_t newest_;
    FullReport& report_;
    SealStream seals_;
    Purged purged_;
    Frontier tree_;
    std::string boot_;
    std::int64_t at_ms_ = 0;
};

}  // namespace

Result<std::optional<FullReport>> check_quickly(Database& db, const Evidence& evidence) {
    FullReport report;
    const auto newest = newest_sealed_size(db);
    if (!newest) return std::optional<FullReport>();
    QuickReading reading(db, evidence, newest.value(), report);
    auto query = db.query("SELECT n, body, leaf FROM entry ORDER BY n");
    auto holds = reading.begin();
    while (holds && holds.value()) {
        const auto more = query.next();
        if (!more) return std::optional<FullReport>();
        if (!more.value()) return reading.finish() ? std::optional(report) : std::nullopt;
        holds = reading.take(query);
    }
    return std::optional<FullReport>();
}

}  // namespace holdpin
