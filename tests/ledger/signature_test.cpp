// A signature belongs to one record: who, when, what it means, what was shown and what was stated.
// Moved into another record it no longer holds, even where the row's leaf is made anew.
#include <doctest/doctest.h>

#include "base/sha256.hpp"
#include "ledger/check.hpp"
#include "sealed_ledger.hpp"

using namespace holdpin;

namespace {

Entry signed_entry(std::int64_t n, const std::string& machine) {
    Entry entry;
    entry.n = n;
    entry.kind = "round-signed";
    entry.at_ms = 1795606812345 + n;
    entry.offset_min = -360;
    entry.zone = "America/Chicago";
    entry.boot = "hand-0";
    entry.site = "example";
    entry.kiosk = "dock";
    entry.by = {"p-example"};
    entry.content = std::string(64, 'a');
    entry.salt = "000102030405060708090a0b0c0d0e0f";
    entry.data = {{"machine", machine},
                  {"signature",
                   {{"name", std::string(64, 'b')}, {"meaning", "walked"}, {"language", "en"}}}};
    REQUIRE(bind_signature(entry).ok());
    return entry;
}

Fact signed_fact(const std::string& machine) {
    Fact fact;
    fact.kind = "round-signed";
    fact.by = {"p-a"};
    fact.data = {{"machine", machine},
                 {"signature", {{"name", "x"}, {"meaning", "walked"}, {"language", "en"}}}};
    return fact;
}

bool holds(const Entry& entry) { return signature_is_bound(entry, entry_body(entry).value()); }

}  // namespace

TEST_SUITE("ledger") {
    TEST_CASE("a signature holds in the record it was made for") {
        const Entry entry = signed_entry(7, "SW-14");
        CHECK(entry.data.at("signature").at("record").get<std::string>().size() == 64);
        CHECK(holds(entry));
        const Entry read = entry_from(entry_body(entry).value()).value();
        CHECK(holds(read));
    }

    TEST_CASE("a signature moved to another record, time, signer, meaning or sheet does not hold") {
        const Entry entry = signed_entry(7, "SW-14");
        Entry other = signed_entry(8, "SW-15");
        other.data["signature"] = entry.data["signature"];
        CHECK_FALSE(holds(other));
        for (int change = 0; change < 6; ++change) {
            CAPTURE(change);
            Entry altered = entry;
            if (change == 0) altered.at_ms += 1;
            if (change == 1) altered.offset_min = 0;
            if (change == 2) altered.by = {"p-other"};
            if (change == 3) altered.data["signature"]["meaning"] = "repaired";
            if (change == 4) altered.content = std::string(64, 'c');
            if (change == 5) altered.data["signature"]["name"] = std::string(64, 'd');
            CHECK_FALSE(holds(altered));
        }
    }

    TEST_CASE("the full check names the entry whose signature was made for another one") {
        const Scratch scratch;
        SealedLedger kiosk(scratch.path("ledger.db"));
        kiosk.fill(3);
        for (const char* machine : {"SW-14", "SW-15"}) {
            REQUIRE(kiosk.ledger->append(signed_fact(machine)));
        }
        CHECK(kiosk.check().ledger.fault == LedgerFault::none);
        Entry last = kiosk.ledger->at(5).value();
        last.data["signature"] = kiosk.ledger->at(4).value().data["signature"];
        kiosk.meddle_with("");
        kiosk.put(5, last);
        const LedgerReport report = kiosk.check().ledger;
        CHECK(report.fault == LedgerFault::moved_signature);
        CHECK(report.first_bad == 5);
    }

    TEST_CASE("a moved signature that was sealed is found where every signature is asked for") {
        const Scratch scratch;
        SealedLedger kiosk(scratch.path("ledger.db"));
        kiosk.fill(2);
        for (const char* machine : {"SW-14", "SW-15"}) {
            REQUIRE(kiosk.ledger->append(signed_fact(machine)));
        }
        Entry last = kiosk.ledger->at(4).value();
        last.data["signature"] = kiosk.ledger->at(3).value().data["signature"];
        kiosk.meddle_with("");
        kiosk.put(4, last);
        REQUIRE(kiosk.ledger->reread());
        kiosk.seal();
        // The seal says that these bytes were written, and by whom it was put on.
        CHECK(kiosk.check().ledger.fault == LedgerFault::none);
        const auto all = check_ledger(*kiosk.db, {kiosk.key.public_key, {}, {}, true}).value();
        CHECK(all.ledger.fault == LedgerFault::moved_signature);
        CHECK(all.ledger.first_bad == 4);
    }

    TEST_CASE("binding again what is bound changes nothing, and nothing signed needs no binding") {
        Entry entry = signed_entry(7, "SW-14");
        const std::string body = entry_body(entry).value();
        REQUIRE(bind_signature(entry).ok());
        CHECK(entry_body(entry).value() == body);
        entry.data.erase("signature");
        REQUIRE(bind_signature(entry).ok());
        CHECK_FALSE(entry.data.contains("signature"));
        CHECK(holds(entry));
    }
}
