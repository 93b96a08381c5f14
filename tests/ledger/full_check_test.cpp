// What somebody does to the stored entries who has the file in hand, and what tells of it.
#include "ledger/sealed_ledger.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

struct Verdict {
    LedgerFault fault;
    std::int64_t first_bad;
    bool operator==(const Verdict&) const = default;
};

Verdict verdict(SealedLedger& kiosk) {
    const LedgerReport report = kiosk.check().ledger;
    CHECK_FALSE(report.what.empty());
    return {report.fault, report.first_bad};
}

// Sealed at 10, 20 and 30.
std::unique_ptr<SealedLedger> thirty() {
    auto kiosk = std::make_unique<SealedLedger>(":memory:");
    for (int i = 0; i < 3; ++i) kiosk->fill_and_seal(10);
    return kiosk;
}

}  // namespace

TEST_CASE("a sealed ledger is reported whole, with its seals") {
    const auto kiosk = thirty();
    kiosk->fill(4);
    const FullReport report = kiosk->check(newest_seal(*kiosk->db).value());
    CHECK(report.ledger.fault == LedgerFault::none);
    CHECK(report.ledger.size == 34);
    CHECK(report.ledger.root == kiosk->ledger->root());
    CHECK(report.seals == 3);
    CHECK(report.newest_seal == 30);
    CHECK(report.bad_seals.empty());
    CHECK(report.outside_holds);
    CHECK(kiosk->doubt().empty());
}

TEST_CASE("entries under the moving seal are held like those under a seal that stays") {
    const auto filled = [](SealedLedger& kiosk) {
        kiosk.fill_and_seal(10);
        kiosk.fill(4);
        REQUIRE(kiosk.sealer->seal_along());
    };
    SealedLedger sound(":memory:");
    filled(sound);
    CHECK(sound.check().ledger.fault == LedgerFault::none);
    CHECK(sound.check().seals == 2);
    CHECK(sound.check().newest_seal == 14);

    SealedLedger rewritten(":memory:");
    filled(rewritten);
    rewritten.meddle_with("");
    rewritten.rewrite(12, "p-b");
    CHECK(rewritten.check().ledger.fault == LedgerFault::rewritten);
    CHECK(rewritten.check().ledger.first_bad == 11);

    SealedLedger shortened(":memory:");
    filled(shortened);
    shortened.meddle_with("DELETE FROM entry WHERE n = 14");
    CHECK(shortened.check().ledger.fault == LedgerFault::cut_off);

    SealedLedger unsigned_seal(":memory:");
    filled(unsigned_seal);
    unsigned_seal.meddle_with("UPDATE moving_seal SET body = replace(body, '2026', '2027')");
    CHECK(unsigned_seal.check().bad_seals == std::vector<std::uint64_t>{14});
}

TEST_CASE("an entry rewritten together with its leaf is found between two seals") {
    for (const std::int64_t n : {1, 5, 10, 11, 20, 21, 30}) {
        CAPTURE(n);
        const auto kiosk = thirty();
        kiosk->meddle_with("");
        kiosk->rewrite(n, "p-b");
        const std::int64_t first = (n - 1) / 10 * 10 + 1;
        CHECK(verdict(*kiosk) == Verdict{LedgerFault::rewritten, first});
        const LedgerReport report = kiosk->check().ledger;
        CHECK(report.size == static_cast<std::uint64_t>(first - 1));
        CHECK(report.what.find("entries " + std::to_string(first) + " to " +
                               std::to_string(first + 9)) != std::string::npos);
        REQUIRE(kiosk->ledger->reload());
        CHECK_FALSE(kiosk->doubt().empty());
    }
}

TEST_CASE("an entry taken out, put in or moved is named, also where all numbers were mended") {
    const auto kiosk = thirty();
    kiosk->meddle_with("DELETE FROM entry WHERE n = 7");
    CHECK(verdict(*kiosk) == Verdict{LedgerFault::gap, 7});

    const auto closed_up = thirty();
    closed_up->meddle_with(
        "DELETE FROM entry WHERE n = 7; UPDATE entry SET n = -n WHERE n > 7;"
        "UPDATE entry SET n = -n - 1 WHERE n < 0;");
    CHECK(verdict(*closed_up) == Verdict{LedgerFault::removed, 7});

    const auto exchanged = thirty();
    const Entry fourth = exchanged->ledger->at(4).value();
    const Entry ninth = exchanged->ledger->at(9).value();
    exchanged->meddle_with("");
    exchanged->put(4, ninth);
    exchanged->put(9, fourth);
    CHECK(verdict(*exchanged) == Verdict{LedgerFault::reordered, 4});
}

TEST_CASE("an entry put in is named, whether it bears a number of its own or a later one") {
    for (const std::int64_t number : {12, 20}) {
        const auto kiosk = thirty();
        Entry extra = kiosk->ledger->at(12).value();
        extra.by = {"p-b"};
        extra.n = number;
        kiosk->meddle_with("UPDATE entry SET n = -n WHERE n >= 12; UPDATE entry SET n = 1 - n "
                           "WHERE n < 0;");
        kiosk->put(12, extra);
        CAPTURE(number);
        CHECK(verdict(*kiosk) == Verdict{LedgerFault::inserted, 12});
    }
}

TEST_CASE("entries cut off below a seal are missed, by the check and by a start") {
    const Scratch scratch;
    {
        SealedLedger kiosk(scratch.path("a.db"));
        kiosk.fill_and_seal(10);
        kiosk.meddle_with("DELETE FROM entry WHERE n > 8");
    }
    SealedLedger kiosk(scratch.path("a.db"));
    CHECK(verdict(kiosk) == Verdict{LedgerFault::cut_off, 9});
    CHECK(kiosk.doubt().find("covers 10 entries") != std::string::npos);
}

TEST_CASE("a seal that was altered or made with another key is named and proves nothing") {
    const auto kiosk = thirty();
    const KioskKey strange = kiosk_key_of(Bytes(32, 7)).value();
    const Seal forged = make_seal(strange, 20, kiosk->ledger->root_at(20).value(), kSealedNow);
    kiosk->meddle_with("UPDATE seal SET body = '" + seal_body(forged) + "' WHERE size = 20");
    const FullReport report = kiosk->check();
    CHECK(report.ledger.fault == LedgerFault::bad_seal);
    CHECK(report.ledger.size == 30);
    CHECK(report.bad_seals == std::vector<std::uint64_t>{20});
    CHECK(report.seals == 2);

    // Whoever rewrites an entry and its seal with another key does not hide it.
    kiosk->rewrite(15, "p-b");
    CHECK(verdict(*kiosk) == Verdict{LedgerFault::rewritten, 11});
    REQUIRE(kiosk->ledger->reload());
    CHECK(kiosk->doubt().find("the first 30 entries") != std::string::npos);
}

TEST_CASE("the newest seal is looked at by a start, also where it is spoiled") {
    const auto kiosk = thirty();
    kiosk->meddle_with("UPDATE seal SET body = 'x' WHERE size = 30");
    CHECK(kiosk->doubt().find("cannot be read") != std::string::npos);
    const KioskKey strange = kiosk_key_of(Bytes(32, 7)).value();
    const Seal forged = make_seal(strange, 30, kiosk->ledger->root(), kSealedNow);
    REQUIRE(kiosk->db->execute(
        ("UPDATE seal SET body = '" + seal_body(forged) + "' WHERE size = 30").c_str()));
    CHECK(kiosk->doubt().find("not signed") != std::string::npos);
}

TEST_CASE("an old data file that was copied back is noticed from the seal kept outside") {
    const Scratch scratch;
    const std::string outside = scratch.path("outside.json");
    {
        SealedLedger kiosk(scratch.path("a.db"), outside);
        kiosk.fill_and_seal(30);
        REQUIRE(kiosk.db->copy_to(scratch.path("old.db")));
        kiosk.fill_and_seal(12);
        CHECK(kiosk.doubt(outside).empty());
    }
    SealedLedger old(scratch.path("old.db"));
    CHECK(old.doubt(outside).find("covers 42 entries, and there are 30") != std::string::npos);
    const auto seal = seal_outside(outside, old.key.public_key).value();
    CHECK(old.check(seal).ledger.fault == LedgerFault::cut_off);
    CHECK(old.check(seal).ledger.first_bad == 31);

    // Working on does not hide it: the entries are others than those that were sealed.
    old.fill_and_seal(20);
    CHECK(old.doubt(outside).find("the first 42 entries") != std::string::npos);
    CHECK(old.check(seal).ledger.fault == LedgerFault::rewritten);
    CHECK(old.check(seal).ledger.first_bad == 31);
}

TEST_CASE("a seal kept outside that is spoiled is said and puts the records in doubt") {
    const Scratch scratch;
    const std::string outside = scratch.path("outside.json");
    SealedLedger kiosk(":memory:", outside);
    kiosk.fill_and_seal(3);
    REQUIRE(write_file(outside, "{}"));
    const auto finding = look_at_start(*kiosk.db, *kiosk.ledger, kiosk.key, outside).value();
    CHECK(finding.doubt.find(outside) != std::string::npos);
    CHECK(finding.mend.find("--renew-seal") != std::string::npos);

    // The kiosk does not put its own seal in that place.
    kiosk.fill_and_seal(1);
    CHECK(read_file(outside).value() == "{}");
    CHECK(kiosk.complaints.size() == 1);
}

TEST_CASE("a seal kept outside that was taken away puts the records in doubt") {
    const Scratch scratch;
    const std::string outside = scratch.path("outside.json");
    SealedLedger kiosk(":memory:", outside);
    const auto doubt = [&](const std::string& path) {
        return look_at_start(*kiosk.db, *kiosk.ledger, kiosk.key, path).value().doubt;
    };
    CHECK(doubt(outside).empty());
    kiosk.fill_and_seal(3);
    CHECK(doubt(outside).empty());
    fs::remove(outside);
    CHECK(doubt(outside).find("is gone") != std::string::npos);
    CHECK(doubt("").empty());
}
