// Jobs at machines, touched in every order: the machine stays held from the first step to the last,
// no step comes before the one it needs, and a power cut loses none.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>

#include "flows/lockout_work.hpp"
#include "flows/plates.hpp"
#include "flows/tags.hpp"
#include "flows/work.hpp"
#include "shop.hpp"
#include "support/extent.hpp"

using namespace holdpin;

namespace {

constexpr const char* kPlate = "SW-14";

Fact stated(std::string kind, nlohmann::json data) {
    Fact fact;
    fact.kind = std::move(kind);
    fact.by = {"p-okafor-lind"};
    fact.data = std::move(data);
    return fact;
}

void take_in(Shop& shop, const std::string& serial, const std::string& made) {
    REQUIRE(shop.site->book
                ->enter(stated("cylinder-received", {{"serial", serial},
                                                     {"made", made},
                                                     {"stamps", nlohmann::json::array()},
                                                     {"gas_kg", "15.2"},
                                                     {"due", ""}}))
                .ok());
}

void stock_three(Shop& shop) {
    take_in(shop, "GOOD1", "2021-06");
    take_in(shop, "GOOD2", "2022-06");
    take_in(shop, "LATE1", "2010-03");  // due 2022-03
}

bool has_work_running(Shop& shop) {
    Session session(shop.site->world());
    const auto facts = facts_of(session, kPlate);
    REQUIRE(facts.ok());
    return set_of(facts.value().holds)[index_of(HoldCode::work_running)];
}

// Everything that could ever be sent about a job, right or wrong, and some that belongs to no page.
std::vector<std::string> all_actions(const Work& work, const Content& content) {
    std::vector<std::string> things{"GOOD1", "GOOD2", "LATE1", "NONE", "ramp-grate", "yard-cage"};
    for (const Drain& drain : content.site.drains) things.push_back(drain.id);
    std::vector<std::string> ids{"back", "main", "again", "reply:", "reply:end:done", "take"};
    for (const WorkStep& step : work.steps) {
        for (const WorkAnswer& answer : step.answers) {
            const std::string id = "reply:" + step.id + ":" + answer.id;
            ids.push_back(id);
            if (answer.id != kWorkChosen) continue;
            for (const std::string& thing : things) ids.push_back(id + ":" + thing);
        }
        ids.push_back("reply:" + step.id + ":done");
    }
    return ids;
}

// What is true of any sequence of entries about jobs, however it came about.
struct JobPromises {
    bool running = false;
    std::string step;
    std::set<std::string> done;  // steps since the cylinder was picked, or the job begun
    std::string cylinder;
    bool up = false;  // the hopper
    std::size_t finished = 0;
    std::size_t stopped = 0;
    bool locked = false;  // a lockout runs: the job waits
    std::size_t lockouts = 0;

    void see(const Entry& entry) {
        if (entry.data.value("machine", std::string()) != kPlate) return;
        const std::string at = entry.data.value("step", std::string());
        if (entry.kind == "work-opened") {
            running = true;
            step = at;
            done.clear();
            return;
        }
        if (entry.kind == "lockout-opened") {
            CHECK(running);
            locked = true;
            ++lockouts;
        }
        if (entry.kind == "lockout-closed") locked = up = false;
        if (entry.kind == "cylinder-set") check_cylinder(entry);
        if (!entry.kind.starts_with("work-")) return;
        INFO("entry " << entry.n << " " << entry.data.dump());
        CHECK(running);
        CHECK_FALSE(locked);
        CHECK(at == step);  // no step out of its turn
        check_needs(at, entry.data.value("answer", std::string()));
        up = entry.data.value("hopper", std::string(up ? "up" : "down")) == "up";
        if (at == "pick") {
            cylinder = entry.data.value("cylinder", std::string());
            for (const char* id : {"look-over", "collar-date", "which-way", "seat", "straps"}) {
                done.erase(id);
            }
        }
        done.insert(at + "/" + entry.data.value("answer", std::string()));
        done.insert(at);
        step = entry.data.value("next", std::string());
        if (entry.data.contains("drain")) CHECK(entry.data.at("drain") != "ramp-grate");
        running = entry.kind == "work-step-done";
        finished += entry.kind == "work-finished" ? 1U : 0U;
        stopped += entry.kind == "work-stopped" ? 1U : 0U;
    }
    void need(const char* id) const {
        INFO("needs " << id);
        CHECK(done.contains(id));
    }
    void check_needs(const std::string& at, const std::string& answer) const {
        if (at == "uncouple") need("key-out");
        if (at == "lift-out") need("uncouple/quiet");
        if (at == "open") need("couple");
        if (at == "couple") need("seal/good");
        if (at == "store") need("soap/dry");
        if (at == "tighten") need("shut-tighten/quiet");
        if (at == "swap") need("shut-swap/quiet");
        if (at == "open-slowly") need("hose-end/at-drain");
        if (at == "hose-end") need("wet-sign");
        if (at == "prop-right") need("prop-left/in");
        if (at == "cap") need("gasket/there");
        if (at == "floor") need("hose-back/on-pipe");
        if (at == "stow-right") need("stow-left/out");
        if (at == "lower") need("stow-right/out");
        if (at == "floor") CHECK_FALSE(up);  // never left with the hopper up
        if (at == "straps" && answer == "firm") need("look-over/sound");
    }
    // A cylinder comes onto the machine only looked over, dated, and shown how it sits.
    void check_cylinder(const Entry& entry) const {
        if (entry.data.at("state") != "on-machine") return;
        CHECK(entry.data.at("serial") == cylinder);
        CHECK(cylinder.starts_with("GOOD"));
        for (const char* id : {"look-over/sound", "collar-date/same", "which-way/on-peg",
                               "seat/on-peg"}) {
            need(id);
        }
    }
};

// Puts right what a stopped job leaves, as a mechanic and a supervisor would.
void put_right(Shop& shop, const MachineState& machine) {
    std::vector<std::int64_t> entries;
    for (const OpenFinding& finding : machine.findings) entries.push_back(finding.entry);
    const auto tag = tag_of(*shop.site->db, kPlate);
    REQUIRE(tag.ok());
    nlohmann::json data{{"machine", kPlate}, {"findings", entries}};
    if (tag.value()) data["tag"] = tag.value()->code;
    REQUIRE(shop.site->book->enter(stated("returned-to-service", data)).ok());
}

// The cylinders that are not on the machine come back full from the supplier.
void refill_two(Shop& shop) {
    const auto fitted = fitted_on(*shop.site->db, kPlate);
    REQUIRE(fitted.ok());
    for (const char* serial : {"GOOD1", "GOOD2"}) {
        if (fitted.value() == serial) continue;
        REQUIRE(shop.site->book
                    ->enter(stated("cylinder-set", {{"serial", serial}, {"state", "full"}}))
                    .ok());
    }
}

// Turns back at once, as somebody would who finds that nothing has to go in.
void close_lockout(Session& session) {
    const auto state = lockout_of(session.db(), kPlate);
    if (!state.ok() || !state.value()) return;
    LockoutEvent event;
    event.by = state.value()->lead;
    event.deed = LockoutDeed::clear;
    for (const auto item : kClearItems) event.items.emplace_back(item);
    event.seen = static_cast<int>(people_on(*state.value()).size());
    REQUIRE(enter_deed(session, kPlate, event).ok());
    event.deed = LockoutDeed::close;
    REQUIRE(enter_deed(session, kPlate, event).ok());
}

// The next answer that leads on, so that a walk comes to the end now and then.
std::string good_action(const Work& work, const std::string& at, bool second = false) {
    if (at == "pick") return second ? "reply:pick:chosen:GOOD2" : "reply:pick:chosen:GOOD1";
    static const std::map<std::string, std::string> kGood{
        {"place", "chosen:yard-cage"}, {"engine", "running"},
        {"which-way", "on-peg"},       {"which-drain", "chosen:hall-2-sink"},
        {"product", "one"},            {"which-product", "not-listed"},
        {"hopper", "up"}};
    const auto named = kGood.find(at);
    const WorkStep* step = work.step(at);
    if (step == nullptr) return "back";
    return "reply:" + at + ":" +
           (named == kGood.end() ? step->answers.front().id : named->second);
}

std::size_t walk_at_random(const std::string& id, std::uint64_t seed, int actions) {
    Shop shop;
    stock_three(shop);
    SeededRandom random(seed);
    const Work& work = *shop.site->content.pack.work(id);
    const auto ids = all_actions(work, shop.site->content);
    auto session = std::make_unique<Session>(shop.site->world());
    session->open_person(*person_with(*shop.site->db, "p-okafor-lind").value());
    JobPromises promises;
    auto seen = static_cast<std::int64_t>(shop.site->ledger->size());
    for (int i = 0; i < actions; ++i) {
        shop.clock.pass(1000);
        const auto machine = machine_state(*shop.site->db, kPlate);
        REQUIRE(machine.ok());
        if (!machine.value().findings.empty()) put_right(shop, machine.value());
        if (promises.locked && random.below(4) == 0) close_lockout(*session);
        if (promises.step == "pick" && random.below(4) == 0) refill_two(shop);
        if (!machine.value().work) {
            REQUIRE(WorkFlow::open(*session, kPlate, id).ok());
        }
        const auto any = ids[random.below(static_cast<std::uint32_t>(ids.size()))];
        const bool forward = random.below(4) != 0;
        const std::string good = good_action(work, promises.step, random.below(2) == 0);
        WorkFlow flow(kPlate, id);
        REQUIRE(flow.act(*session, {forward ? good : any, ""}).ok());
        if (random.below(100) == 0) {  // the program begins again on what is stored
            session = std::make_unique<Session>(shop.site->world());
            session->open_person(*person_with(*shop.site->db, "p-quispe-moran").value());
        }
        const auto size = static_cast<std::int64_t>(shop.site->ledger->size());
        REQUIRE(shop.site->ledger->each(seen + 1, size, [&](const Entry& entry) -> Result<void> {
            promises.see(entry);
            return {};
        }).ok());
        seen = size;
        const auto after = machine_state(*shop.site->db, kPlate);
        REQUIRE(after.ok());
        CHECK(after.value().work.has_value() == promises.running);
        if (random.below(50) == 0) CHECK(has_work_running(shop) == promises.running);
    }
    MESSAGE(id << ": finished " << promises.finished << ", stopped or left "
                << promises.stopped << ", lockouts " << promises.lockouts);
    if (id != "drain") CHECK(promises.lockouts == 0);
    if (id == "drain" && !goes_a_part()) CHECK(promises.lockouts > 0);
    CHECK(promises.stopped > 0);
    return promises.finished;
}

int actions_to_walk() {
    return as_many(10'000, 500'000);  // for each of two jobs
}

// Opens a job from the floor, as a person would.
void open_job(Shop& shop, const std::string& id) {
    shop.sign_on("H-1042");
    shop.tap(std::string("machine:") + kPlate);
    shop.tap("jobs");
    shop.tap("work:" + id);
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("answers in any order never change a cylinder out of its turn, and free no machine") {
        CHECK(walk_at_random("exchange", 11, actions_to_walk()) > 0);
    }

    TEST_CASE("answers in any order never drain out of turn, and free no machine") {
        CHECK(walk_at_random("drain", 12, actions_to_walk()) > 0);
    }

    TEST_CASE("a job that is cut off after every entry goes on at the same step, still held") {
        for (const std::string id : {"exchange", "drain"}) {
            CAPTURE(id);
            Shop shop;
            stock_three(shop);
            const Work& work = *shop.site->content.pack.work(id);
            open_job(shop, id);
            std::size_t pages = 0;
            while (shop.page_id().starts_with("work/")) {
                REQUIRE(pages++ < 60);
                CHECK(has_work_running(shop));
                const std::string before = shop.page_id();
                shop.tap(good_action(work, before.substr(before.rfind('/') + 1)));
                const std::string after = shop.page_id();
                if (!after.starts_with("work/")) break;
                CHECK(after != before);
                const auto size = shop.site->ledger->size();
                shop.restart();
                CHECK(shop.site->ledger->size() == size);
                CHECK(has_work_running(shop));
                shop.sign_on("H-1042");
                CHECK(shop.page_id() == after);
            }
            CHECK(pages > 15);
            const auto entries = shop.entries();
            CHECK(std::any_of(entries.begin(), entries.end(), [](const Entry& entry) {
                return entry.kind == "work-finished";
            }));
            CHECK_FALSE(has_work_running(shop));
        }
    }

    TEST_CASE("the register follows the exchange: old one empty, new one on the machine") {
        Shop shop;
        stock_three(shop);
        for (const char* serial : {"GOOD1", "GOOD2"}) {
            open_job(shop, "exchange");
            const Work& work = *shop.site->content.pack.work("exchange");
            while (shop.page_id().starts_with("work/")) {
                const std::string at = shop.page_id().substr(shop.page_id().rfind('/') + 1);
                shop.tap(at == "pick" ? std::string("reply:pick:chosen:") + serial
                                      : good_action(work, at));
            }
            CHECK(fitted_on(*shop.site->db, kPlate).value() == serial);
            shop.restart();
        }
        std::map<std::string, CylinderState> states;
        const auto store = cylinders(*shop.site->db);
        for (const Cylinder& one : store.value()) states[one.serial] = one.state;
        CHECK(states["GOOD1"] == CylinderState::empty);
        CHECK(states["GOOD2"] == CylinderState::on_machine);
        CHECK(states["LATE1"] == CylinderState::full);
    }

    TEST_CASE("the right picture of how a cylinder sits has no place that can be learned") {
        std::set<std::size_t> places;
        for (int others = 0; others < 4; ++others) {
            Shop shop;
            stock_three(shop);
            for (int i = 0; i < others; ++i) {
                REQUIRE(shop.site->book->enter(stated("shift-book-checked", {{"ok", true}})).ok());
            }
            const Work& work = *shop.site->content.pack.work("exchange");
            open_job(shop, "exchange");
            while (!shop.page_id().ends_with("/which-way")) {
                shop.tap(good_action(work, shop.page_id().substr(shop.page_id().rfind('/') + 1)));
            }
            const Page page = shop.page();
            const auto& tiles = std::get<ChoiceBody>(page.body).tiles;
            REQUIRE(tiles.size() == 4);
            for (std::size_t i = 0; i < tiles.size(); ++i) {
                if (tiles[i].id == "reply:which-way:on-peg") places.insert(i);
            }
        }
        CHECK(places.size() == 4);
    }

    TEST_CASE("no texts of a job are missing in either language") {
        for (const std::string language : {"en", "es"}) {
            Shop shop(language);
            for (const Work& work : shop.site->content.pack.works) {
                for (const WorkStep& step : work.steps) {
                    CHECK_FALSE(step.action.by_language.at(language).empty());
                    CHECK_FALSE(step.key_point.by_language.at(language).empty());
                }
            }
        }
    }

    TEST_CASE("a machine in service never asks for a tag") {
        Shop shop;
        shop.sign_on("H-1042");
        shop.tap("machine:SW-14");
        CHECK(shop.app->page().main.id == "walk");
    }

    TEST_CASE("every stop finding gives the machine one tag, and the next person is asked for it") {
        Shop shop;
        shop.tap("help");
        shop.tap("report");
        shop.tap("report:SW-14");
        shop.restart();
        const auto tag = tag_of(*shop.site->db, kPlate);
        REQUIRE(tag.value().has_value());
        shop.sign_on("H-1042");
        shop.tap("machine:SW-14");
        CHECK(shop.app->page().main.id == "put-tag");
        shop.tap("put-tag");
        CHECK(shop.shows(tag.value()->code));
        shop.tap("main");
        CHECK(shop.app->page().main.id == "call");  // not asked for their own
        shop.restart();
        shop.sign_on("H-1187");
        shop.tap("machine:SW-14");
        CHECK(shop.app->page().main.id == "read-tag");
        shop.tap("read-tag");
        shop.tap("tag:there");
        shop.tap("main", tag.value()->code);
        CHECK(shop.entries().back().kind == "tag-read");
        CHECK(shop.app->page().main.id == "call");
        shop.restart();
        shop.sign_on("H-1093");
        shop.tap("machine:SW-14");
        shop.tap("read-tag");
        shop.tap("tag:there");
        shop.tap("main", "AAAAAA");
        CHECK(shop.entries().back().kind == "finding-entered");
        CHECK(shop.entries().back().data.at("reading") == "tag-other");
        CHECK(shop.shows("extension 214"));
    }
}
