// Thousands of random touches on everything that can be touched, and on things that are not there:
// whatever is done in whatever order, what was promised holds.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>

#include "records/fold.hpp"
#include "shop.hpp"
#include "support/extent.hpp"

using namespace holdpin;

namespace {

std::string typed_for(const Page& page, Shop& shop) {
    const auto& people = shop.site->content.site.people;
    // Often one of the first three, who are current operators.
    const auto among = shop.random.below(2) == 0 ? 3U : static_cast<std::uint32_t>(people.size());
    const Person& somebody = people[shop.random.below(among)];
    if (std::holds_alternative<PinBody>(page.body)) {
        // Mostly the right PIN of whoever is asked, sometimes anybody's.
        const auto& body = std::get<PinBody>(page.body);
        for (const Person& person : people) {
            if (person.name == body.name && shop.random.below(4) != 0) return person.example_pin;
        }
        return somebody.example_pin;
    }
    if (std::holds_alternative<NumberBody>(page.body)) {
        constexpr const char* kNumbers[] = {"1290.5", "0", "80", "99999999", "-1", "x", ""};
        return kNumbers[shop.random.below(7)];
    }
    return page.id == "badge" ? somebody.badge : "Something typed";
}

// Forward more often than a coin would have it, or no round would ever be finished.
const PageTarget& likely_target(const Page& page, const std::vector<PageTarget>& targets,
                                Shop& shop) {
    const auto& any = targets[shop.random.below(static_cast<std::uint32_t>(targets.size()))];
    if (shop.random.below(20) == 0) return any;
    const auto first_with = [&](auto test) -> const PageTarget& {
        const auto at = std::find_if(targets.begin(), targets.end(), test);
        return at == targets.end() ? any : *at;
    };
    if (page.id == "floor") {
        const bool nobody = shop.app->person().empty();
        return first_with([&](const PageTarget& one) {
            return nobody ? one.id == "sign-on" : one.id == "machine:SW-14";
        });
    }
    if (std::holds_alternative<ChoiceBody>(page.body) && !page.main.enabled) {
        return first_with([](const PageTarget& one) { return one.id.starts_with("reading:"); });
    }
    if (std::holds_alternative<NumberBody>(page.body) && !page.main.enabled) {
        return first_with([](const PageTarget& one) { return one.id == "mark:80"; });
    }
    return first_with([](const PageTarget& one) { return one.main && one.enabled; });
}

void touch_at_random(Shop& shop) {
    const Page page = shop.app->page();
    const auto targets = targets_of(page);
    if (targets.empty() || shop.random.below(20) == 0) {
        // Out of order: ids of other pages, as a faulty or hostile screen would send them.
        constexpr const char* kIds[] = {"take",   "sign",    "walk",    "main", "return",
                                        "repair", "recheck", "give-back", "room:dock-hall",
                                        "reading:fit", "choice:0", "desk:people", "authorise"};
        shop.tap(kIds[shop.random.below(13)], "123456");
        return;
    }
    const PageTarget& target = likely_target(page, targets, shop);
    shop.tap(target.id, target.main ? typed_for(page, shop) : "");
}

// What must be true of any ledger, however it came about.
struct Promises {
    std::map<std::string, std::int64_t> open_stops;  // machine -> open stop findings
    std::map<std::int64_t, std::string> stop_of;     // finding -> machine
    std::map<std::string, Entry> round_of;           // machine -> last signed round before use
    std::map<std::string, bool> out;
    std::set<std::string> locked;
    std::set<std::string> alarmed;  // rooms

    void see(const Entry& entry) {
        const std::string machine = entry.data.value("machine", std::string());
        if (entry.kind == "finding-entered" && entry.data.at("outcome") == "stop") {
            ++open_stops[machine];
            stop_of[entry.n] = machine;
        }
        if (entry.kind == "finding-withdrawn") close(entry.about);
        if (entry.kind == "returned-to-service") {
            for (const auto& n : entry.data.at("findings")) close(n.get<std::int64_t>());
        }
        if (entry.kind == "round-signed" && entry.data.at("round_kind") == "before") {
            round_of[machine] = entry;
        }
        if (entry.kind == "lockout-placed") locked.insert(machine);
        if (entry.kind == "lockout-removed") locked.erase(machine);
        if (entry.kind == "lockout-opened") locked.insert(machine);
        if (entry.kind == "lockout-closed") locked.erase(machine);
        const std::string room = entry.data.value("room", std::string());
        if (entry.kind == "air-alarm-raised") alarmed.insert(room);
        if (entry.kind == "air-alarm-lifted") alarmed.erase(room);
        if (entry.kind == "returned") out[machine] = false;
        if (entry.kind == "release-given") check_release(entry, machine);
    }
    void close(std::int64_t finding) {
        const auto at = stop_of.find(finding);
        if (at == stop_of.end()) return;
        --open_stops[at->second];
        stop_of.erase(at);
    }
    void check_release(const Entry& entry, const std::string& machine) {
        INFO("entry " << entry.n << " releases " << machine);
        CHECK(open_stops[machine] == 0);
        CHECK_FALSE(locked.contains(machine));
        CHECK_FALSE(out[machine]);
        // BW-03 is the one without an engine.
        const bool engine = machine != "BW-03";
        CHECK_FALSE((engine && alarmed.contains(entry.data.at("room").get<std::string>())));
        REQUIRE(round_of.contains(machine));
        CHECK(round_of[machine].by == entry.by);
        CHECK(round_of[machine].n == entry.data.at("round").get<std::int64_t>());
        CHECK(round_of[machine].data.contains("signature"));
        out[machine] = true;
    }
};

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("random touches in any order never free a held machine or break the ledger") {
        std::size_t releases = 0;
        const auto days = static_cast<std::uint64_t>(goes_a_part() ? 2 : 8);
        for (std::uint64_t seed = 1; seed <= days; ++seed) {
            CAPTURE(seed);
            Shop shop(seed % 2 == 0 ? "es" : "en");
            shop.random = SeededRandom(seed);
            for (int i = 0; i < 600; ++i) {
                touch_at_random(shop);
                if (shop.random.below(200) == 0) shop.restart();
                if (shop.random.below(100) == 0) shop.clock.pass(3'600'000);
            }
            Promises promises;
            for (const Entry& entry : shop.entries()) {
                promises.see(entry);
                releases += entry.kind == "release-given" ? 1U : 0U;
            }
            const auto report = shop.site->ledger->check();
            REQUIRE(report.ok());
            CHECK(report.value().fault == LedgerFault::none);
            const auto before = state_digest(*shop.site->db);
            REQUIRE(shop.site->book->rebuild().ok());
            CHECK(before.value() == state_digest(*shop.site->db).value());
        }
        MESSAGE("machines handed over on the way: " << releases);
        CHECK((releases > 0 || goes_a_part()));
    }
}
