// A second tree, slow and written from the definitions of RFC 6962 sections 2.1, 2.1.1 and 2.1.2
// alone, with another SHA-256 (base/sha256): it hashes from the texts up each time and shares
// nothing with ledger/tree.
#include <doctest/doctest.h>

#include "base/random.hpp"
#include "base/sha256.hpp"
#include "base/text.hpp"
#include "ledger/tree.hpp"

using namespace holdpin;

namespace {

constexpr std::size_t kSizes = 64;

using Bodies = std::vector<std::string>;

Bodies bodies(std::size_t size) {
    Bodies made;
    for (std::size_t i = 0; i < size; ++i) made.push_back("body " + std::to_string(i));
    return made;
}

Bodies slice(const Bodies& all, std::size_t from, std::size_t to) {
    return {all.begin() + static_cast<std::ptrdiff_t>(from),
            all.begin() + static_cast<std::ptrdiff_t>(to)};
}

std::size_t split_of(std::size_t size) {
    std::size_t split = 1;
    while (split * 2 < size) split *= 2;
    return split;
}

std::string raw(const Sha256Digest& digest) { return {digest.begin(), digest.end()}; }

std::string slow_root(const Bodies& all) {
    if (all.empty()) return raw(sha256(""));
    if (all.size() == 1) return raw(sha256(std::string(1, '\0') + all[0]));
    const std::size_t split = split_of(all.size());
    return raw(sha256("\x01" + slow_root(slice(all, 0, split)) +
                      slow_root(slice(all, split, all.size()))));
}

std::vector<std::string> slow_path(std::size_t m, const Bodies& all) {
    if (all.size() == 1) return {};
    const std::size_t split = split_of(all.size());
    const Bodies left = slice(all, 0, split);
    const Bodies right = slice(all, split, all.size());
    auto path = m < split ? slow_path(m, left) : slow_path(m - split, right);
    path.push_back(m < split ? slow_root(right) : slow_root(left));
    return path;
}

std::vector<std::string> slow_subproof(std::size_t m, const Bodies& all, bool whole) {
    if (m == all.size()) return whole ? std::vector<std::string>{} : std::vector{slow_root(all)};
    const std::size_t split = split_of(all.size());
    const Bodies left = slice(all, 0, split);
    const Bodies right = slice(all, split, all.size());
    auto proof =
        m <= split ? slow_subproof(m, left, whole) : slow_subproof(m - split, right, false);
    proof.push_back(m <= split ? slow_root(right) : slow_root(left));
    return proof;
}

std::vector<Hash> leaves_of(const Bodies& all) {
    std::vector<Hash> leaves;
    for (const auto& body : all) leaves.push_back(leaf_hash(Bytes(body.begin(), body.end())));
    return leaves;
}

std::vector<std::string> raw(const std::vector<Hash>& path) {
    std::vector<std::string> texts;
    for (const Hash& hash : path) texts.emplace_back(hash.begin(), hash.end());
    return texts;
}

// One bit turned, one hash left out, one doubled, one put at either end.
std::vector<std::vector<Hash>> spoiled(const std::vector<Hash>& proof, SeededRandom& random) {
    std::vector<std::vector<Hash>> all;
    auto longer = proof;
    longer.push_back(Hash{});
    all.push_back(longer);
    longer = proof;
    longer.insert(longer.begin(), Hash{});
    all.push_back(longer);
    if (proof.empty()) return all;
    const auto at = static_cast<std::ptrdiff_t>(random.below(static_cast<std::uint32_t>(
        proof.size())));
    auto turned = proof;
    turned[static_cast<std::size_t>(at)][random.below(32)] ^=
        static_cast<std::uint8_t>(1U << random.below(8));
    all.push_back(turned);
    auto shorter = proof;
    shorter.erase(shorter.begin() + at);
    all.push_back(shorter);
    auto doubled = proof;
    doubled.insert(doubled.begin() + at, proof[static_cast<std::size_t>(at)]);
    all.push_back(doubled);
    return all;
}

}  // namespace

TEST_CASE("for all sizes 1 to 64 roots and inclusion proofs are those of a slow second tree") {
    const Bodies all = bodies(kSizes);
    const auto leaves = leaves_of(all);
    SeededRandom random(6962);
    for (std::size_t size = 1; size <= kSizes; ++size) {
        const Bodies part = slice(all, 0, size);
        const auto some = std::span(leaves).first(size);
        const Hash root = root_of(some);
        REQUIRE(std::string(root.begin(), root.end()) == slow_root(part));
        for (std::size_t index = 0; index < size; ++index) {
            CAPTURE(size);
            CAPTURE(index);
            const auto proof = inclusion_proof(some, index);
            CHECK(raw(proof) == slow_path(index, part));
            CHECK(inclusion_holds(leaves[index], index, size, proof, root));
            for (const auto& wrong : spoiled(proof, random)) {
                CHECK_FALSE(inclusion_holds(leaves[index], index, size, wrong, root));
            }
        }
    }
}

TEST_CASE("for all pairs of sizes 1 to 64 consistency proofs are those of a slow second tree") {
    const Bodies all = bodies(kSizes);
    const auto leaves = leaves_of(all);
    SeededRandom random(9162);
    for (std::size_t size = 1; size <= kSizes; ++size) {
        const Bodies part = slice(all, 0, size);
        const auto some = std::span(leaves).first(size);
        const Hash root = root_of(some);
        for (std::size_t old_size = 1; old_size <= size; ++old_size) {
            CAPTURE(size);
            CAPTURE(old_size);
            const Hash old_root = root_of(some.first(old_size));
            const auto proof = consistency_proof(some, old_size);
            CHECK(raw(proof) == slow_subproof(old_size, part, true));
            CHECK(consistency_holds(old_size, old_root, size, root, proof));
            for (const auto& wrong : spoiled(proof, random)) {
                CHECK_FALSE(consistency_holds(old_size, old_root, size, root, wrong));
            }
            Hash other = old_root;
            other[0] ^= 1;
            CHECK_FALSE(consistency_holds(old_size, other, size, root, proof));
        }
    }
}
