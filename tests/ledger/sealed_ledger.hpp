// What the tests of seals, checks and proofs share: a ledger on a file with a key and a sealer.
#pragma once

#include <doctest/doctest.h>

#include "ledger/check.hpp"
#include "ledger/sealer.hpp"
#include "store/scratch.hpp"

namespace holdpin {

// 2026-11-25T11:40:12.345Z.
inline constexpr std::int64_t kSealedNow = 1'795'606'812'345;
// The seed of RFC 8032 section 7.1, test 1.
inline constexpr const char* kSealedSeed =
    "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60";

// The triggers that guard entries and seals, taken away.
inline constexpr const char* kUnguarded =
    "DROP TRIGGER entry_stays; DROP TRIGGER entry_remains; DROP TRIGGER entry_continues;"
    "DROP TRIGGER seal_stays; DROP TRIGGER seal_remains; DROP TRIGGER seal_continues;"
    "DROP TRIGGER moving_seal_moves_on; DROP TRIGGER moving_seal_remains;";

struct SealedLedger {
    explicit SealedLedger(const std::string& path, const std::string& copy = "")
        : db(opened(path)), key(kiosk_key_of(unhex(kSealedSeed).value()).value()) {
        auto result = Ledger::open(*db, clock, random,
                                   {"example", "dock", Zone::load("America/Chicago").value()});
        if (!result) FAIL(result.error().sentence());
        ledger = std::move(result).value();
        sealer = std::make_unique<Sealer>(
            *db, *ledger, clock,
            Sealer::Parts{key, copy, [this](const Error& error) { complaints.push_back(error); }});
    }
    void fill(int count) {
        for (int i = 0; i < count; ++i) {
            clock.pass(1000);
            Fact fact;
            fact.kind = "thing-done";
            fact.by = {"p-a"};
            fact.data = {{"step", static_cast<std::int64_t>(ledger->size()) + 1}};
            REQUIRE(ledger->append(fact));
        }
    }
    void seal() {
        REQUIRE(sealer->seal());
        sealer->keep_copy();
    }
    void fill_and_seal(int count) {
        fill(count);
        seal();
    }
    FullReport check(std::optional<Seal> outside = {}, std::optional<Witness> witness = {}) {
        const auto report = check_ledger(*db, {key.public_key, outside, witness});
        if (!report) FAIL(report.error().sentence());
        return report.value();
    }
    std::string doubt(const std::string& outside = "") {
        const auto finding = look_at_start(*db, *ledger, key, outside);
        if (!finding) FAIL(finding.error().sentence());
        return finding.value().doubt;
    }
    void meddle_with(const std::string& sql) {
        REQUIRE(db->execute("PRAGMA ignore_check_constraints = ON"));
        const auto done = db->execute((kUnguarded + sql).c_str());
        if (!done) FAIL(done.error().sentence());
    }
    // Rewrites an entry together with its leaf, as somebody does who knows the format.
    void rewrite(std::int64_t n, const std::string& person) {
        Entry entry = ledger->at(n).value();
        entry.by = {person};
        put(n, entry);
    }
    void put(std::int64_t row, const Entry& entry) {
        const std::string text = entry_body(entry).value();
        const Bytes body(text.begin(), text.end());
        const auto leaf = leaf_hash(body);
        REQUIRE(db->query("INSERT OR REPLACE INTO entry (n, body, leaf) VALUES (?, ?, ?)")
                    .bind(row)
                    .bind(body)
                    .bind(leaf)
                    .run());
    }

    std::unique_ptr<Database> db;
    HandClock clock{kSealedNow};
    SeededRandom random{11};
    KioskKey key;
    std::unique_ptr<Ledger> ledger;
    std::unique_ptr<Sealer> sealer;
    std::vector<Error> complaints;
};

}  // namespace holdpin
