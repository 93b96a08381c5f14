// Time stamps over seals: asked for while the kiosk runs, carried by hand, and in a binder.
#include "cli/time_stamps.hpp"

#include <doctest/doctest.h>

#include <chrono>
#include <thread>

#include "binder/check.hpp"
#include "example_site.hpp"
#include "ledger/base64.hpp"
#include "ledger/seal.hpp"
#include "ledger/time_stamp.hpp"
#include "run_program.hpp"
#include "support/time_authority.hpp"

using namespace holdpin;

namespace {

std::vector<std::string> words_of(const std::string& command) { return split(command, ' '); }

struct Stamping : ExampleSite {
    Stamping() { REQUIRE(init().ok()); }

    StampWatch::Parts parts(OpenSite& site, const std::string& command) {
        return {*site.book, clock, words_of(command), temp.path().string(),
                [this] { return doubtful; }, [this](const Error& error) { said.push_back(error); }};
    }
    // Until one try came to its end.
    bool step_through(StampWatch& watch) {
        const auto asked = said.size();
        if (watch.step()) return true;
        for (int i = 0; i < 3000 && said.size() == asked; ++i) {
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
            if (watch.step()) return true;
        }
        return false;
    }
    Entry last(OpenSite& site) {
        return site.ledger->at(static_cast<std::int64_t>(site.ledger->size())).value();
    }
    std::string words() const { return " --data " + data + " --seal-copy " + (temp / "copies"); }
    bool doubtful = false;
    std::vector<Error> said;
};

}  // namespace

TEST_CASE("a running kiosk has its newest seal stamped once a day, and keeps the reply") {
    const TimeAuthority authority;
    Stamping example;
    const auto site = example.open().value();
    StampWatch watch(example.parts(*site, authority.command("{query}")));
    const auto sealed = newest_kept_seal(*site->db).value().value();
    REQUIRE(example.step_through(watch));
    const Entry kept = example.last(*site);
    CHECK(kept.kind == "seal-stamped");
    CHECK(kept.by.empty());
    CHECK(kept.data["size"] == sealed.size);
    CHECK(kept.data["root"] == hex(sealed.root));
    CHECK(kept.data["time"].get<std::string>().size() >= 20);
    CHECK(from_base64(kept.data["reply"].get<std::string>()).value().size() > 500);
    CHECK_FALSE(std::filesystem::exists(example.temp / "time-stamp.tsq"));
    CHECK_FALSE(std::filesystem::exists(example.temp / "time-stamp.tsr"));

    const auto size = site->ledger->size();
    example.clock.pass(23 * 3'600'000);
    CHECK_FALSE(watch.step());
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
    CHECK_FALSE(watch.step());
    CHECK(site->ledger->size() == size);
    // A kiosk that began anew does not ask again before that.
    StampWatch again(example.parts(*site, "touch " + (example.temp / "asked")));
    CHECK_FALSE(again.step());
    example.clock.pass(3'600'000);
    CHECK(example.step_through(watch));
    CHECK(site->ledger->size() > size);
    CHECK(example.said.empty());
    CHECK_FALSE(std::filesystem::exists(example.temp / "asked"));
    // But where that time was written under a clock that was wrong, it does.
    example.clock.set_wall(example.clock.now_ms() - 10 * 86'400'000LL);
    {
        StampWatch set_right(example.parts(*site, "touch " + (example.temp / "asked")));
        CHECK_FALSE(set_right.step());
    }
    CHECK(std::filesystem::exists(example.temp / "asked"));
}

TEST_CASE("where nobody stamps, that is said once, and tried again in an hour") {
    Stamping example;
    const auto site = example.open().value();
    const auto size = site->ledger->size();
    const std::string asked = example.temp / "asked";
    REQUIRE(write_file(example.temp / "ask", "#!/bin/sh\necho >> " + asked + "\nexit 1\n").ok());
    std::filesystem::permissions(example.temp / "ask", std::filesystem::perms::owner_all);
    const auto tries = [&] { return read_file(asked).value_or("").size(); };
    const auto wait_for_tries = [&](StampWatch& watch, std::size_t wanted) {
        for (int i = 0; i < 3000 && tries() < wanted; ++i) {
            watch.step();
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
        }
        return tries();
    };
    {
        StampWatch nobody(example.parts(*site, (example.temp / "ask") + " {query}"));
        CHECK_FALSE(example.step_through(nobody));
        CHECK(tries() == 1);
        REQUIRE(example.said.size() == 1);
        example.clock.pass(3'500'000);
        CHECK_FALSE(nobody.step());
        example.clock.pass(200'000);
        CHECK(wait_for_tries(nobody, 2) == 2);
    }
    CHECK(example.said.size() == 1);
    CHECK(tries() == 2);

    example.clock.pass(3'700'000);
    StampWatch nonsense(example.parts(*site, "cat {query}"));
    CHECK_FALSE(example.step_through(nonsense));
    REQUIRE(example.said.size() == 2);
    CHECK(example.said[1].sentence().find("no reply of a time stamp authority") !=
          std::string::npos);
    CHECK(site->ledger->size() == size);
}

TEST_CASE("while the records are in doubt nothing is stamped, and no reply is kept") {
    const TimeAuthority authority;
    Stamping example;
    const auto site = example.open().value();
    const auto size = site->ledger->size();
    example.doubtful = true;
    {
        StampWatch in_doubt(example.parts(*site, "touch " + (example.temp / "asked")));
        CHECK_FALSE(in_doubt.step());
    }
    CHECK_FALSE(std::filesystem::exists(example.temp / "asked"));

    example.doubtful = false;
    StampWatch watch(example.parts(*site, authority.command("{query}")));
    CHECK_FALSE(watch.step());  // asks
    example.doubtful = true;
    CHECK_FALSE(example.step_through(watch));
    REQUIRE(example.said.size() == 1);
    CHECK(example.said[0].kind == ErrorKind::refused);
    CHECK(site->ledger->size() == size);
}

TEST_CASE("a query is carried out and its reply in, and a stranger checks both in a binder") {
    const TimeAuthority authority;
    Stamping example;
    const std::string words = example.words();
    const std::string query = example.temp / "query.tsq";
    const std::string reply = example.temp / "reply.tsr";
    REQUIRE(run("ledger stamp-query " + query + words).code == 0);
    REQUIRE(run_shell(authority.command(query) + " -out " + reply + " 2>/dev/null").code == 0);
    const Ran kept = run("ledger stamp-reply " + reply + words, true);
    REQUIRE_MESSAGE(kept.code == 0, kept.said);
    const std::string out = example.temp / "binder";
    REQUIRE(run("binder make " + out + words).code == 0);
    const Ran checked = run("binder check " + out, true);
    CHECK_MESSAGE(checked.code == 0, checked.said);
    CHECK(checked.said.find("Time stamps over seals: 1.") != std::string::npos);

    std::string stamp;
    for (const auto& item : std::filesystem::directory_iterator(out + "/stamps")) {
        stamp = item.path().stem().string();
    }
    REQUIRE(stamp.size() == 10);
    const std::string verify = "openssl ts -verify -in " + out + "/stamps/" + stamp +
                               ".tsr -CAfile " + authority.certificate() + " -data ";
    CHECK(run_shell(verify + out + "/seals/" + stamp + ".json 2>&1").code == 0);
    CHECK(run_shell(verify + out + "/key.pem 2>&1").code != 0);
    CHECK(run("ledger check" + words).code == 0);

    // A second word on the same seal stands beside the first.
    REQUIRE(run_shell(authority.command(query) + " -out " + reply + " 2>/dev/null").code == 0);
    REQUIRE(run("ledger stamp-reply " + reply + words).code == 0);
    REQUIRE(run("binder make " + out + "-2" + words).code == 0);
    CHECK(run("binder check " + out + "-2").said.find("Time stamps over seals: 2.") !=
          std::string::npos);
    CHECK(std::filesystem::exists(out + "-2/stamps/" + stamp + "-2.tsr"));
}

TEST_CASE("a reply over anything else is refused, and enters nothing") {
    const TimeAuthority authority;
    Stamping example;
    const std::string words = example.words();
    const auto size = [&] { return example.open().value()->ledger->size(); };
    const auto before = size();
    const std::string reply = example.temp / "reply.tsr";
    REQUIRE(write_file(reply, authority.reply_to(stamp_query(sha256("something else")))).ok());
    const Ran strange = run("ledger stamp-reply " + reply + words, true);
    CHECK(strange.code == 1);
    CHECK_MESSAGE(strange.said.find("over no seal of this kiosk") != std::string::npos,
                  strange.said);
    REQUIRE(write_file(reply, "no reply").ok());
    const Ran nonsense = run("ledger stamp-reply " + reply + words, true);
    CHECK(nonsense.code == 1);
    CHECK_MESSAGE(nonsense.said.find("no reply of a time stamp authority") != std::string::npos,
                  nonsense.said);
    CHECK(run("ledger stamp-reply " + (example.temp / "absent") + words, true).code == 1);
    CHECK(size() == before);
}
