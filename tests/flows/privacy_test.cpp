// People's own side of the records: to see all that is stored, to disagree, to be forgotten; and
// that none of it touches an entry or a proof.
#include <doctest/doctest.h>

#include "flows/about_words.hpp"
#include "ledger/check.hpp"
#include "ledger/proof.hpp"
#include "ledger/tree.hpp"
#include "records/fold.hpp"
#include "records/retention.hpp"
#include "shop.hpp"
#include "times.hpp"

using namespace holdpin;

namespace {


void desk(Shop& shop, const std::string& badge) {
    shop.sign_on(badge);
    shop.tap("desk");
    shop.pin_of(badge);
    REQUIRE(shop.page_id() == "desk");
}

std::int64_t last_of(Shop& shop, const std::string& kind) {
    std::int64_t n = 0;
    for (const Entry& entry : shop.entries()) n = entry.kind == kind ? entry.n : n;
    return n;
}

// A report with words, by R. Okafor-Lind, whose text stands in the private table.
std::int64_t report(Shop& shop, const std::string& words) {
    Fact fact;
    fact.kind = "finding-entered";
    fact.by = {"p-okafor-lind"};
    fact.data = {{"machine", "SW-14"}, {"point", "report"}, {"reading", "unspecified"},
                 {"outcome", "note"},  {"hazard", "none"},  {"source", "report"}};
    fact.data["text"] =
        keep_private(*shop.site->db, shop.random, words, "p-okafor-lind").value();
    const auto entry = shop.site->book->enter(fact);
    REQUIRE(entry.ok());
    return entry.value().n;
}

std::int64_t reading(Shop& shop) {
    Fact fact;
    fact.kind = "air-read";
    fact.data = {{"room", "dock-hall"},
                 {"ppm", "0"},
                 {"instrument", "CO-3"},
                 {"source", "csv"},
                 {"present", {"p-okafor-lind"}}};
    const auto entry = shop.site->book->enter(fact);
    REQUIRE(entry.ok());
    return entry.value().n;
}

void leave(Shop& shop, const std::string& person) {
    Fact fact;
    fact.kind = "person-left";
    fact.by = {"p-brandt"};
    fact.data = {{"person", person}};
    REQUIRE(shop.site->book->enter(fact).ok());
}

PurgePlan plan_at(Shop& shop, std::int64_t ms) {
    const Date as_of = shop.site->zone.local(ms).date;
    auto plan = plan_purge(*shop.site->book, shop.site->content.pack, shop.site->zone, as_of);
    REQUIRE(plan.ok());
    return plan.value();
}

std::string text_behind(Shop& shop, std::int64_t n) {
    const Entry entry = shop.site->ledger->at(n).value();
    return private_text(*shop.site->db, entry.data.at("text").get<std::string>())
        .value()
        .value_or("erased");
}

std::string name_now(Shop& shop, const std::string& person) {
    return person_with(*shop.site->db, person).value()->name;
}

LedgerFault verdict(Shop& shop) {
    const Evidence evidence{shop.site->sealer->key().public_key, {}, {}};
    return check_ledger(*shop.site->db, evidence).value().ledger.fault;
}

void erase(Shop& shop, const std::string& person, const std::string& second) {
    desk(shop, "H-1006");
    shop.tap("desk:people");
    shop.tap("person:" + person);
    shop.tap("erase");
    if (shop.page_id() == "message") return;
    shop.pin_of("H-1006");
    shop.badge(second);
    shop.pin_of(second);
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("anybody sees every record that names them, and nobody else's") {
        Shop shop;
        const auto finding = report(shop, "It pulls to the left");
        desk(shop, "H-1042");
        shop.tap("desk:about-me");
        CHECK(shop.page_id() == "about-me");
        std::size_t counted = 0;
        const Page page = shop.app->page();
        for (const Row& row : std::get<ListBody>(page.body).rows) {
            if (row.id.starts_with("class:")) counted += std::stoul(row.word);
        }
        // The page was opened before nothing else was entered: what names the person, no more.
        std::size_t naming = 0;
        for (const Entry& entry : shop.entries()) naming += names(entry, "p-okafor-lind") ? 1U : 0U;
        CHECK(counted == naming);
        shop.tap("class:machine");
        shop.tap("entry:" + std::to_string(finding));
        CHECK(shop.shows("It pulls to the left"));
        shop.tap("back");
        shop.tap("entry:1");  // not about this person
        CHECK(shop.page_id() == "about-me/machine");
    }

    TEST_CASE("a note of disagreement is added to a record and shown where the record is shown") {
        Shop shop;
        const auto finding = report(shop, "It pulls to the left");
        desk(shop, "H-1042");
        shop.tap("desk:about-me");
        shop.tap("class:machine");
        shop.tap("entry:" + std::to_string(finding));
        shop.tap("disagree");
        shop.tap("main", "I said to the right");
        shop.pin_of("H-1042");
        const Entry note = shop.entries().back();
        REQUIRE(note.kind == "disagreement-noted");
        CHECK(note.about == finding);
        CHECK(entry_body(note).value().find("to the right") == std::string::npos);
        CHECK(shop.shows("I said to the right"));
        shop.restart();
        desk(shop, "H-1006");
        shop.tap("desk:findings");
        shop.tap("finding:" + std::to_string(finding));
        CHECK(shop.shows("R. Okafor-Lind does not agree"));
        CHECK(shop.shows("I said to the right"));
    }

    TEST_CASE("what is stored about a person comes as a text and as JSON, whole") {
        Shop shop;
        report(shop, "It pulls to the left");
        const Person person = *person_with(*shop.site->db, "p-okafor-lind").value();
        const Say say(shop.site->content.pack, "en");
        const auto about =
            about_person(*shop.site->db, shop.site->content, shop.site->zone, person, say);
        REQUIRE(about.ok());
        CHECK(about.value().text.find("It pulls to the left") != std::string::npos);
        CHECK(about.value().text.find("Kept while the person works here and 3 years more") !=
              std::string::npos);
        const auto json = nlohmann::json::parse(about.value().json);
        CHECK(json.at("records").size() ==
              entries_naming(*shop.site->db, "p-okafor-lind").value().size());
        CHECK(json.at("classes").size() >= 3);
    }

    TEST_CASE("two people erase a name: it is gone everywhere, and every proof goes on holding") {
        Shop shop;
        const auto finding = report(shop, "It pulls to the left");
        desk(shop, "H-1042");
        shop.tap("sign-off");
        REQUIRE(shop.site->sealer->seal().ok());
        const auto proof = inclusion_json(*shop.site->db, *shop.site->ledger, finding);
        REQUIRE(proof.ok());
        const Hash root = shop.site->ledger->root();
        const auto size = shop.site->ledger->size();
        erase(shop, "p-okafor-lind", "H-1187");
        const auto n = last_of(shop, "person-erased");
        REQUIRE(n != 0);
        CHECK(shop.site->ledger->at(n).value().by ==
              std::vector<std::string>{"p-brandt", "p-quispe-moran"});
        CHECK(shop.shows("Name erased"));
        CHECK(text_behind(shop, finding) == "erased");
        CHECK(name_now(shop, "p-okafor-lind") == kErasedName);
        CHECK(private_texts_about(*shop.site->db, "p-okafor-lind").value().empty());
        CHECK_FALSE(shop.site->pins->find("p-okafor-lind").value().has_value());
        CHECK_FALSE(person_with_badge(*shop.site->db, "H-1042").value().has_value());
        CHECK_FALSE(person_with_badge(*shop.site->db, "").value().has_value());
        // The screens say so, in the language shown.
        shop.tap("back");
        shop.tap("back");
        CHECK(shop.shows("Name erased"));
        for (const std::string& text : shop.texts()) {
            CHECK(text.find("Okafor") == std::string::npos);
        }
        CHECK(verdict(shop) == LedgerFault::none);
        CHECK(shop.site->ledger->root_at(size).value() == root);
        CHECK(inclusion_json(*shop.site->db, *shop.site->ledger, finding).value() ==
              proof.value());
        const auto before = state_digest(*shop.site->db).value();
        REQUIRE(shop.site->book->rebuild().ok());
        CHECK(state_digest(*shop.site->db).value() == before);
    }

    TEST_CASE("neither one person alone nor the person concerned can erase") {
        Shop shop;
        erase(shop, "p-okafor-lind", "H-1042");
        CHECK(last_of(shop, "person-erased") == 0);
        shop.restart();
        erase(shop, "p-okafor-lind", "H-1006");
        CHECK(last_of(shop, "person-erased") == 0);
        shop.restart();
        desk(shop, "H-1006");
        shop.tap("desk:people");
        shop.tap("person:p-brandt");
        shop.tap("erase");
        CHECK(shop.page_id() == "desk/person/p-brandt");
    }

    TEST_CASE("whoever has left has no badge, no PIN and no duty, and the records stay") {
        Shop shop;
        desk(shop, "H-1006");
        shop.tap("desk:people");
        shop.tap("person:p-okafor-lind");
        shop.tap("left");
        shop.pin_of("H-1006");
        CHECK(shop.entries().back().kind == "person-left");
        CHECK_FALSE(person_with_badge(*shop.site->db, "H-1042").value().has_value());
        CHECK_FALSE(shop.site->pins->find("p-okafor-lind").value().has_value());
        CHECK(name_now(shop, "p-okafor-lind") == "R. Okafor-Lind");
    }

    TEST_CASE("a site that keeps no times of single readings has none in a signed round") {
        for (const bool kept : {true, false}) {
            Shop shop;
            shop.site->content.site.policy.reading_times = kept;
            shop.sign_on("H-1042");
            shop.tap("machine:SW-14");
            shop.tap("walk");
            shop.walk_all_fit();
            shop.pin_of("H-1042");
            const auto entries = shop.entries();
            const auto round = std::find_if(
                entries.rbegin(), entries.rend(),
                [](const Entry& entry) { return entry.kind == "round-signed"; });
            REQUIRE(round != entries.rend());
            CHECK(round->data.contains("started_ms"));
            REQUIRE(round->data.at("readings").size() > 10);
            for (const auto& reading : round->data.at("readings")) {
                CHECK(reading.contains("at_ms") == kept);
            }
        }
    }

    TEST_CASE("words are purged when their time is over, and a name after the last record of it") {
        Shop shop;
        const auto finding = report(shop, "It pulls to the left");
        const std::int64_t now = shop.clock.now_ms();
        CHECK(plan_at(shop, now + 4 * kYearMs).text_count() == 0);
        CHECK(plan_at(shop, now + 6 * kYearMs).text_count() == 1);
        CHECK(plan_at(shop, now + 6 * kYearMs).names.empty());  // still works here
        leave(shop, "p-okafor-lind");
        const PurgePlan plan = plan_at(shop, now + 11 * kYearMs);
        CHECK(plan.names.size() == 1);
        const auto size = shop.site->ledger->size();
        const auto purged = purge(*shop.site->book, plan);
        REQUIRE(purged.ok());
        CHECK(purged.value().data.at("classes").at("machine") == 1);
        CHECK(purged.value().data.at("names") == 1);
        CHECK(shop.site->ledger->size() == size + 1);
        CHECK(text_behind(shop, finding) == "erased");
        CHECK(name_now(shop, "p-okafor-lind") == kErasedName);
        CHECK(verdict(shop) == LedgerFault::none);
        CHECK(plan_at(shop, now + 11 * kYearMs).empty());
        CHECK_FALSE(purge(*shop.site->book, plan_at(shop, now + 11 * kYearMs)).ok());
    }

    TEST_CASE("readings of air are never purged, and keep the names of those who were there") {
        Shop shop;
        const auto finding = report(shop, "It pulls to the left");
        const auto air = reading(shop);
        leave(shop, "p-okafor-lind");
        const PurgePlan plan = plan_at(shop, shop.clock.now_ms() + 40 * kYearMs);
        CHECK(plan.names.empty());
        REQUIRE(purge(*shop.site->book, plan).ok());
        CHECK(text_behind(shop, finding) == "erased");
        CHECK(name_now(shop, "p-okafor-lind") == "R. Okafor-Lind");
        CHECK(shop.site->ledger->at(air).value().data.at("ppm") == "0");
    }

    TEST_CASE("what two people put under a legal hold is neither purged nor erased until lifted") {
        Shop shop;
        const auto finding = report(shop, "It pulls to the left");
        desk(shop, "H-1006");
        shop.tap("desk:keeping");
        shop.tap("place");
        shop.tap("machine:SW-14");
        shop.tap("main", "accident of today");
        shop.pin_of("H-1006");
        CHECK(last_of(shop, "legal-hold-placed") == 0);
        shop.badge("H-1718");
        shop.pin_of("H-1718");
        REQUIRE(last_of(shop, "legal-hold-placed") != 0);
        CHECK(shop.shows("Held: SW-14"));
        const std::int64_t later = shop.clock.now_ms() + 20 * kYearMs;
        CHECK(plan_at(shop, later).text_count() == 0);  // the reason of the hold is held with it
        CHECK(plan_at(shop, later).held > 0);
        shop.restart();
        erase(shop, "p-okafor-lind", "H-1187");
        CHECK(shop.shows("A legal hold covers"));
        CHECK(last_of(shop, "person-erased") == 0);
        shop.restart();
        desk(shop, "H-1006");
        shop.tap("desk:keeping");
        shop.tap("lift:" + std::to_string(last_of(shop, "legal-hold-placed")));
        shop.pin_of("H-1006");
        shop.badge("H-1718");
        shop.pin_of("H-1718");
        CHECK(shop.entries().back().kind == "legal-hold-lifted");
        const PurgePlan plan = plan_at(shop, later);
        CHECK(plan.held == 0);
        REQUIRE(purge(*shop.site->book, plan).ok());
        CHECK(text_behind(shop, finding) == "erased");
    }

    TEST_CASE("every kind of entry of the example site has plain words in both languages") {
        Shop shop;
        for (const std::string language : {"en", "es"}) {
            const Say say(shop.site->content.pack, language);
            for (const Entry& entry : shop.entries()) {
                if (entry.by.empty() && !entry.data.contains("person")) continue;
                CAPTURE(entry.kind);
                CHECK(say("about.kind-" + entry.kind) != "about.kind-" + entry.kind);
            }
        }
    }
}
