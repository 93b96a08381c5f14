// Vectors: RFC 6962 trees of the public reference test data of the transparency-log community
// (github.com/transparency-dev/merkle at 417fb0c: testonly/constants.go, rfc6962_test.go,
// testdata); recomputed with an independent library. The RFC's own text has no vectors.
#include "ledger/tree.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <bit>
#include <string>

#include "base/random.hpp"
#include "base/sha256.hpp"
#include "base/text.hpp"

using namespace holdpin;

namespace {

Hash hash_of(std::string_view text) {
    const Bytes bytes = unhex(text).value();
    Hash hash{};
    std::copy(bytes.begin(), bytes.end(), hash.begin());
    return hash;
}

Bytes bytes_of(std::string_view text) { return {text.begin(), text.end()}; }

const std::vector<std::string> kBodies{"",
                                       "00",
                                       "10",
                                       "2021",
                                       "3031",
                                       "40414243",
                                       "5051525354555657",
                                       "606162636465666768696a6b6c6d6e6f"};

const std::vector<std::string> kLeaves{
    "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
    "0298d122906dcfc10892cb53a73992fc5b9f493ea4c9badb27b791b4127a7fe7",
    "07506a85fd9dd2f120eb694f86011e5bb4662e5c415a62917033d4a9624487e7",
    "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
    "4271a26be0d8a84f0bd54c8c302e7cb3a3b5d1fa6780a40bcce2873477dab658",
    "b08693ec2e721597130641e8211e7eedccb4c26413963eee6c1e2ed16ffb1a5f",
    "46f6ffadd3d06a09ff3c5860d2755c8b9819db7df44251788c7d8e3180de8eb1"};

const std::string kN01 = "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125";
const std::string kN23 = "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e";
const std::string kN45 = "0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a";
const std::string kN67 = "ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0";
const std::string kN03 = "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7";
const std::string kN47 = "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4";

const std::vector<std::string> kRoots{
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    kLeaves[0],
    kN01,
    "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
    kN03,
    "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
    "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
    "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
    "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328"};

std::vector<Hash> published_leaves(std::size_t size) {
    std::vector<Hash> leaves;
    for (std::size_t i = 0; i < size; ++i) leaves.push_back(hash_of(kLeaves[i]));
    return leaves;
}

std::vector<Hash> made_leaves(std::size_t size) {
    std::vector<Hash> leaves;
    for (std::size_t i = 0; i < size; ++i) leaves.push_back(leaf_hash(bytes_of(std::to_string(i))));
    return leaves;
}

std::vector<std::string> hexed(const std::vector<Hash>& proof) {
    std::vector<std::string> texts;
    for (const Hash& hash : proof) texts.push_back(hex(hash));
    return texts;
}

using Texts = std::vector<std::string>;

// The definition of RFC 6962 section 2.1 word by word, as something slow to compare with.
Hash defined_root(std::span<const Hash> leaves) {
    if (leaves.empty()) return hash_of(kRoots[0]);
    if (leaves.size() == 1) return leaves[0];
    std::size_t split = 1;
    while (split * 2 < leaves.size()) split *= 2;
    return node_hash(defined_root(leaves.first(split)), defined_root(leaves.subspan(split)));
}

// Every way in which a proof is made a little wrong: each hash with a bit turned, left out,
// doubled, exchanged with the next; something put before or after; cut off.
std::vector<std::vector<Hash>> mutations(const std::vector<Hash>& proof, const Hash& foreign,
                                         SeededRandom& random) {
    std::vector<std::vector<Hash>> all;
    for (std::size_t i = 0; i < proof.size(); ++i) {
        auto turned = proof;
        turned[i][random.below(32)] ^= static_cast<std::uint8_t>(1U << random.below(8));
        all.push_back(turned);
        auto shorter = proof;
        shorter.erase(shorter.begin() + static_cast<std::ptrdiff_t>(i));
        all.push_back(shorter);
        auto longer = proof;
        longer.insert(longer.begin() + static_cast<std::ptrdiff_t>(i), proof[i]);
        all.push_back(longer);
        if (i + 1 < proof.size() && proof[i] != proof[i + 1]) {
            auto exchanged = proof;
            std::swap(exchanged[i], exchanged[i + 1]);
            all.push_back(exchanged);
        }
    }
    for (const Hash& extra : {foreign, Hash{}}) {
        auto before = proof;
        before.insert(before.begin(), extra);
        all.push_back(before);
        auto after = proof;
        after.push_back(extra);
        all.push_back(after);
    }
    return all;
}

}  // namespace

TEST_CASE("leaves and nodes hash to the published values") {
    CHECK(hex(leaf_hash(bytes_of(""))) == kLeaves[0]);
    CHECK(hex(leaf_hash(bytes_of("L123456"))) ==
          "395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56");
    for (std::size_t i = 0; i < kBodies.size(); ++i) {
        CHECK(hex(leaf_hash(unhex(kBodies[i]).value())) == kLeaves[i]);
    }
    CHECK(hex(node_hash(hash_of(kLeaves[4]), hash_of(kLeaves[5]))) == kN45);
    CHECK(hex(node_hash(hash_of(kLeaves[6]), hash_of(kLeaves[7]))) == kN67);
    // The published node("N123", "N456") joins texts of four bytes, which Hash cannot hold: what
    // node_hash does with its two is the same, one byte 01 before both.
    CHECK(hex(sha256(std::string("\x01" "N123N456"))) ==
          "aa217fe888e47007fa15edab33c2b492a722cb106c64667fc2b044444de66bbb");
    const Hash left = hash_of(kLeaves[4]);
    const Hash right = hash_of(kLeaves[5]);
    std::string joined(1, '\x01');
    joined.append(left.begin(), left.end()).append(right.begin(), right.end());
    CHECK(hex(sha256(joined)) == hex(node_hash(left, right)));
}

TEST_CASE("roots of sizes 0 to 8 are the published ones") {
    Frontier frontier;
    for (std::size_t size = 0; size <= 8; ++size) {
        CHECK(hex(root_of(published_leaves(size))) == kRoots[size]);
        CHECK(hex(frontier.root()) == kRoots[size]);
        if (size < 8) frontier.append(hash_of(kLeaves[size]));
    }
}

TEST_CASE("inclusion proofs are the published ones") {
    CHECK(inclusion_proof(published_leaves(1), 0).empty());
    CHECK(hexed(inclusion_proof(published_leaves(8), 0)) == Texts{kLeaves[1], kN23, kN47});
    CHECK(hexed(inclusion_proof(published_leaves(8), 5)) == Texts{kLeaves[4], kN67, kN03});
    CHECK(hexed(inclusion_proof(published_leaves(3), 2)) == Texts{kN01});
    CHECK(hexed(inclusion_proof(published_leaves(5), 1)) == Texts{kLeaves[0], kN23, kLeaves[4]});
    CHECK(inclusion_proof(published_leaves(5), 5).empty());
}

TEST_CASE("consistency proofs are the published ones") {
    CHECK(consistency_proof(published_leaves(1), 1).empty());
    CHECK(hexed(consistency_proof(published_leaves(8), 1)) == Texts{kLeaves[1], kN23, kN47});
    CHECK(hexed(consistency_proof(published_leaves(8), 6)) == Texts{kN45, kN67, kN03});
    CHECK(hexed(consistency_proof(published_leaves(5), 2)) == Texts{kN23, kLeaves[4]});
    CHECK(hexed(consistency_proof(published_leaves(7), 6)) == Texts{kN45, kLeaves[6], kN03});
}

TEST_CASE("the frontier has the root that the definition gives, for sizes 0 to 200") {
    const auto leaves = made_leaves(200);
    Frontier frontier;
    for (std::size_t size = 0; size <= leaves.size(); ++size) {
        const auto part = std::span(leaves).first(size);
        const Hash root = defined_root(part);
        CHECK(frontier.root() == root);
        CHECK(root_of(part) == root);
        CHECK(frontier.size() == size);
        CHECK(frontier.peaks().size() == static_cast<std::size_t>(std::popcount(size)));
        CHECK(Frontier::from(size, frontier.peaks()).root() == root);
        if (size < leaves.size()) frontier.append(leaves[size]);
    }
}

TEST_CASE("every leaf is proven in every tree up to 40 leaves, and only in its place") {
    const auto leaves = made_leaves(40);
    for (std::size_t size = 1; size <= leaves.size(); ++size) {
        const auto part = std::span(leaves).first(size);
        const Hash root = root_of(part);
        for (std::size_t index = 0; index < size; ++index) {
            const auto proof = inclusion_proof(part, index);
            CHECK(inclusion_holds(leaves[index], index, size, proof, root));
            const std::size_t other = (index + 1) % leaves.size();
            CHECK_FALSE(inclusion_holds(leaves[other], index, size, proof, root));
            CHECK_FALSE(inclusion_holds(leaves[index], size, size, proof, root));
            CHECK_FALSE(inclusion_holds(leaves[index], index, 0, proof, root));
            if (size > 1) {
                CHECK_FALSE(inclusion_holds(leaves[index], (index + 1) % size, size, proof, root));
                CHECK_FALSE(inclusion_holds(leaves[index], index ^ 1, size, proof, root));
            }
        }
    }
}

TEST_CASE("every older tree is proven in every tree up to 40 leaves, and only with its root") {
    const auto leaves = made_leaves(40);
    for (std::size_t size = 0; size <= leaves.size(); ++size) {
        const Hash root = root_of(std::span(leaves).first(size));
        for (std::size_t old_size = 0; old_size <= size; ++old_size) {
            const Hash old_root = root_of(std::span(leaves).first(old_size));
            const auto proof = consistency_proof(std::span(leaves).first(size), old_size);
            CHECK(consistency_holds(old_size, old_root, size, root, proof));
            CHECK_FALSE(consistency_holds(old_size, leaves[39], size, root, proof));
            // With nothing before, there is nothing that could be inconsistent.
            if (old_size > 0) CHECK_FALSE(consistency_holds(old_size, old_root, size, {}, proof));
            if (old_size < size)
                CHECK_FALSE(consistency_holds(size, root, old_size, old_root, proof));
        }
    }
}

TEST_CASE("an inclusion proof that was tampered with does not hold") {
    const auto leaves = made_leaves(64);
    SeededRandom random(6962);
    int probes = 0;
    for (const std::size_t size : {2U, 3U, 5U, 7U, 8U, 13U, 33U, 64U}) {
        const auto part = std::span(leaves).first(size);
        const Hash root = root_of(part);
        for (std::size_t index = 0; index < size; ++index) {
            const auto proof = inclusion_proof(part, index);
            for (const auto& wrong : mutations(proof, root, random)) {
                CAPTURE(size);
                CAPTURE(index);
                CHECK_FALSE(inclusion_holds(leaves[index], index, size, wrong, root));
                ++probes;
            }
        }
    }
    CHECK(probes > 2000);
}

TEST_CASE("a consistency proof that was tampered with does not hold") {
    const auto leaves = made_leaves(33);
    SeededRandom random(9162);
    int probes = 0;
    for (const std::size_t size : {2U, 3U, 6U, 8U, 13U, 16U, 33U}) {
        const auto part = std::span(leaves).first(size);
        const Hash root = root_of(part);
        for (std::size_t old_size = 1; old_size <= size; ++old_size) {
            const Hash old_root = root_of(part.first(old_size));
            const auto proof = consistency_proof(part, old_size);
            for (const auto& wrong : mutations(proof, root, random)) {
                CAPTURE(size);
                CAPTURE(old_size);
                CHECK_FALSE(consistency_holds(old_size, old_root, size, root, wrong));
                ++probes;
            }
            if (old_size < size) {
                CHECK_FALSE(consistency_holds(old_size + 1, old_root, size, root, proof));
                CHECK_FALSE(consistency_holds(old_size, old_root, size, root, {}));
            }
        }
    }
    CHECK(probes > 1000);
}
