// Who signs, and with what: the signing statement, PINs that were handed out, PINs of others, the
// clock that signatures lean on, and the code in the shift book.
#include <doctest/doctest.h>

#include "base/sha256.hpp"
#include "cli/site_facts.hpp"
#include "flows/sign.hpp"
#include "ledger/check.hpp"
#include "ledger/witness.hpp"
#include "records/privacy.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

const PinBody& pin_page(const Page& page) { return std::get<PinBody>(page.body); }

// The PIN that a message shows in its first line.
std::string shown_pin(Shop& shop) {
    const Page page = shop.app->page();
    return std::get<MessageBody>(page.body).lines.front();
}

std::string witness_now(Shop& shop) {
    const auto seal = newest_seal(*shop.site->db);
    REQUIRE(seal.ok());
    REQUIRE(seal.value().has_value());
    return witness_code(seal.value()->size, seal.value()->root);
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("before a first signature the signing statement is read and signed, once") {
        Shop shop;
        shop.sign_on("H-2316");
        shop.tap("desk");
        CHECK(shop.page_id() == "statement/p-vang-oduya");
        const Say say(shop.site->content.pack, "en");
        CHECK(pin_page(shop.app->page()).statement == say(kSigningStatement));
        shop.tap("main", "395027");
        const Entry entry = shop.entries().back();
        REQUIRE(entry.kind == "signing-statement-accepted");
        CHECK(entry.by == std::vector<std::string>{"p-vang-oduya"});
        CHECK(entry.data.at("language") == "en");
        CHECK(entry.data.at("statement") == hex(sha256(say(kSigningStatement))));
        CHECK(entry.data.at("signature").at("meaning") == "know-what-signing-means");
        CHECK(content_of(*shop.site->db, entry.content).value() == say(kSigningStatement));
        // What was to be signed has its own page and its own PIN.
        CHECK(shop.page_id() == "pin/p-vang-oduya");
        shop.tap("main", "395027");
        CHECK(shop.page_id() == "desk");
        shop.tap("sign-off");
        shop.sign_on("H-2316");
        shop.tap("desk");
        CHECK(shop.page_id() == "pin/p-vang-oduya");
    }

    TEST_CASE("the signing statement is asked again in another language and after new words") {
        Shop shop;
        shop.sign_on("H-2316");
        shop.tap("desk");
        shop.tap("main", "395027");
        const Person person = *person_with(*shop.site->db, "p-vang-oduya").value();
        Session session(shop.site->world());
        session.open_person(person);
        CHECK_FALSE(needs_statement(session, person.id).value());
        session.set_language("es");
        CHECK(needs_statement(session, person.id).value());
        session.set_language("en");
        Text& text = shop.site->content.pack.strings.at(std::string(kSigningStatement));
        text.by_language["en"] += " And this.";
        CHECK(needs_statement(session, person.id).value());
    }

    TEST_CASE("a new person accepts the signing statement before signing for a PIN of their own") {
        Shop shop;
        REQUIRE(shop.site->pins->set("p-vang-oduya", "395027", true).ok());
        shop.sign_on("H-2316");
        shop.tap("desk");
        CHECK(shop.page_id() == "statement/p-vang-oduya");
        shop.tap("main", "395027");
        CHECK(shop.entries().back().kind == "signing-statement-accepted");
        CHECK(shop.page_id() == "pin/p-vang-oduya");
        shop.tap("main", "395027");
        CHECK(shop.entries().back().kind == "pin-issued");
        CHECK(shop.page_id() == "message");
    }

    TEST_CASE("at practice trainee and trainer sign each what they read") {
        Shop shop;
        const auto* machine_class = shop.site->content.pack.machine_class("walk-behind-battery");
        Fact taught{"instructed", {"p-nowak-silva"}, "", 0, {}};
        taught.data = {{"person", "p-vang-oduya"},
                       {"class", machine_class->id},
                       {"topics", std::vector<std::string>{machine_class->topics.front().id}}};
        REQUIRE(shop.site->book->enter(taught).ok());
        shop.open_desk("H-1264");
        shop.tap("desk:people");
        shop.tap("person:p-vang-oduya");
        shop.tap("class:walk-behind-battery");
        shop.tap("practise");
        shop.tap("main");
        shop.pin_of("H-2316");
        shop.pin_of("H-1264");
        const Entry entry = shop.entries().back();
        REQUIRE(entry.kind == "practised");
        CHECK(entry.by == std::vector<std::string>{"p-nowak-silva", "p-vang-oduya"});
        CHECK(entry.data.at("signature").at("meaning") == "practise");
        CHECK(entry.data.at("second_signature").at("meaning") == "practised-myself");
    }

    TEST_CASE("a wrong PIN accepts no signing statement") {
        Shop shop;
        shop.sign_on("H-2316");
        shop.tap("desk");
        shop.tap("main", "111222");
        CHECK(shop.entries().back().kind == "sign-refused");
        CHECK(shop.page_id() == "statement/p-vang-oduya");
        CHECK(shop.count_of("signing-statement-accepted") ==
              shop.site->content.site.statements.size() * 2);
    }

    TEST_CASE("after the right PIN the person hears of wrong ones that were typed before") {
        for (const auto& [badge, line] :
             {std::pair{"H-1042", "since the last right one: 2."},
              std::pair{"H-1187", "desde la última correcta: 2."}}) {
            CAPTURE(badge);
            Shop shop;
            shop.sign_on(badge);
            shop.tap("desk");
            shop.tap("main", "111222");
            shop.tap("main", "111222");
            shop.tap("back");
            shop.tap("sign-off");
            shop.sign_on(badge);
            shop.tap("desk");
            shop.tap("main", "222333");  // typed here: that is no news
            shop.clock.pass(60'000);
            shop.pin_of(badge);
            CHECK(shop.shows(line));
            shop.tap("main");
            CHECK(shop.page_id() == "desk");
            shop.tap("sign-off");
            shop.sign_on(badge);
            shop.tap("desk");
            shop.pin_of(badge);
            CHECK(shop.page_id() == "desk");
        }
    }

    TEST_CASE("nobody signs as another: the PIN of a supervisor is wrong on another's page") {
        Shop shop;
        shop.sign_on("H-1042");
        shop.tap("desk");
        shop.tap("main", "128645");  // A. Brandt's
        CHECK(shop.page_id() == "pin/p-okafor-lind");
        const Entry refused = shop.entries().back();
        CHECK(refused.kind == "sign-refused");
        CHECK(refused.data.at("person") == "p-okafor-lind");
    }

    TEST_CASE("a PIN is reset by a supervisor and a second person, and signs only for a new one") {
        Shop shop;
        shop.open_desk("H-1006");
        shop.tap("desk:people");
        shop.tap("person:p-okafor-lind");
        shop.tap("pin");
        shop.pin_of("H-1006");
        CHECK(shop.count_of("pin-issued") == 14);  // those of the set-up: one person is not enough
        shop.badge("H-1042");                       // nor is the one who gets it
        CHECK(shop.page_id() == "message");
        shop.tap("back");
        shop.badge("H-1006");
        CHECK(shop.page_id() == "message");
        shop.tap("back");
        shop.badge("H-1187");
        shop.pin_of("H-1187");
        const Entry issued = shop.entries().back();
        REQUIRE(issued.kind == "pin-issued");
        CHECK(issued.by == std::vector<std::string>{"p-brandt", "p-quispe-moran"});
        CHECK(issued.data.at("must_change") == true);
        CHECK(issued.data.contains("second_signature"));
        const std::string handed = shown_pin(shop);
        CHECK(handed.size() == 6);

        shop.restart();
        shop.sign_on("H-1042");
        shop.tap("desk");
        shop.tap("main", "759201");
        CHECK(shop.entries().back().kind == "sign-refused");
        shop.tap("main", handed);
        const Entry taken = shop.entries().back();
        CHECK(taken.kind == "pin-issued");
        CHECK(taken.by == std::vector<std::string>{"p-okafor-lind"});
        const std::string own = shown_pin(shop);
        CHECK(own != handed);
        shop.tap("main");
        CHECK(shop.page_id() == "pin/p-okafor-lind");
        shop.tap("main", handed);
        CHECK(shop.page_id() == "pin/p-okafor-lind");
        shop.tap("main", own);
        CHECK(shop.page_id() == "desk");
    }

    TEST_CASE("whoever had left and is here again gets a PIN from two people") {
        Shop shop;
        shop.open_desk("H-1006");
        shop.tap("desk:people");
        shop.tap("person:p-okafor-lind");
        shop.tap("left");
        shop.pin_of("H-1006");
        Person again = *person_with(*shop.site->db, "p-okafor-lind").value();
        again.badge = "H-4040";
        Fact fact = person_fact(*shop.site->db, shop.random, again).value();
        REQUIRE(shop.site->book->enter(fact).ok());
        shop.tap("pin");
        shop.pin_of("H-1006");
        CHECK(shop.count_of("pin-issued") == 14);  // those of the set-up
        shop.badge("H-1187");
        shop.pin_of("H-1187");
        CHECK(shop.entries().back().by == std::vector<std::string>{"p-brandt", "p-quispe-moran"});
        CHECK(shop.count_of("pin-issued") == 15);
    }

    TEST_CASE("a lost badge opens nothing, and the person gets a new one") {
        Shop shop;
        shop.open_desk("H-1006");
        shop.tap("desk:people");
        shop.tap("person:p-okafor-lind");
        shop.tap("badge-lost");
        shop.pin_of("H-1006");
        const Entry lost = shop.entries().back();
        REQUIRE(lost.kind == "badge-lost");
        CHECK(lost.by == std::vector<std::string>{"p-brandt"});
        CHECK(lost.data.at("badge") == "H-1042");
        CHECK_FALSE(person_with_badge(*shop.site->db, "H-1042").value());
        shop.tap("back");
        CHECK(shop.shows("has no badge now"));
        shop.tap("person:p-okafor-lind");
        for (const char* taken : {"H-1042", "H-1187"}) {
            shop.tap("badge-given");
            shop.tap("main", taken);
            CHECK(shop.shows("Take another one"));
            shop.tap("main");
            shop.tap("back");
        }
        shop.tap("badge-given");
        shop.tap("main", "H-2204");
        shop.pin_of("H-1006");
        CHECK(shop.entries().back().kind == "badge-given");
        CHECK(person_with_badge(*shop.site->db, "H-2204").value()->id == "p-okafor-lind");
        const auto faults = taken_ids(*shop.site->db, shop.site->content.site.people).value();
        REQUIRE(faults.size() == 1);  // the site's file still has the badge that was lost
        CHECK(faults.front().sentence().find("H-1042 was lost") != std::string::npos);
        shop.restart();
        shop.sign_on("H-1042");
        CHECK(shop.app->person().empty());
    }

    TEST_CASE("whoever is no supervisor declares no badge lost") {
        Shop shop;
        shop.open_desk("H-1042");
        shop.tap("desk:people");
        shop.tap("person:p-okafor-lind");
        shop.tap("badge-lost");
        CHECK(shop.page_id() == "desk/person/p-okafor-lind");
    }

    TEST_CASE("a site that asks for eight digits draws eight, and the pad takes them") {
        Shop shop;
        shop.site->content.site.policy.pin_digits = 8;
        shop.sign_on("H-1042");
        shop.tap("desk");
        CHECK(pin_page(shop.app->page()).digits == 8);
        CHECK(shop.site->pins->draw(8, "H-1042").size() == 8);
    }

    TEST_CASE("a forgotten session counts down where all can see it, and signs off") {
        Shop shop;
        shop.sign_on("H-1042");
        shop.clock.pass(149'999);
        CHECK(shop.page().countdown.empty());
        CHECK(shop.page().next_change_ms <= shop.clock.now_ms() + 1);
        shop.clock.pass(1);
        CHECK(shop.page().countdown == "Signing off in 30 s");
        shop.tap("stay");
        CHECK(shop.page().countdown.empty());
        shop.clock.pass(179'999);
        CHECK(shop.page().countdown == "Signing off in 1 s");
        CHECK(shop.app->person() == "p-okafor-lind");
        shop.clock.pass(1);
        CHECK(shop.page_id() == "floor");
        CHECK(shop.app->person().empty());
        CHECK(shop.entries().back().kind == "signed-off");
    }

    TEST_CASE("a clock set forward while the kiosk runs holds every machine") {
        Shop shop;
        shop.sign_on("H-1042");
        shop.clock.set_wall(shop.clock.now_ms() + 2 * 3'600'000);
        shop.tap("machine:SW-14");
        const Entry doubted = shop.entries().back();
        REQUIRE(doubted.kind == "clock-doubted");
        CHECK(doubted.data.at("cause") == "set-forward");
        CHECK(doubted.data.at("forward_ms").get<std::int64_t>() == 2 * 3'600'000);
        CHECK(shop.shows("Call supervisor"));
    }

    TEST_CASE("a clock that is wrong is noticed before anything is entered without a touch") {
        for (const std::int64_t off_ms : {-2 * 3'600'000, 2 * 3'600'000}) {
            CAPTURE(off_ms);
            Shop shop;
            shop.clock.set_wall(shop.clock.now_ms() + off_ms);
            shop.restart();
            shop.app->tick();
            CHECK(shop.entries().back().kind == "clock-doubted");
            shop.app->tick();
            CHECK(shop.count_of("clock-doubted") == 1);
        }
    }

    TEST_CASE("time that goes by on both clocks is no doubt, however long it is") {
        Shop shop;
        shop.sign_on("H-1042");
        shop.clock.pass(20LL * 86'400'000);
        shop.clock.set_wall(shop.clock.now_ms() + 50'000);  // as a time service does
        shop.tap("machine:SW-14");
        CHECK(shop.count_of("clock-doubted") == 0);
    }

    TEST_CASE("a clock may be a minute ahead or behind of what went by, and not more") {
        for (const std::int64_t off_ms : {60'000, 60'001, -60'000, -60'001}) {
            CAPTURE(off_ms);
            Shop shop;
            shop.clock.set_wall(shop.clock.now_ms() + off_ms);
            shop.app->act({"sign-on", ""});
            CHECK(shop.count_of("clock-doubted") == (std::abs(off_ms) > 60'000 ? 1U : 0U));
        }
    }

    TEST_CASE("a longer time between two boots than the site allows is confirmed first") {
        for (const int more_ms : {0, 1}) {
            CAPTURE(more_ms);
            Shop shop;
            shop.site->content.site.policy.clock_gap_hours = 72;
            shop.clock.pass(72 * 3'600'000LL + more_ms);
            shop.clock.reboot();
            shop.restart();
            shop.app->act({"sign-on", ""});
            CHECK(shop.count_of("clock-doubted") == (more_ms > 0 ? 1U : 0U));
        }
    }

    TEST_CASE("a clock set back over a reboot is seen, and a confirmed one is believed again") {
        Shop shop;
        shop.clock.set_wall(kShopStart - 3'600'000);
        shop.clock.reboot();
        shop.restart();
        shop.sign_on("H-1006");
        REQUIRE(shop.count_of("clock-doubted") == 1);
        shop.tap("desk");
        shop.pin_of("H-1006");
        shop.tap("desk:clock");
        shop.pin_of("H-1006");
        shop.badge("H-1042");
        shop.pin_of("H-1042");
        CHECK(shop.entries().back().kind == "clock-confirmed");
        shop.tap("desk:people");
        CHECK(shop.count_of("clock-doubted") == 1);
    }

    TEST_CASE("at the change of a shift the ledger is sealed and its code stands on the floor") {
        Shop shop;
        shop.clock.pass(7 * 3'600'000);
        shop.page();
        shop.tap("sign-on");
        shop.tap("back");
        const auto sealed = newest_sealed_size(*shop.site->db).value();
        shop.tap("sign-on");
        shop.badge("H-9999");
        shop.tap("back");
        CHECK(shop.site->ledger->size() > sealed);
        shop.clock.pass(3'600'000);
        const Page floor = shop.page();
        CHECK(newest_sealed_size(*shop.site->db).value() == shop.site->ledger->size());
        CHECK(floor.middle.find(witness_now(shop)) != std::string::npos);
        shop.clock.pass(3'600'000);
        CHECK(shop.page().middle.find(witness_now(shop)) == std::string::npos);
    }

    TEST_CASE("asking for a page at the change of a shift seals nothing, the loop's turn does") {
        Shop shop;
        shop.app->tick();
        shop.sign_on("H-9999");
        const auto sealed = newest_sealed_size(*shop.site->db).value();
        REQUIRE(shop.site->ledger->size() > sealed);
        shop.clock.pass(8 * 3'600'000);
        shop.app->page();
        CHECK(newest_sealed_size(*shop.site->db).value() == sealed);
        shop.app->tick();
        CHECK(newest_sealed_size(*shop.site->db).value() == shop.site->ledger->size());
    }

    TEST_CASE("a code typed back from the shift book fits while the entries are those") {
        Shop shop;
        const std::string code = witness_now(shop);
        shop.open_desk("H-1042");
        shop.tap("desk:shift-book");
        shop.tap("main", "???");
        CHECK(shop.page_id() == "desk/shift-book");
        shop.tap("main", code);
        CHECK(shop.shows("The code fits"));
        const Entry checked = shop.entries().back();
        CHECK(checked.kind == "shift-book-checked");
        CHECK(checked.data.at("matched") == true);
    }

    TEST_CASE("a code that does not fit is read twice and then holds until two looked into it") {
        Shop shop;
        shop.open_desk("H-1006");
        shop.tap("desk:shift-book");
        shop.tap("main", "K7DM-3XQA");
        CHECK(shop.count_of("shift-book-checked") == 0);
        shop.tap("main", "K7DM-3XQA");
        CHECK(shop.shows("The code does not fit"));
        CHECK(shop.count_of("ledger-doubted") == 1);
        shop.tap("back");
        shop.tap("back");
        shop.tap("machine:SW-14");
        CHECK(shop.shows("Records in doubt"));
        shop.tap("back");
        shop.tap("desk");
        shop.tap("desk:doubt");
        shop.pin_of("H-1006");
        shop.badge("H-1042");  // an operator reads no records of others
        CHECK(shop.page_id() == "message");
        shop.tap("back");
        shop.badge("H-1890");
        shop.pin_of("H-1890");
        const Entry lifted = shop.entries().back();
        CHECK(lifted.kind == "ledger-doubt-lifted");
        CHECK(lifted.by.size() == 2);
        CHECK(ledger_doubt(*shop.site->db).value() == 0);
    }

    TEST_CASE("an operator's misread code is kept but holds nothing") {
        Shop shop;
        shop.open_desk("H-1042");
        shop.tap("desk:shift-book");
        shop.tap("main", "K7DM-3XQA");
        shop.tap("main", "K7DM-3XQA");
        CHECK(shop.entries().back().kind == "shift-book-checked");
        CHECK(shop.count_of("ledger-doubted") == 0);
        CHECK(shop.shows("Fetch a supervisor"));
    }
}
