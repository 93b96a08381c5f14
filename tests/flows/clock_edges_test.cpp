// Age limits and times of day, each with the clock one step before its edge and on it. Those that a
// rule decides alone are tried beside the rule; DEVELOPERS.md lists all of them.
#include <doctest/doctest.h>

#include "flows/air.hpp"
#include "flows/air_reading.hpp"
#include "flows/guide.hpp"
#include "flows/lockout_rights.hpp"
#include "flows/lockout_work.hpp"
#include "flows/shift_book.hpp"
#include "records/records.hpp"
#include "shop.hpp"
#include "times.hpp"

using namespace holdpin;

namespace {

constexpr std::int64_t kHour = 60 * kMinute;
constexpr const char* kSweeper = "ride-on-scrubber-lp";
// The site's midnight in winter: 06:00 in universal time (IANA database, America/Chicago).
constexpr std::int64_t kMidnight = kShopStart - 365 * kMinute;

// A site whose clock shows `at_ms` while its records are of the shop's start.
struct At {
    Shop shop;
    Session session{shop.site->world()};

    void set(std::int64_t at_ms) { shop.clock.set_wall(at_ms); }
    void enter(const char* kind, nlohmann::json data) {
        Fact fact;
        fact.kind = kind;
        fact.by = {"p-ferreira-kask"};
        fact.data = std::move(data);
        REQUIRE(shop.site->book->enter(fact).ok());
    }
};

constexpr const char* kGuide = "raised-hopper";

// A person's way through the guide and its quiz.
struct Learner {
    At& at;
    std::unique_ptr<Flow> flow;

    Learner(At& where, const std::string& id, const std::string& language = "") : at(where) {
        Person person = person_with(at.session.db(), id).value().value();
        if (!language.empty()) person.language = language;
        at.session.open_person(std::move(person));
        auto opened = GuideFlow::open(at.session, kGuide);
        REQUIRE(opened.ok());
        flow = std::move(opened).value();
    }
    Page page() { return flow->page(at.session).value(); }
    bool is_on(const std::string& prefix) { return page().id.starts_with(prefix); }
    void tap(const std::string& id) { REQUIRE(flow->act(at.session, {id, ""}).ok()); }
    void read() {
        for (int i = 0; i < 100 && is_on("guide/"); ++i) tap("next");
    }
    void answer_wrongly() {
        const Quiz& quiz = *at.session.pack().quiz(at.session.pack().guide(kGuide)->quiz);
        for (int i = 0; i < 100 && is_on("quiz/"); ++i) {
            const std::string id = page().id;
            for (const Question& question : quiz.questions) {
                if (!id.ends_with("/" + question.id)) continue;
                tap(question.choices.front().right ? "choice:1" : "choice:0");
            }
            tap("next");
        }
    }
};

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("a reading says what the air is for an hour, and then nothing") {
        // How long one reading stands for a room: site rule, no source.
        At at;
        World world = at.shop.site->world();
        REQUIRE(enter_device_reading(world, "dock-hall", 12, "CO-9", kShopStart).ok());
        const Room& hall = *at.session.content().room("dock-hall");
        at.set(kShopStart + kHour);
        REQUIRE(air_now(at.session, "dock-hall").value().last);
        CHECK(air_now(at.session, "dock-hall").value().last->ppm == 12);
        CHECK(measured_now(at.session, hall).value());
        at.set(kShopStart + kHour + 1);
        CHECK_FALSE(air_now(at.session, "dock-hall").value().last);
        CHECK_FALSE(measured_now(at.session, hall).value());
    }

    TEST_CASE("the code for the shift book is shown in the first and last half hour of a shift") {
        At at;
        const std::int64_t begin = kMidnight + 6 * kHour;
        const std::int64_t end = begin + 8 * kHour;
        for (const auto& [at_ms, is_change] :
             {std::pair{begin, true}, {begin + 30 * kMinute - 1, true},
              {begin + 30 * kMinute, false}, {end - 30 * kMinute, false},
              {end - 30 * kMinute + 1, true}}) {
            CAPTURE(at_ms - begin);
            at.set(at_ms);
            CHECK(is_shift_change(at.session) == is_change);
        }
    }

    TEST_CASE("a round counts for the coming shift from half an hour before it begins") {
        At at;
        const std::int64_t late = kMidnight + 14 * kHour;
        at.set(late - 30 * kMinute - 1);
        CHECK(at.session.work_end_ms() == late);
        at.set(late - 30 * kMinute);
        CHECK(at.session.work_end_ms() == late + 8 * kHour);
    }

    TEST_CASE("where no shift runs or comes, a release ends after eight hours") {
        At at;
        at.shop.site->content.site.shifts.clear();
        CHECK(at.session.work_end_ms() == at.session.now() + 8 * kHour);
    }

    TEST_CASE("the colours are those of the night from nine in the evening to six") {
        At at;
        for (const auto& [hour, before] : {std::pair{6, true}, {21, false}}) {
            at.set(kMidnight + hour * kHour - 1);
            CHECK(at.session.night() == before);
            at.set(kMidnight + hour * kHour);
            CHECK(at.session.night() != before);
        }
    }

    TEST_CASE("an assessment for an arm alone counts for a year, to the end of its day") {
        // How long a written assessment counts: site rule, no source.
        At at;
        CHECK_FALSE(arm_alone_assessed(at.session, kSweeper).value());
        at.enter("arm-alone-assessed", {{"machine_class", kSweeper}});
        at.set(kMidnight + 366 * 24 * kHour - 1);
        CHECK(arm_alone_assessed(at.session, kSweeper).value());
        at.set(kMidnight + 366 * 24 * kHour);
        CHECK_FALSE(arm_alone_assessed(at.session, kSweeper).value());
    }

    TEST_CASE("a procedure says that its inspection is over on the day after a year") {
        // At least yearly: 1910.147(c)(6)(i), from memory.
        Shop shop;
        Fact fact;
        fact.kind = "lockout-procedure-inspected";
        fact.by = {"p-ferreira-kask"};
        fact.data = {{"machine_class", kSweeper}, {"procedure", "lockout"}};
        REQUIRE(shop.site->book->enter(fact).ok());
        const auto says_over = [&](std::int64_t at_ms) {
            shop.clock.pass(at_ms - shop.clock.now_ms() - 5000);
            shop.restart();
            shop.sign_on("H-1435");
            shop.tap("machine:SW-14");
            shop.tap("lockout");
            REQUIRE(shop.page_id() == "lockout/SW-14");
            return shop.shows("inspection ran out on 25 Nov 2027");
        };
        CHECK_FALSE(says_over(kMidnight + 366 * 24 * kHour - 1));
        CHECK(says_over(kMidnight + 366 * 24 * kHour + kMinute));
    }

    TEST_CASE("a failed quiz opens again for the same person when the site's minutes are over") {
        // How long: the site's rule, no source.
        for (const std::string language : {"en", "es"}) {
            At at;
            at.shop.site->content.site.policy.quiz_retry_minutes = 45;
            Learner first(at, "p-quispe-moran", language);
            const std::string opens = at.session.say()(
                "quiz.opens-again", {{"time", at.session.when(kShopStart + 45 * kMinute)}});
            first.read();
            first.answer_wrongly();
            REQUIRE(first.is_on("quiz-result/"));
            CHECK(is_shown(texts_of(first.page()), opens));

            at.set(kShopStart + 44 * kMinute);
            Learner early(at, "p-quispe-moran", language);
            REQUIRE(early.is_on("guide/"));
            early.read();
            REQUIRE(early.is_on("quiz-waits/"));
            CHECK(is_shown(texts_of(early.page()), opens));
            CHECK(is_shown(texts_of(early.page()), at.session.say()("quiz.meanwhile")));
            early.tap("next");
            CHECK(early.is_on("quiz-waits/"));
            early.tap("again");
            CHECK(early.is_on("guide/"));
            early.read();

            Learner other(at, "p-okafor-lind");
            other.read();
            CHECK(other.is_on("quiz/"));

            at.set(kShopStart + 45 * kMinute);
            Learner late(at, "p-quispe-moran", language);
            REQUIRE(late.is_on("quiz-waits/"));
            CHECK_FALSE(is_shown(texts_of(late.page()), opens));
            late.tap(late.page().main.id);
            CHECK(late.is_on("quiz/"));
        }
    }

    TEST_CASE("a site that sets no minutes lets a failed quiz be tried again at once") {
        At at;
        REQUIRE(at.session.content().site.policy.quiz_retry_minutes == 0);
        Learner learner(at, "p-quispe-moran");
        learner.read();
        learner.answer_wrongly();
        REQUIRE(learner.is_on("quiz-result/"));
        learner.tap("again");
        learner.read();
        CHECK(learner.is_on("quiz/"));
    }

    TEST_CASE("whoever has a machine is told thirty days before an evaluation ends") {
        // Every three years: 1910.178(l)(4)(iii), read in a secondary copy; evaluated 2026-07-28.
        for (const auto& [day, is_told] :
             {std::pair{Date{2029, 6, 27}, false}, {{2029, 6, 28}, true}, {{2029, 7, 28}, true},
              {{2029, 7, 29}, false}}) {
            CAPTURE(iso_date(day));
            Shop shop;
            shop.clock.pass(shop.site->zone.instant(day, 370) - shop.clock.now_ms());
            Fact fact;
            fact.kind = "release-given";
            fact.by = {"p-okafor-lind"};
            fact.data = {{"machine", "SW-14"}, {"person", "p-okafor-lind"}, {"room", "dock-hall"},
                         {"until_ms", shop.clock.now_ms() + kHour}, {"round", 1}};
            REQUIRE(shop.site->book->enter(fact).ok());
            shop.sign_on("H-1042");
            shop.tap("machine:SW-14");
            REQUIRE(shop.page_id() == "handed/SW-14");
            CHECK(shop.shows("Your evaluation ends on 28 Jul 2029") == is_told);
        }
    }
}
