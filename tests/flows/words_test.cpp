// What people read: every hold has its sentence in both languages with nothing left to fill in, and
// no page shows a key in place of a text.
#include <doctest/doctest.h>

#include <algorithm>

#include "base/text.hpp"
#include "flows/plates.hpp"
#include "flows/session.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

// "floor.sign-on": small letters, digits and hyphens around one dot.
bool looks_like_a_key(const std::string& text) {
    const auto parts = split(text, '.');
    return parts.size() == 2 && std::all_of(parts.begin(), parts.end(), [](const auto& part) {
               return !part.empty() && part.front() >= 'a' && part.front() <= 'z' &&
                      part.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") ==
                          std::string::npos;
           });
}

Hold full_hold(HoldCode code, const Snapshot& snapshot) {
    Hold hold;
    hold.code = code;
    hold.person = "p-brandt";
    hold.detail = code == HoldCode::condition_not_met ? "room" : "dock-hall";
    hold.at_ms = kShopStart;
    hold.number = 12846;
    hold.limit = 12500;
    hold.date = Date{2026, 11, 24};
    hold.topics = {snapshot.machine_class->topics.front().id};
    if (!snapshot.machine.findings.empty()) hold.entry = snapshot.machine.findings.front().entry;
    return hold;
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("every hold code has a headline, a reason and a way out in both languages") {
        for (const std::string language : {"en", "es"}) {
            Shop shop(language);
            Session session(shop.site->world());
            session.open_person(*person_with(*shop.site->db, "p-okafor-lind").value());
            session.set_language(language);
            Fact fact;
            fact.kind = "finding-entered";
            fact.data = {{"machine", "SW-14"}, {"point", "parking-brake"}, {"reading", "creeps"},
                         {"outcome", "stop"},  {"hazard", "brake"},        {"source", "round"}};
            REQUIRE(shop.site->book->enter(fact).ok());
            Snapshot snapshot = snapshot_of(session, "SW-14").value();
            snapshot.authorisation = Authorisation{1, {"dock-hall"}, {"early"}};
            for (std::size_t i = 0; i < kHoldCount; ++i) {
                const auto code = static_cast<HoldCode>(i);
                const HoldCard card = hold_card(session, snapshot, full_hold(code, snapshot));
                CAPTURE(language);
                CAPTURE(name_of(code));
                for (const std::string& text : {card.title, card.reason, card.lift}) {
                    CAPTURE(text);
                    CHECK_FALSE(text.empty());
                    CHECK(text.find('{') == std::string::npos);
                    CHECK(text.find("  ") == std::string::npos);
                }
            }
        }
    }

    TEST_CASE("a problem is reported in three taps from the floor, by anybody") {
        Shop shop;
        const auto before = shop.site->ledger->size();
        shop.tap("help");
        shop.tap("report");
        shop.tap("report:SW-14");
        // The finding, and the code of the tag that goes with it.
        REQUIRE(shop.site->ledger->size() == before + 2);
        const Entry finding = shop.entries()[before];
        CHECK(finding.kind == "finding-entered");
        CHECK(finding.by.empty());
        CHECK(shop.entries().back().kind == "tag-issued");
        CHECK(shop.entries().back().about == finding.n);
    }

    TEST_CASE("an emergency sheet is two taps away on every page of a shift, in both languages") {
        for (const std::string language : {"en", "es"}) {
            Shop shop(language);
            shop.sign_on(language == "en" ? "H-1042" : "H-1187");
            shop.tap("machine:SW-14");
            shop.tap("walk");
            for (const char* way : {"round", "badge", "pin"}) {
                CAPTURE(way);
                shop.tap("help");
                CHECK(shop.page_id() == "emergency");
                shop.tap("sheet:smell-of-gas");
                CHECK(shop.page_id() == "sheet/smell-of-gas");
                shop.tap("back");
                shop.tap("back");
                CHECK(shop.page_id().starts_with("round/SW-14"));
                for (const std::string& text : shop.texts()) CHECK_FALSE(looks_like_a_key(text));
            }
        }
    }

    TEST_CASE("a scanned badge signs on from the floor, an unknown one is asked again") {
        Shop shop;
        shop.tap("scan", "H-9999");
        CHECK(shop.page_id() == "badge");
        CHECK(shop.shows("H-9999"));
        shop.tap("back");
        shop.tap("scan", "H-1042");
        CHECK(shop.app->person() == "p-okafor-lind");
    }

    TEST_CASE("a current operator with a scanned badge needs few taps for the whole round") {
        Shop shop;
        int taps = 1;  // the badge is scanned at the floor, which counts as one
        shop.tap("scan", "H-1042");
        shop.tap("machine:SW-14");
        shop.tap("walk");
        taps += 2;
        taps += shop.walk_all_fit();
        CHECK(shop.page_id() == "pin/p-okafor-lind");
        shop.pin_of("H-1042");
        taps += 6 + 1;
        shop.tap("room:dock-hall");
        taps += 1;
        CHECK(shop.page_id() == "handed/SW-14");
        MESSAGE("taps from sign-on to hand-over: " << taps);
        CHECK(taps <= 40);
    }
}
