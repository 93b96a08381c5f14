#include "binder/qr_proof.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kMark = "HP1:";
constexpr std::size_t kTimeLength = 24;  // 2026-11-25T11:40:12.345Z

// The next level of the tree; a node without a neighbour moves up as it is (RFC 6962 section 2.1).
std::vector<Hash> above(const std::vector<Hash>& level) {
    std::vector<Hash> next;
    next.reserve((level.size() + 1) / 2);
    for (std::size_t i = 0; i + 1 < level.size(); i += 2) {
        next.push_back(node_hash(level[i], level[i + 1]));
    }
    if (level.size() % 2 == 1) next.push_back(level.back());
    return next;
}

template <typename Bytes>
void put(std::string& out, const Bytes& bytes) {
    for (const std::uint8_t byte : bytes) out.push_back(static_cast<char>(byte));
}

void put_number(std::string& out, std::uint64_t number) {
    for (int shift = 56; shift >= 0; shift -= 8) {
        out.push_back(static_cast<char>((number >> shift) & 0xFFU));
    }
}

}  // namespace

std::string base45(std::string_view bytes) {
    constexpr std::string_view kCharacters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
    std::string text;
    for (std::size_t i = 0; i < bytes.size(); i += 2) {
        const bool is_pair = i + 1 < bytes.size();
        unsigned value = static_cast<unsigned char>(bytes[i]);
        if (is_pair) value = value * 256 + static_cast<unsigned char>(bytes[i + 1]);
        for (int digits = is_pair ? 3 : 2; digits > 0; --digits) {
            text.push_back(kCharacters[value % 45]);
            value /= 45;
        }
    }
    return text;
}

Result<SealedTree> SealedTree::of(Database& db, Ledger& ledger) {
    SealedTree tree;
    tree.seal_ = TRY(newest_seal(db));
    if (!tree.seal_) return tree;
    std::vector<Hash> leaves = TRY(ledger.leaves());
    if (leaves.size() >= tree.seal_->size) {
        leaves.resize(tree.seal_->size);
        tree.levels_.push_back(std::move(leaves));
        while (tree.levels_.back().size() > 1) tree.levels_.push_back(above(tree.levels_.back()));
    }
    if (tree.levels_.empty() || tree.levels_.back().front() != tree.seal_->root) {
        return Error{ErrorKind::damaged,
                     "the entries are not those that the seal over " +
                         std::to_string(tree.seal_->size) + " covers",
                     "ledger", "run: holdpin ledger check"};
    }
    return tree;
}

std::vector<Hash> SealedTree::path(std::uint64_t index) const {
    std::vector<Hash> path;
    for (std::size_t level = 0; level + 1 < levels_.size(); ++level, index /= 2) {
        const std::uint64_t beside = index ^ 1U;
        if (beside < levels_[level].size()) path.push_back(levels_[level][beside]);
    }
    return path;
}

Result<std::string> SealedTree::proof(const Entry& entry) const {
    const auto n = static_cast<std::uint64_t>(entry.n);
    if (!seal_ || n > seal_->size) return std::string();
    const Bytes kiosk = TRY(unhex(seal_->kiosk));
    const std::vector<Hash> hashes = path(n - 1);
    if (seal_->time.size() != kTimeLength) {
        return Error{ErrorKind::damaged, "the time of a seal cannot be read", "ledger", ""};
    }
    std::string bytes;
    put_number(bytes, seal_->size);
    bytes += seal_->time;
    put(bytes, kiosk);
    put(bytes, seal_->signature);
    bytes.push_back(static_cast<char>(hashes.size()));
    for (const Hash& hash : hashes) put(bytes, hash);
    bytes += TRY(entry_body(entry));
    return std::string(kMark) + base45(bytes);
}

}  // namespace holdpin
