#include "ledger/proof.hpp"

#include "ledger/seal.hpp"

namespace holdpin {
namespace {

using nlohmann::json;

json as_json(const std::vector<Hash>& path) {
    json list = json::array();
    for (const Hash& hash : path) list.push_back(hex(hash));
    return list;
}

json as_json(const std::optional<Seal>& seal) {
    return seal ? json::parse(seal_body(*seal), nullptr, false) : json();
}

Result<std::vector<Hash>> first_leaves(Ledger& ledger, std::uint64_t size) {
    std::vector<Hash> leaves = TRY(ledger.leaves());
    if (leaves.size() < size) {
        return Error{ErrorKind::absent, "there are only " + std::to_string(leaves.size()) +
                     " entries", "ledger", ""};
    }
    leaves.resize(size);
    return leaves;
}

// A proof of something that does not hold would only confuse whoever checks it.
Result<void> refuse_other_root(const std::optional<Seal>& seal, const Hash& root) {
    if (!seal || seal->root == root) return {};
    return Error{ErrorKind::damaged,
                 "the entries are not those that the seal over " + std::to_string(seal->size) +
                     " covers",
                 "ledger", "run: holdpin ledger check"};
}

}  // namespace

Result<json> inclusion_json(Database& db, Ledger& ledger, std::int64_t n) {
    const auto entry = ledger.at(n);
    const bool was_purged = !entry && entry.error().kind == ErrorKind::absent && n >= 1 &&
                            static_cast<std::uint64_t>(n) <= ledger.size();
    if (!entry && !was_purged) return entry.error();
    const json body = was_purged ? json() : json(TRY(entry_body(entry.value())));
    const auto seal = TRY(first_seal_over(db, static_cast<std::uint64_t>(n)));
    if (!seal) {
        return Error{ErrorKind::absent, "no seal covers entry " + std::to_string(n) + " yet",
                     "ledger", ""};
    }
    const auto leaves = TRY(first_leaves(ledger, seal->size));
    TRY(refuse_other_root(seal, root_of(leaves)));
    const auto index = static_cast<std::uint64_t>(n) - 1;
    return json{{"proof", "inclusion"},
                {"entry", n},
                {"body", body},
                {"leaf", hex(leaves[index])},
                {"size", seal->size},
                {"root", hex(seal->root)},
                {"path", as_json(inclusion_proof(leaves, index))},
                {"seal", as_json(seal)}};
}

Result<json> consistency_json(Database& db, Ledger& ledger, std::uint64_t old_size,
                              std::uint64_t size) {
    if (old_size == 0 || old_size > size) {
        return Error{ErrorKind::invalid, "the old size is at least 1 and not above the new one", "",
                     ""};
    }
    const auto leaves = TRY(first_leaves(ledger, size));
    const Hash old_root = root_of(std::span(leaves).first(old_size));
    const Hash root = root_of(leaves);
    const auto old_seal = TRY(seal_over(db, old_size));
    const auto seal = TRY(seal_over(db, size));
    TRY(refuse_other_root(old_seal, old_root));
    TRY(refuse_other_root(seal, root));
    return json{{"proof", "consistency"},
                {"old_size", old_size},
                {"old_root", hex(old_root)},
                {"size", size},
                {"root", hex(root)},
                {"path", as_json(consistency_proof(leaves, old_size))},
                {"old_seal", as_json(old_seal)},
                {"seal", as_json(seal)}};
}

}  // namespace holdpin
