// All danger work at once: several people touch the air alarm, the no-start, tags, jobs and
// lockouts of the same machines in any order, with restarts and time that passes. What must hold is
// said at the top of danger_promises.hpp.
#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>

#include "danger_promises.hpp"
#include "flows/plates.hpp"
#include "records/fold.hpp"
#include "records/works.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

constexpr const char* kPlate = "SW-14";

int touches_to_make() { return std::getenv("HOLDPIN_LONG") != nullptr ? 1'000'000 : 20'000; }

// A mechanic, a supervisor, and two operators, one of whom may lock out.
constexpr const char* kBadges[] = {"H-1042", "H-1187", "H-1435", "H-1006"};

template <std::size_t N>
const char* any_of(Shop& shop, const char* const (&list)[N]) {
    return list[shop.random.below(static_cast<std::uint32_t>(N))];
}

std::string pin_asked(Shop& shop, const PinBody& body) {
    for (const Person& person : shop.site->content.site.people) {
        if (person.name == body.name && shop.random.below(16) != 0) return person.example_pin;
    }
    return "000000";
}

std::string typed_for(Shop& shop, const Page& page) {
    if (const auto* pin = std::get_if<PinBody>(&page.body)) return pin_asked(shop, *pin);
    if (page.id == "badge") return any_of(shop, kBadges);
    if (page.id.starts_with("lockout/device")) {
        constexpr const char* kLocks[] = {"L-1", "L-2", "L-3", "L-4", ""};
        return any_of(shop, kLocks);
    }
    if (page.id.starts_with("tag-code/")) {
        const auto tag = tag_of(*shop.site->db, page.id.substr(page.id.find('/') + 1));
        if (tag.ok() && tag.value() && shop.random.below(4) != 0) return tag.value()->code;
        return "AAAAAA";
    }
    if (std::holds_alternative<NumberBody>(page.body)) {
        constexpr const char* kNumbers[] = {"0", "3", "12", "240", "-1", "1290.5", ""};
        return any_of(shop, kNumbers);
    }
    return "Something typed";
}

// Ids of every kind of danger work, sent to whatever is open.
const char* out_of_order(Shop& shop) {
    constexpr const char* kIds[] = {
        "main",           "take",         "done",           "back",          "clear",
        "off",            "join",         "test",           "look",          "moved",
        "all-out",        "lockout",      "job:me",         "job:arm",       "reading:fine",
        "reading:damaged", "counted",     "enter",          "read",          "head:others",
        "engine",         "next",         "put-tag",        "read-tag",      "tag:none",
        "return",         "repair",       "reply:rinse:me", "reply:rinse:nothing",
        "reply:soap:dry", "reply:store:done", "finding:1",  "room:dock-hall", "work:drain"};
    return any_of(shop, kIds);
}

// Where somebody goes from the floor, so that all of it gets its turn.
const char* from_the_floor(Shop& shop) {
    constexpr const char* kSignedOff[] = {"sign-on", "sign-on", "sign-on", "sign-on", "help"};
    constexpr const char* kSignedOn[] = {"machine:SW-14", "machine:SW-14", "machine:SW-14",
                                         "desk", "help", "sign-off"};
    return shop.app->person().empty() ? any_of(shop, kSignedOff) : any_of(shop, kSignedOn);
}

constexpr const char* kJobs[] = {"work:drain", "work:drain", "work:exchange", "work:exchange",
                                 "lockout"};
constexpr const char* kFromMachine[] = {"jobs", "jobs", "work", "work", "lockout", "put-tag"};

void touch(Shop& shop) {
    const Page page = shop.app->page();
    if (shop.random.below(12) == 0) return shop.tap(out_of_order(shop), typed_for(shop, page));
    if (page.id == "floor") return shop.tap(from_the_floor(shop));
    // A report holds the machine until it was repaired: seldom, or nothing else would happen.
    const bool reports = page.main.id == "report" || page.id == "report/machine";
    if (reports && shop.random.below(6) != 0) return shop.tap("back");
    if (page.id.starts_with("machine/") && shop.random.below(4) != 0) {
        return shop.tap(page.main.id == "sign-on" ? "back" : any_of(shop, kFromMachine));
    }
    if (page.id.starts_with("jobs/")) return shop.tap(any_of(shop, kJobs));
    std::vector<PageTarget> targets;
    for (PageTarget& one : targets_of(page)) {
        if (one.enabled) targets.push_back(std::move(one));
    }
    if (targets.empty()) return shop.tap("back");
    const auto main = std::find_if(targets.begin(), targets.end(),
                                   [](const PageTarget& one) { return one.main; });
    // Forward rather than back; the desk is walked through to its end.
    if (main != targets.end() && shop.random.below(2) == 0) {
        return shop.tap(main->id, typed_for(shop, page));
    }
    const auto& one = targets[shop.random.below(static_cast<std::uint32_t>(targets.size()))];
    const bool away = one.id == "back" || one.id == "help";
    if (away && shop.random.below(4) != 0 && main != targets.end()) {
        return shop.tap(main->id, typed_for(shop, page));
    }
    shop.tap(one.id, typed_for(shop, page));
}

Fact stated(std::string kind, const char* by, nlohmann::json data) {
    Fact fact;
    fact.kind = std::move(kind);
    fact.by = {by};
    fact.data = std::move(data);
    return fact;
}

void stock(Shop& shop) {
    for (const char* serial : {"GOOD1", "GOOD2", "GOOD3", "GOOD4"}) {
        REQUIRE(shop.site->book
                    ->enter(stated("cylinder-received", "p-okafor-lind",
                                   {{"serial", serial},
                                    {"made", "2022-06"},
                                    {"stamps", nlohmann::json::array()},
                                    {"gas_kg", "15.2"},
                                    {"due", ""}}))
                    .ok());
    }
}

// What takes many touches at the desk: a mechanic and a supervisor put all of it right.
void put_right(Shop& shop, const std::string& mechanic) {
    const auto machine = machine_state(*shop.site->db, kPlate);
    REQUIRE(machine.ok());
    std::vector<std::int64_t> entries;
    for (const OpenFinding& one : machine.value().findings) entries.push_back(one.entry);
    if (entries.empty()) return;
    nlohmann::json data{{"machine", kPlate}, {"findings", entries}};
    REQUIRE(shop.site->book->enter(stated("repair-stated", mechanic.c_str(), data)).ok());
    const auto tag = tag_of(*shop.site->db, kPlate);
    REQUIRE(tag.ok());
    if (tag.value()) data["tag"] = tag.value()->code;
    REQUIRE(shop.site->book->enter(stated("returned-to-service", mechanic.c_str(), data)).ok());
}

bool is_held(Shop& shop) {
    Session session(shop.site->world());
    const auto facts = facts_of(session, kPlate);
    REQUIRE(facts.ok());
    return !facts.value().holds.empty();
}

std::set<std::string> gas_mechanics(Shop& shop) {
    std::set<std::string> ids;
    for (const Person& person : shop.site->content.site.people) {
        const auto& has = person.endorsements;
        if (std::find(has.begin(), has.end(), "lp-repair") != has.end()) ids.insert(person.id);
    }
    return ids;
}

struct Seen {
    std::map<std::string, std::size_t> count;
    std::size_t restarts = 0;
};

// One shop for so many touches; then the state is made again from its entries alone.
void walk(std::uint64_t seed, int touches, Seen& seen) {
    Shop shop(seed % 2 == 0 ? "es" : "en");
    shop.random = SeededRandom(seed);
    const auto mechanics = gas_mechanics(shop);
    REQUIRE_FALSE(mechanics.empty());
    DangerPromises promises(mechanics);
    stock(shop);
    auto read = std::int64_t{0};
    for (int i = 0; i < touches; ++i) {
        touch(shop);
        if (shop.random.below(60) == 0) put_right(shop, *mechanics.begin());
        if (shop.random.below(400) == 0) shop.clock.pass(shop.random.below(60) * 60'000LL);
        const bool restarts = shop.random.below(150) == 0;
        if (restarts) shop.restart();
        const auto size = static_cast<std::int64_t>(shop.site->ledger->size());
        REQUIRE(shop.site->ledger->each(read + 1, size, [&](const Entry& entry) -> Result<void> {
            promises.see(entry);
            return {};
        }).ok());
        read = size;
        if (!restarts) continue;
        ++seen.restarts;
        if (promises.holds(kPlate)) CHECK(is_held(shop));
    }
    const auto before = state_digest(*shop.site->db);
    REQUIRE(shop.site->book->rebuild().ok());
    CHECK(before.value() == state_digest(*shop.site->db).value());
    for (const auto& [kind, count] : promises.count) seen.count[kind] += count;
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("danger work in any order, by several people, with restarts, breaks no promise") {
        constexpr int kOneShop = 4'000;  // then another day begins
        Seen seen;
        const auto begun = std::chrono::steady_clock::now();
        for (int done = 0; done < touches_to_make(); done += kOneShop) {
            CAPTURE(done);
            walk(static_cast<std::uint64_t>(done / kOneShop) + 1, kOneShop, seen);
        }
        const auto taken = std::chrono::duration_cast<std::chrono::seconds>(
            std::chrono::steady_clock::now() - begun);
        std::string text;
        for (const auto& [kind, count] : seen.count) {
            text += kind + " " + std::to_string(count) + ", ";
        }
        MESSAGE(touches_to_make() << " touches, " << seen.restarts << " restarts, "
                                  << taken.count() << " s: " << text);
        for (const char* kind :
             {"work-opened", "work-step-done", "lockout-opened", "lockout-closed",
              "air-alarm-raised", "heads-counted", "finding-entered", "tag-issued", "tag-put-up"}) {
            CAPTURE(kind);
            CHECK(seen.count[kind] > 0);
        }
    }
}
