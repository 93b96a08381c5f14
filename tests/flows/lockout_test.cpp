// A lockout through its pages: cut off after every touch, timed, handed over, with somebody absent.
#include <doctest/doctest.h>

#include <algorithm>

#include "binder/papers.hpp"
#include "flows/lockout_work.hpp"
#include "records/lockout.hpp"
#include "records/records.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

constexpr const char* kMechanic = "H-1435";    // N. Ferreira-Kask
constexpr const char* kSupervisor = "H-1006";  // A. Brandt
constexpr const char* kOther = "H-1718";       // L. Delgado-Ruud, supervisor
constexpr const char* kOperator = "H-1042";

bool held(Shop& shop, const std::string& plate = "SW-14") {
    const auto state = machine_state(*shop.site->db, plate);
    REQUIRE(state.ok());
    return !state.value().locked_by.empty();
}

LockoutStep step_of(Shop& shop) {
    const auto state = lockout_of(*shop.site->db, "SW-14");
    REQUIRE(state.ok());
    return state.value() ? state.value()->step : LockoutStep::closed;
}

void to_lockout(Shop& shop, const char* badge) {
    shop.sign_on(badge);
    if (shop.page_id().starts_with("lockout/")) return;
    if (shop.page_id() == "floor") shop.tap("machine:SW-14");
    shop.tap("lockout");
}

// Whether a binder of this scope holds the paper.
bool has_paper(Shop& shop, const BinderScope& scope, const std::string& path) {
    const KioskKey key = kiosk_key_of(Bytes(32, 9)).value();
    const BinderMaterial material{*shop.site->db, *shop.site->ledger, shop.site->content,
                                  shop.site->zone, key, scope, shop.clock.now_ms(), nullptr};
    bool found = false;
    REQUIRE(papers(material, [&](const BinderFile& file) -> Result<void> {
        found = found || file.path == path;
        return {};
    }).ok());
    return found;
}

void second_person(Shop& shop, const char* badge) {
    shop.tap("done");
    shop.badge(badge);
    shop.pin_of(badge);
}

// The next thing that the page asks of the key holder, done as it should be.
void go_on(Shop& shop) {
    const std::string id = shop.page_id();
    const LockoutStep step = step_of(shop);
    if (id == "lockout/SW-14") return shop.tap("job:me");
    if (step == LockoutStep::propping) return shop.tap("reading:fine");
    if (step == LockoutStep::relieving) {
        const auto state = lockout_of(*shop.site->db, "SW-14");
        if (!next_stored(*state.value()).empty()) return shop.tap("done");
        second_person(shop, kSupervisor);
        shop.tap("reading:fine");
        return;
    }
    if (step == LockoutStep::locking) {
        shop.tap("done");
        shop.tap("main", "L-07");
        return shop.pin_of(kMechanic);
    }
    if (step == LockoutStep::trying) {
        shop.tap("reading:fine");
        return shop.pin_of(kMechanic);
    }
    if (step == LockoutStep::working) {
        shop.tap("clear");
        for (const char* item : {"tools", "guards", "people"}) shop.tap(item);
        shop.tap("main");
        shop.tap("main", "1");
        return shop.pin_of(kMechanic);
    }
    if (step == LockoutStep::unlocking) {
        shop.tap("off");
        return shop.pin_of(kMechanic);
    }
    if (step == LockoutStep::closing || step == LockoutStep::reviewing ||
        step == LockoutStep::lift_off) {
        shop.tap("done");
        return shop.pin_of(kMechanic);
    }
    shop.tap("done");
}

void to_step(Shop& shop, LockoutStep wanted) {
    for (int i = 0; i < 60 && (step_of(shop) != wanted); ++i) go_on(shop);
    REQUIRE(step_of(shop) == wanted);
}

}  // namespace

TEST_SUITE("lockout flow") {
    TEST_CASE("a lockout cut off after each of its entries goes on where it was, machine held") {
        Shop shop;
        to_lockout(shop, kMechanic);
        std::size_t cuts = 0;
        go_on(shop);
        REQUIRE(held(shop));
        while (step_of(shop) != LockoutStep::closed) {
            REQUIRE(cuts++ < 60);
            const std::string before = shop.page_id();
            const auto state = lockout_of(*shop.site->db, "SW-14").value();
            shop.restart();
            REQUIRE(shop.site->book->rebuild().ok());
            CHECK(held(shop));
            const auto again = lockout_of(*shop.site->db, "SW-14").value();
            CHECK(*again == *state);
            to_lockout(shop, kMechanic);
            if (step_of(shop) != LockoutStep::relieving) CHECK(shop.page_id() == before);
            go_on(shop);
        }
        MESSAGE("cut off " << cuts << " times");
        CHECK_FALSE(held(shop));
        CHECK(shop.page_id() == "machine/SW-14");
        CHECK(shop.count_of("lockout-closed") == 1);
        CHECK(shop.count_of("prop-seen") == 2);
        CHECK(shop.count_of("prop-stowed") == 2);
    }

    TEST_CASE("without the permit no full lockout begins, and no action out of order counts") {
        Shop shop;
        to_lockout(shop, kOperator);
        shop.tap("job:me");
        CHECK_FALSE(held(shop));
        shop.app->act({"back", ""});
        Shop other;
        to_lockout(other, kMechanic);
        to_step(other, LockoutStep::shutdown);
        const auto size = other.site->ledger->size();
        for (const char* id : {"clear", "off", "look", "moved", "test", "over", "reading:fine",
                               "join", "absent:p-brandt", "close"}) {
            other.tap(id);
            CHECK(step_of(other) == LockoutStep::shutdown);
        }
        CHECK(other.site->ledger->size() == size);
    }

    TEST_CASE("a look that is missed comes up over everything, sounds, and holds the work") {
        Shop shop;
        to_lockout(shop, kMechanic);
        to_step(shop, LockoutStep::working);
        const Page board = shop.app->page();
        CHECK(shop.shows("Look again by"));
        const auto due = due_ms(*lockout_of(*shop.site->db, "SW-14").value());
        CHECK(board.next_change_ms <= due);
        shop.clock.pass(29 * 60'000);
        shop.app->page();
        CHECK(step_of(shop) == LockoutStep::working);
        to_lockout(shop, kMechanic);
        shop.tap("look");
        CHECK(shop.count_of("lockout-reverified") == 1);
        shop.clock.pass(29 * 60'000 + 50'000);
        CHECK(shop.app->page().sound == Sound::none);
        shop.clock.pass(20'000);
        const Page alarm = shop.app->page();
        CHECK(alarm.id == "leave-zone/SW-14");
        CHECK(alarm.sound == Sound::leave_zone);
        CHECK_FALSE(alarm.silent.empty());
        CHECK(alarm.next_change_ms - shop.clock.now_ms() <= 2000);
        CHECK(shop.count_of("reverify-missed") == 1);
        CHECK(held(shop));
        shop.tap("sign-on");
        shop.tap("machine:SW-15");
        CHECK(shop.page_id() == "leave-zone/SW-14");
        shop.restart();
        CHECK(shop.page_id() == "leave-zone/SW-14");
        shop.tap("help");
        CHECK(shop.page_id() == "emergency");
        CHECK(shop.app->page().sound == Sound::leave_zone);  // the emergency page quiets nothing
        shop.tap("back");
        shop.tap("all-out");
        shop.badge(kOperator);
        shop.tap("main", "0.5");
        CHECK(shop.shows("Count again"));
        shop.tap("back");
        shop.tap("main", "0");
        CHECK(shop.shows("Somebody is missing"));
        CHECK(shop.app->page().sound == Sound::leave_zone);  // nor does counting
        shop.tap("back");
        shop.tap("main", "1");
        shop.pin_of(kOperator);
        CHECK(shop.page_id() == "floor");
        CHECK(step_of(shop) == LockoutStep::looking);
        CHECK(shop.app->page().sound == Sound::none);
        to_lockout(shop, kMechanic);
        shop.tap("reading:fine");
        CHECK(step_of(shop) == LockoutStep::working);
        CHECK(shop.count_of("reverify-missed") == 1);
    }

    TEST_CASE("a look that is missed shows and sounds where nothing can be written any more") {
        Shop shop;
        to_lockout(shop, kMechanic);
        to_step(shop, LockoutStep::working);
        shop.tap("sign-off");
        REQUIRE(shop.site->db->execute("PRAGMA query_only = ON").ok());
        shop.clock.pass(29 * 60'000);
        CHECK(shop.page().sound == Sound::none);
        shop.clock.pass(90'000);
        for (int i = 0; i < 3; ++i) {
            const Page alarm = shop.page();
            CHECK(alarm.id == "leave-zone/SW-14");
            CHECK(alarm.sound == Sound::leave_zone);
            shop.clock.pass(2'000);
        }
        CHECK(shop.count_of("reverify-missed") == 0);
        REQUIRE(shop.site->db->execute("PRAGMA query_only = OFF").ok());
        CHECK(shop.page().id == "leave-zone/SW-14");
        CHECK(shop.count_of("reverify-missed") == 1);
    }

    TEST_CASE("a lock belongs to one person, in every lockout after it") {
        Shop shop;
        to_lockout(shop, kMechanic);
        to_step(shop, LockoutStep::working);
        shop.tap("back");
        shop.tap("back");
        shop.tap("sign-off");
        to_lockout(shop, kSupervisor);
        shop.tap("join");
        shop.tap("main", "L-07");
        CHECK(shop.shows("belongs to N. Ferreira-Kask"));
        shop.tap("main");
        shop.tap("main", "L-11");
        shop.pin_of(kSupervisor);
        CHECK(lockout_of(*shop.site->db, "SW-14").value()->locks.size() == 2);
        CHECK(owner_of_lock(*shop.site->db, "L-11").value() == "p-brandt");
    }

    TEST_CASE("a lock of somebody else is refused wherever the deed comes from") {
        Shop shop;
        to_lockout(shop, kMechanic);
        to_step(shop, LockoutStep::locking);
        REQUIRE(shop.site->db->execute("INSERT INTO s_padlock VALUES('L-99','p-brandt',1)").ok());
        Session session(shop.site->world());
        LockoutEvent event;
        event.deed = LockoutDeed::place_lock;
        event.by = lockout_of(*shop.site->db, "SW-14").value()->lead;
        event.item = "L-99";
        const auto entered = enter_deed(session, "SW-14", event, "my-lock-is-on");
        REQUIRE_FALSE(entered.ok());
        CHECK(entered.error().kind == ErrorKind::refused);
        event.item = "L-98";
        CHECK(enter_deed(session, "SW-14", event, "my-lock-is-on").ok());
    }

    TEST_CASE("the key of a rinse goes only to somebody who may lead it") {
        Shop shop;
        to_lockout(shop, kOperator);
        shop.tap("job:nothing");
        REQUIRE(step_of(shop) == LockoutStep::shutdown);
        for (const auto& [badge, taken] : {std::pair{"H-2316", 0U}, std::pair{kMechanic, 1U}}) {
            shop.tap("board");
            shop.tap("over");
            shop.badge(badge);
            if (taken == 0U) {
                CHECK(shop.shows("is not current on this machine"));
                shop.tap("main");
                shop.tap("back");
            } else {
                shop.pin_of(kOperator);
                shop.pin_of(badge);
            }
            CHECK(shop.count_of("lock-handed-over") == taken);
        }
    }

    TEST_CASE("whose training under the hopper has run out neither leads a lockout nor joins one") {
        Shop shop;
        Fact fact{"refresher-opened", {"p-delgado-ruud"}, "", 0, {}};
        fact.data = {{"person", "p-brandt"},
                     {"class", "ride-on-scrubber-lp"},
                     {"topics", std::vector<std::string>{"raised-hopper"}}};
        REQUIRE(shop.site->book->enter(fact).ok());
        to_lockout(shop, kSupervisor);
        const Page begins = shop.page();
        for (const Tile& tile : std::get<GridBody>(begins.body).tiles) {
            if (tile.id != "job:me") continue;
            CHECK_FALSE(tile.enabled);
            CHECK(tile.why_not.starts_with("Training for this work has run out"));
        }
        shop.tap("job:me");
        CHECK(step_of(shop) == LockoutStep::closed);
        shop.restart();
        to_lockout(shop, kMechanic);
        to_step(shop, LockoutStep::working);
        shop.restart();
        to_lockout(shop, kSupervisor);
        CHECK(shop.page_id() == "lockout/SW-14/board/working");
        shop.tap("join");
        CHECK(shop.page_id() == "lockout/SW-14/board/working");
    }

    TEST_CASE("supervisors who are not current take no lock off for an absent owner") {
        Shop shop;
        to_lockout(shop, kMechanic);
        to_step(shop, LockoutStep::working);
        shop.restart();
        const MachineClass* sweeps = shop.site->content.pack.machine_class("ride-on-scrubber-lp");
        for (const char* person : {"p-brandt", "p-delgado-ruud"}) {
            Fact fact{"refresher-opened", {"p-nowak-silva"}, "", 0, {}};
            fact.data = {{"person", person},
                         {"class", sweeps->id},
                         {"topics", std::vector<std::string>{sweeps->topics.front().id}}};
            REQUIRE(shop.site->book->enter(fact).ok());
        }
        to_lockout(shop, kSupervisor);
        shop.tap("absent:p-ferreira-kask");
        for (const char* item : {"not-here", "tried-to-reach", "will-be-told"}) shop.tap(item);
        shop.tap("main");
        shop.badge(kOther);
        CHECK(shop.shows("a supervisor whose training is current"));
        CHECK(shop.count_of("lock-removed-for-absent") == 0);
    }

    TEST_CASE("the owner of a lock that was taken off is told before anything else") {
        Shop shop;
        to_lockout(shop, kMechanic);
        to_step(shop, LockoutStep::working);
        shop.restart();
        to_lockout(shop, kSupervisor);
        shop.tap("absent:p-ferreira-kask");
        for (const char* item : {"not-here", "tried-to-reach", "will-be-told"}) shop.tap(item);
        shop.tap("main");
        shop.badge(kOther);
        shop.pin_of(kSupervisor);
        shop.pin_of(kOther);
        CHECK(shop.count_of("lock-removed-for-absent") == 1);
        CHECK(step_of(shop) == LockoutStep::locking);
        CHECK(held(shop));
        shop.tap("over");  // the key is the supervisor's now; its owner of before is no second yet
        shop.tap("board");
        shop.tap("over");
        shop.badge(kMechanic);
        CHECK(shop.shows("signs on first"));
        shop.restart();
        shop.sign_on(kMechanic);
        CHECK(shop.page_id() == "lock-removed");
        shop.tap("machine:SW-14");
        CHECK(shop.page_id() == "lock-removed");
        LockoutEvent lock;
        lock.deed = LockoutDeed::place_lock;
        lock.by = "p-ferreira-kask";
        lock.item = "L-07";
        Session untold(shop.site->world());
        const auto placed = enter_deed(untold, "SW-14", lock, "my-lock-is-on");
        REQUIRE_FALSE(placed.ok());
        CHECK(placed.error().what.find("not told") != std::string::npos);
        shop.restart();
        shop.sign_on(kMechanic);
        CHECK(shop.page_id() == "lock-removed");
        shop.tap("sign");
        shop.pin_of(kMechanic);
        CHECK(shop.page_id() == "floor");
        CHECK(shop.count_of("lock-removal-acknowledged") == 1);
        shop.restart();
        shop.sign_on(kMechanic);
        CHECK(shop.page_id() == "floor");
    }

    TEST_CASE("whoever may operate the machine hears once that a lockout of it is over") {
        Shop shop;
        to_lockout(shop, kMechanic);
        to_step(shop, LockoutStep::working);
        to_step(shop, LockoutStep::closed);
        shop.restart();
        for (const auto& [badge, told] : {std::pair{kOperator, 1U}, std::pair{kOperator, 1U},
                                          std::pair{kMechanic, 1U}, std::pair{"H-1093", 2U}}) {
            shop.sign_on(badge);
            CHECK(shop.count_of("lockout-over-told") == told);
            shop.restart();
        }
    }

    TEST_CASE("a procedure is inspected by somebody who does not use it") {
        Shop shop;
        to_lockout(shop, kMechanic);
        CHECK(shop.shows("Nobody has inspected this procedure"));
        to_step(shop, LockoutStep::working);
        shop.restart();
        const auto at_desk = [&](const char* badge) {
            shop.restart();
            shop.sign_on(badge);
            while (shop.page_id() != "floor") shop.tap("back");
            shop.tap("desk");
            shop.pin_of(badge);
            if (shop.page_id() == "message") shop.tap("main");
            shop.tap("desk:machines");
            shop.tap("machine:SW-14");
            shop.tap("inspect-procedure");
        };
        at_desk(kMechanic);
        CHECK(shop.page_id() == "desk/machine/SW-14");  // grey for its user
        at_desk(kSupervisor);
        CHECK(shop.page_id() == "desk/inspect-people");
        shop.tap("p-ferreira-kask");
        shop.tap("main");
        shop.tap("main", "Nothing to change");
        shop.pin_of(kSupervisor);
        REQUIRE(shop.count_of("lockout-procedure-inspected") == 1);
        const Entry entry = shop.entries().back();
        CHECK(entry.data.at("machine") == "SW-14");
        CHECK(entry.data.at("machine_class") == "ride-on-scrubber-lp");
        CHECK(entry.data.at("procedure") == "lockout");
        CHECK(entry.data.at("people") == std::vector<std::string>{"p-ferreira-kask"});
        CHECK(entry.data.at("remarks").get<std::string>().size() == 64);
        // Machine, employees included and inspector: 29 CFR 1910.147(c)(6)(ii), from memory.
        const std::string certificate = "papers/lockout-" + std::to_string(entry.n) + ".pdf";
        const std::string inspector = entry.by.front();
        CHECK(has_paper(shop, {{}, {}, "", "SW-14"}, certificate));
        CHECK(has_paper(shop, {{}, {}, "p-ferreira-kask", ""}, certificate));
        CHECK(has_paper(shop, {{}, {}, inspector, ""}, certificate));
        CHECK_FALSE(has_paper(shop, {{}, {}, "", "SW-21"}, certificate));
        CHECK_FALSE(has_paper(shop, {{}, {}, "p-okafor-lind", ""}, certificate));
    }

    TEST_CASE("an old bare lock still holds, and its owner takes it off at the desk") {
        Shop shop;
        Fact fact;
        fact.kind = "lockout-placed";
        fact.by = {"p-ferreira-kask"};
        fact.data = {{"machine", "SW-14"}};
        REQUIRE(shop.site->book->enter(fact).ok());
        CHECK(held(shop));
        fact.kind = "lockout-removed";
        REQUIRE(shop.site->book->enter(fact).ok());
        CHECK_FALSE(held(shop));
    }
}
