// The Merkle tree of RFC 6962: leaf = SHA-256(0x00 || body), node = SHA-256(0x01 || left || right).
// Pure functions of hashes; no storage. Positions count from 0, sizes from 0. Checking follows
// RFC 9162 sections 2.1.3.2 and 2.1.4.2, which is the same tree.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace holdpin {

using Hash = std::array<std::uint8_t, 32>;

Hash leaf_hash(std::span<const std::uint8_t> body);
Hash node_hash(const Hash& left, const Hash& right);

// The tree kept as the roots of its perfect subtrees: O(log n) memory, append and root.
class Frontier {
  public:
    void append(const Hash& leaf);
    std::uint64_t size() const { return size_; }
    Hash root() const;  // of the empty tree: SHA-256 of nothing
    const std::vector<Hash>& peaks() const { return peaks_; }
    // `peaks`: one for each binary one in `size`.
    static Frontier from(std::uint64_t size, std::vector<Hash> peaks);

  private:
    std::uint64_t size_ = 0;
    std::vector<Hash> peaks_;  // largest subtree first
};

Hash root_of(std::span<const Hash> leaves);
// Empty for an index past the end.
std::vector<Hash> inclusion_proof(std::span<const Hash> leaves, std::uint64_t index);
// Empty when there is nothing to prove: old size 0, or not less than the present one.
std::vector<Hash> consistency_proof(std::span<const Hash> leaves, std::uint64_t old_size);
bool inclusion_holds(const Hash& leaf, std::uint64_t index, std::uint64_t size,
                     std::span<const Hash> proof, const Hash& root);
bool consistency_holds(std::uint64_t old_size, const Hash& old_root, std::uint64_t size,
                       const Hash& root, std::span<const Hash> proof);

}  // namespace holdpin
