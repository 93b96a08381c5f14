#include "ledger/witness.hpp"

#include <set>

#include "ledger/sealed_ledger.hpp"

using namespace holdpin;

TEST_CASE("a witness code has eight characters that hands do not mix up, and depends on both") {
    Hash root{};
    std::set<std::string> codes;
    for (std::uint64_t size = 1; size <= 500; ++size) {
        root[0] = static_cast<std::uint8_t>(size % 2);
        const std::string code = witness_code(size, root);
        CHECK(code.size() == 9);
        CHECK(code[4] == '-');
        CHECK(code.find_first_of("0O1IL2G58U") == std::string::npos);
        codes.insert(code);
        codes.insert(witness_code(size, Hash{}));
    }
    CHECK(codes.size() == 750);
    // Worked out with python3's hashlib after FORMAT.md.
    CHECK(witness_code(1, Hash{}) == "PFWJ-VTRF");
}

TEST_CASE("a code that was typed back is understood as a hand writes it") {
    for (const char* typed : {"K7DM-3XQA", "k7dm3xqa", " k7dm 3xqa ", "K7DM-3XQA"}) {
        const auto witness = witness_from(typed);
        REQUIRE(witness);
        CHECK(witness.value().code == "K7DM-3XQA");
        CHECK_FALSE(witness.value().size);
    }
    CHECK(witness_from("K7DM-3XQA @ 1234").value().size == 1234);
    CHECK(witness_from("k7dm3xqa@7").value().size == 7);
    CHECK(witness_from("825GU-AAA").value().code == "BZS6-VAAA");
    for (const char* typed : {"", "K7DM", "K7DM-3XQAB", "K7DM-3XQ0", "K7DM-3XQ!", "K7DM-3XQA@",
                              "K7DM-3XQA@0", "K7DM-3XQA@x", "K7DM-3XQA@-1", "@12"}) {
        CAPTURE(typed);
        CHECK(witness_from(typed).error().kind == ErrorKind::invalid);
    }
}

TEST_CASE("a code that was written down is found again, with and without its size") {
    SealedLedger kiosk(":memory:");
    std::vector<std::string> book;
    for (int day = 0; day < 20; ++day) {
        kiosk.fill_and_seal(5);
        book.push_back(witness_code(kiosk.ledger->size(), kiosk.ledger->root()));
    }
    for (std::size_t day = 0; day < book.size(); ++day) {
        const std::uint64_t size = (day + 1) * 5;
        const auto found = kiosk.check({}, witness_from(book[day]).value()).witnessed;
        REQUIRE(found);
        CHECK(found->size == size);
        CHECK_FALSE(found->time.empty());
        const std::string with_size = book[day] + "@" + std::to_string(size);
        CHECK(kiosk.check({}, witness_from(with_size).value()).witnessed);
        const std::string other = book[day] + "@" + std::to_string(size + 5);
        CHECK_FALSE(kiosk.check({}, witness_from(other).value()).witnessed);
    }
    CHECK_FALSE(kiosk.check({}, witness_from("K7DM-3XQA").value()).witnessed);
}

TEST_CASE("a code with a size needs no seal beside it") {
    SealedLedger kiosk(":memory:");
    kiosk.fill(9);
    const std::string code = witness_code(9, kiosk.ledger->root());
    kiosk.fill(5);
    CHECK(kiosk.check({}, witness_from(code + "@9").value()).witnessed->size == 9);
    CHECK_FALSE(kiosk.check({}, witness_from(code).value()).witnessed);
}

TEST_CASE("an old copy put back together with its seal is noticed from the book on paper") {
    const Scratch scratch;
    std::string code;
    {
        SealedLedger kiosk(scratch.path("a.db"));
        kiosk.fill_and_seal(30);
        REQUIRE(kiosk.db->copy_to(scratch.path("old.db")));
        kiosk.fill_and_seal(12);
        code = witness_code(42, kiosk.ledger->root());
    }
    SealedLedger old(scratch.path("old.db"));
    const auto report = old.check({}, witness_from(code + "@42").value());
    CHECK(report.ledger.fault == LedgerFault::none);
    CHECK_FALSE(report.witnessed);
}
