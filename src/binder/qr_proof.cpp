#include "binder/qr_proof.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kMark = "HP1:";
constexpr std::size_t kTimeLength = 24;  // 2026-11-25T11:40:12.345Z

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

// Nodes come into being from left to right on every level. At the end of the leaves a node without
// a neighbour moves up as it is (RFC 6962 section 2.1).
class SealedTree::Grower {
  public:
    Grower(Beside& beside, std::uint64_t size, const std::vector<std::int64_t>& wanted)
        : beside_(beside) {
        for (const std::int64_t n : wanted) {
            auto index = static_cast<std::uint64_t>(n) - 1;
            if (index >= size) continue;
            std::size_t level = 0;
            for (std::uint64_t width = size; width > 1; width = (width + 1) / 2, index /= 2) {
                beside_.try_emplace({level++, index ^ 1U});
            }
        }
    }
    void add(const Hash& leaf) { put(0, leaf); }
    Hash root() {
        std::optional<Hash> moving;
        for (std::size_t level = 0; level < waiting_.size(); ++level) {
            Level& at = waiting_[level];
            if (moving && at.node) {
                note(level, at.count, *moving);
                moving = node_hash(*at.node, *moving);
            } else if (at.node) {
                moving = at.node;
            } else if (moving) {
                note(level, at.count, *moving);
            }
        }
        return moving.value_or(Frontier().root());
    }

  private:
    struct Level {
        std::optional<Hash> node;  // a left one that waits for its neighbour
        std::uint64_t count = 0;
    };
    void note(std::size_t level, std::uint64_t index, const Hash& node) {
        const auto wanted = beside_.find({level, index});
        if (wanted != beside_.end()) wanted->second = node;
    }
    void put(std::size_t level, Hash node) {
        for (;; ++level) {
            if (level == waiting_.size()) waiting_.emplace_back();
            Level& at = waiting_[level];
            note(level, at.count++, node);
            if (!at.node) {
                at.node = node;
                return;
            }
            node = node_hash(*at.node, node);
            at.node.reset();
        }
    }
    Beside& beside_;
    std::vector<Level> waiting_;
};

Result<SealedTree> SealedTree::of(Database& db, const std::vector<std::int64_t>& wanted) {
    SealedTree tree;
    const auto seal = TRY(newest_seal(db));
    if (!seal) return tree;
    Grower grower(tree.beside_, seal->size, wanted);
    TRY(each_stored(db, [&](const StoredEntry& row) -> Result<void> {
        if (static_cast<std::uint64_t>(row.n) <= seal->size) grower.add(row.leaf);
        return {};
    }));
    if (grower.root() != seal->root) {
        return Error{ErrorKind::damaged,
                     "the entries are not those that the seal over " +
                         std::to_string(seal->size) + " covers",
                     "ledger", "run: holdpin ledger check"};
    }
    tree.seal_.emplace(*seal);
    return tree;
}

std::vector<Hash> SealedTree::path(std::uint64_t index) const {
    std::vector<Hash> path;
    std::size_t level = 0;
    for (std::uint64_t width = seal_->size; width > 1; width = (width + 1) / 2, index /= 2) {
        const std::uint64_t beside = index ^ 1U;
        if (beside < width) path.push_back(beside_.at({level, beside}));
        ++level;
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
