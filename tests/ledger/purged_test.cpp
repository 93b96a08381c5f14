// Entries whose body was purged: what a purge leaves holds, and a body that is missing for no
// sealed reason is found.
#include "ledger/purged.hpp"

#include <nlohmann/json.hpp>

#include "ledger/proof.hpp"
#include "ledger/sealed_ledger.hpp"

using namespace holdpin;

namespace {

constexpr const char* kEmptied = "UPDATE entry SET body = x'' WHERE n BETWEEN 3 AND 5";

void say_purged(SealedLedger& kiosk, const KioskKey& key, const std::vector<EntryRange>& ranges) {
    Fact fact;
    fact.kind = kPurged;
    fact.data = purged_data(key, ranges);
    REQUIRE(kiosk.ledger->append(fact));
}

// As the purge does it: under a seal, with the marker, said and sealed in one transaction.
void empty_bodies(SealedLedger& kiosk) {
    REQUIRE(kiosk.db->execute("INSERT INTO fact VALUES ('purging', 'yes')"));
    REQUIRE(kiosk.db->execute(kEmptied));
    REQUIRE(kiosk.db->execute("DELETE FROM fact"));
}

std::unique_ptr<SealedLedger> purged_ledger() {
    auto kiosk = std::make_unique<SealedLedger>(":memory:");
    kiosk->fill_and_seal(10);
    REQUIRE(kiosk->db->transaction([&]() -> Result<void> {
        empty_bodies(*kiosk);
        say_purged(*kiosk, kiosk->key, {{3, 5}});
        return kiosk->sealer->seal();
    }));
    kiosk->fill(3);
    return kiosk;
}

LedgerReport report_of(SealedLedger& kiosk) { return kiosk.check().ledger; }

}  // namespace

TEST_CASE("a purged ledger is whole: checked, read, opened and proven") {
    const auto kiosk = purged_ledger();
    const LedgerReport report = report_of(*kiosk);
    CHECK(report.fault == LedgerFault::none);
    CHECK(report.size == 14);
    CHECK(kiosk->ledger->check().value().fault == LedgerFault::none);
    std::vector<std::int64_t> read;
    REQUIRE(kiosk->ledger->each(1, 14, [&](const Entry& entry) -> Result<void> {
        read.push_back(entry.n);
        return {};
    }));
    CHECK(read == std::vector<std::int64_t>{1, 2, 6, 7, 8, 9, 10, 11, 12, 13, 14});
    const auto fourth = kiosk->ledger->at(4);
    REQUIRE_FALSE(fourth);
    CHECK(fourth.error().kind == ErrorKind::absent);
    CHECK(fourth.error().what == "entry 4 was purged");
    std::int64_t without = 0;
    REQUIRE(each_stored(*kiosk->db, [&](const StoredEntry& row) -> Result<void> {
        without += row.body.empty() ? 1 : 0;
        return {};
    }));
    CHECK(without == 3);
    CHECK(kiosk->doubt().empty());
    const auto proof = inclusion_json(*kiosk->db, *kiosk->ledger, 4);
    REQUIRE(proof);
    CHECK(proof.value().at("body").is_null());
    CHECK(inclusion_json(*kiosk->db, *kiosk->ledger, 40).error().kind == ErrorKind::absent);
}

TEST_CASE("the table lets nothing but a purge take a body out, and only what is sealed") {
    SealedLedger kiosk(":memory:");
    kiosk.fill_and_seal(4);
    kiosk.fill(2);
    CHECK_FALSE(kiosk.db->execute(kEmptied));
    REQUIRE(kiosk.db->execute("INSERT INTO fact VALUES ('purging', 'yes')"));
    CHECK_FALSE(kiosk.db->execute(kEmptied));  // entry 5 is under no seal
    CHECK_FALSE(kiosk.db->execute("UPDATE entry SET body = x'00' WHERE n = 3"));
    CHECK_FALSE(kiosk.db->execute("UPDATE entry SET leaf = zeroblob(32), body = x'' WHERE n = 3"));
    CHECK_FALSE(kiosk.db->execute("UPDATE entry SET n = 99, body = x'' WHERE n = 3"));
    CHECK_FALSE(kiosk.db->execute("DELETE FROM entry WHERE n = 3"));
    CHECK(kiosk.db->execute("UPDATE entry SET body = x'' WHERE n = 3"));
}

TEST_CASE("a body that was emptied by hand is found, and nothing is read past it") {
    SealedLedger kiosk(":memory:");
    kiosk.fill_and_seal(10);
    kiosk.meddle_with(kEmptied);
    const LedgerReport report = report_of(kiosk);
    CHECK(report.fault == LedgerFault::missing_body);
    CHECK(report.first_bad == 3);
    CHECK(kiosk.ledger->at(4).error().kind == ErrorKind::damaged);
    CHECK_FALSE(kiosk.ledger->each(1, 10, [](const Entry&) { return Result<void>(); }));
    CHECK_FALSE(each_stored(*kiosk.db, [](const StoredEntry&) { return Result<void>(); }));
    // Beside an honest purge, too.
    const auto purged = purged_ledger();
    purged->meddle_with("UPDATE entry SET body = x'' WHERE n = 8");
    CHECK(report_of(*purged).fault == LedgerFault::missing_body);
    CHECK(report_of(*purged).first_bad == 8);
}

TEST_CASE("an entry that says what was purged counts only under a seal") {
    SealedLedger kiosk(":memory:");
    kiosk.fill_and_seal(10);
    empty_bodies(kiosk);
    say_purged(kiosk, kiosk.key, {{3, 5}});
    CHECK(report_of(kiosk).fault == LedgerFault::missing_body);
    kiosk.seal();
    CHECK(report_of(kiosk).fault == LedgerFault::none);
}

TEST_CASE("who appends a purge of their own has not the kiosk's key, even once it is sealed") {
    const KioskKey strange = kiosk_key_of(Bytes(32, 7)).value();
    SealedLedger kiosk(":memory:");
    kiosk.fill_and_seal(10);
    kiosk.meddle_with(kEmptied);
    say_purged(kiosk, strange, {{3, 5}});
    kiosk.seal();
    CHECK(report_of(kiosk).fault == LedgerFault::missing_body);
    CHECK(report_of(kiosk).first_bad == 3);
}

TEST_CASE("a purge names earlier entries only") {
    SealedLedger kiosk(":memory:");
    kiosk.fill_and_seal(10);
    say_purged(kiosk, kiosk.key, {{3, 20}});
    kiosk.fill_and_seal(5);
    kiosk.meddle_with("UPDATE entry SET body = x'' WHERE n = 13");
    CHECK(report_of(kiosk).fault == LedgerFault::missing_body);
    CHECK(report_of(kiosk).first_bad == 13);
}

TEST_CASE("a stretch that was widened in the entry of a purge is found") {
    const auto kiosk = purged_ledger();
    Entry entry = kiosk->ledger->at(11).value();
    REQUIRE(entry.kind == kPurged);
    entry.data["entries"] = {{3, 8}};
    const std::string text = entry_body(entry).value();
    kiosk->meddle_with("UPDATE entry SET body = x'' WHERE n = 8");
    REQUIRE(kiosk->db->query("UPDATE entry SET body = ? WHERE n = 11")
                .bind(Bytes(text.begin(), text.end())).run());
    CHECK(report_of(*kiosk).fault == LedgerFault::missing_body);
    // With its leaf made anew, and signed by whoever has the key, the seal contradicts it.
    entry.data = purged_data(kiosk->key, {{3, 8}});
    kiosk->put(11, entry);
    CHECK(report_of(*kiosk).fault == LedgerFault::rewritten);
    CHECK(report_of(*kiosk).first_bad == 11);
}

TEST_CASE("the leaf of a purged entry is held by the seals") {
    const auto kiosk = purged_ledger();
    kiosk->meddle_with("UPDATE entry SET leaf = zeroblob(32) WHERE n = 4");
    CHECK(report_of(*kiosk).fault == LedgerFault::rewritten);
    CHECK(report_of(*kiosk).first_bad == 1);
}
