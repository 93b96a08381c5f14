#include "ledger/tree.hpp"

#include <sodium.h>

#include <algorithm>
#include <bit>

namespace holdpin {
namespace {

// The first byte keeps a leaf from passing for a node (RFC 6962 section 2.1).
constexpr std::uint8_t kLeafMark = 0x00;
constexpr std::uint8_t kNodeMark = 0x01;

// The largest power of two below `size`, which is at least 2.
std::size_t split_point(std::size_t size) { return std::bit_floor(size - 1); }

void add_path(std::span<const Hash> leaves, std::uint64_t index, std::vector<Hash>& path) {
    if (leaves.size() < 2) return;
    const std::size_t split = split_point(leaves.size());
    const auto left = leaves.first(split);
    const auto right = leaves.subspan(split);
    if (index < split) {
        add_path(left, index, path);
        path.push_back(root_of(right));
    } else {
        add_path(right, index - split, path);
        path.push_back(root_of(left));
    }
}

// SUBPROOF of RFC 6962 section 2.1.2. `known`: the old root is this subtree's, and the reader
// has it already.
void add_subproof(std::span<const Hash> leaves, std::uint64_t old_size, bool known,
                  std::vector<Hash>& path) {
    if (old_size == leaves.size()) {
        if (!known) path.push_back(root_of(leaves));
        return;
    }
    const std::size_t split = split_point(leaves.size());
    const auto left = leaves.first(split);
    const auto right = leaves.subspan(split);
    if (old_size <= split) {
        add_subproof(left, old_size, known, path);
        path.push_back(root_of(right));
    } else {
        add_subproof(right, old_size - split, false, path);
        path.push_back(root_of(left));
    }
}

// A walk from a node towards the root: the node's position and that of the last node, on the
// level where the walk is.
struct Walk {
    std::uint64_t at;
    std::uint64_t last;

    bool node_is_right() const { return (at & 1) == 1 || at == last; }
    void up() {
        at >>= 1;
        last >>= 1;
    }
    // After joining with a left neighbour: levels on which the node has none are passed over.
    void skip_lonely_levels() {
        while ((at & 1) == 0 && at != 0) up();
    }
};

}  // namespace

Hash leaf_hash(std::span<const std::uint8_t> body) {
    crypto_hash_sha256_state state;
    crypto_hash_sha256_init(&state);
    crypto_hash_sha256_update(&state, &kLeafMark, 1);
    crypto_hash_sha256_update(&state, body.data(), body.size());
    Hash hash{};
    crypto_hash_sha256_final(&state, hash.data());
    return hash;
}

Hash node_hash(const Hash& left, const Hash& right) {
    std::array<std::uint8_t, 1 + 2 * std::tuple_size_v<Hash>> bytes{kNodeMark};
    std::copy(left.begin(), left.end(), bytes.begin() + 1);
    std::copy(right.begin(), right.end(), bytes.begin() + 1 + left.size());
    Hash hash{};
    crypto_hash_sha256(hash.data(), bytes.data(), bytes.size());
    return hash;
}

void Frontier::append(const Hash& leaf) {
    Hash node = leaf;
    // Every trailing one of the size is a subtree as large as the one being carried.
    for (std::uint64_t rest = size_; (rest & 1) == 1; rest >>= 1) {
        node = node_hash(peaks_.back(), node);
        peaks_.pop_back();
    }
    peaks_.push_back(node);
    ++size_;
}

Hash Frontier::root() const {
    if (peaks_.empty()) {
        Hash hash{};
        crypto_hash_sha256(hash.data(), nullptr, 0);
        return hash;
    }
    Hash hash = peaks_.back();
    for (std::size_t i = peaks_.size() - 1; i-- > 0;) hash = node_hash(peaks_[i], hash);
    return hash;
}

Frontier Frontier::from(std::uint64_t size, std::vector<Hash> peaks) {
    Frontier frontier;
    frontier.size_ = size;
    frontier.peaks_ = std::move(peaks);
    return frontier;
}

Hash root_of(std::span<const Hash> leaves) {
    Frontier frontier;
    for (const Hash& leaf : leaves) frontier.append(leaf);
    return frontier.root();
}

std::vector<Hash> inclusion_proof(std::span<const Hash> leaves, std::uint64_t index) {
    std::vector<Hash> path;
    if (index < leaves.size()) add_path(leaves, index, path);
    return path;
}

std::vector<Hash> consistency_proof(std::span<const Hash> leaves, std::uint64_t old_size) {
    std::vector<Hash> path;
    if (old_size > 0 && old_size < leaves.size()) add_subproof(leaves, old_size, true, path);
    return path;
}

bool inclusion_holds(const Hash& leaf, std::uint64_t index, std::uint64_t size,
                     std::span<const Hash> proof, const Hash& root) {
    if (index >= size) return false;
    Walk walk{index, size - 1};
    Hash node = leaf;
    for (const Hash& beside : proof) {
        if (walk.last == 0) return false;  // the root was reached, and the proof goes on
        if (walk.node_is_right()) {
            node = node_hash(beside, node);
            walk.skip_lonely_levels();
        } else {
            node = node_hash(node, beside);
        }
        walk.up();
    }
    return walk.last == 0 && node == root;
}

bool consistency_holds(std::uint64_t old_size, const Hash& old_root, std::uint64_t size,
                       const Hash& root, std::span<const Hash> proof) {
    if (old_size > size) return false;
    if (old_size == size) return proof.empty() && old_root == root;
    if (old_size == 0) return proof.empty() && old_root == Frontier().root();
    if (proof.empty()) return false;

    Walk walk{old_size - 1, size - 1};
    while ((walk.at & 1) == 1) walk.up();
    // A whole old tree is a node of the new one, and its root is not repeated in the proof.
    const bool old_is_whole = std::has_single_bit(old_size);
    Hash old_node = old_is_whole ? old_root : proof.front();
    Hash node = old_node;
    for (const Hash& beside : proof.subspan(old_is_whole ? 0 : 1)) {
        if (walk.last == 0) return false;
        if (walk.node_is_right()) {
            old_node = node_hash(beside, old_node);
            node = node_hash(beside, node);
            walk.skip_lonely_levels();
        } else {
            node = node_hash(node, beside);
        }
        walk.up();
    }
    return walk.last == 0 && old_node == old_root && node == root;
}

}  // namespace holdpin
