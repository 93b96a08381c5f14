#include "store/tables.hpp"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include "store/scratch.hpp"

using namespace holdpin;

TEST_CASE("a draft is kept, kept anew, listed by its beginning and dropped") {
    const auto db = opened(":memory:");
    REQUIRE(keep_draft(*db, {"round/SW-14", "{}", 1}));
    REQUIRE(keep_draft(*db, {"round/SW-14", R"({"point":2})", 2}));
    REQUIRE(keep_draft(*db, {"round/SW-15", "{}", 3}));
    REQUIRE(keep_draft(*db, {"roundel", "{}", 4}));
    REQUIRE(keep_draft(*db, {"guide/p-a/x", "{}", 5}));

    const auto found = find_draft(*db, "round/SW-14");
    REQUIRE(found);
    REQUIRE(found.value());
    CHECK(found.value()->body == R"({"point":2})");
    CHECK(found.value()->at_ms == 2);

    const auto rounds = drafts_under(*db, "round/");
    REQUIRE(rounds);
    REQUIRE(rounds.value().size() == 2);
    CHECK(rounds.value()[1].key == "round/SW-15");
    CHECK(drafts_under(*db, "").value().size() == 4);
    CHECK(drafts_under(*db, "%").value().empty());
    CHECK(drafts_under(*db, "ROUND/").value().empty());

    REQUIRE(drop_draft(*db, "round/SW-14"));
    CHECK_FALSE(find_draft(*db, "round/SW-14").value());
}

TEST_CASE("a private text is found by its hash, twice kept has two hashes, and can be erased") {
    const auto db = opened(":memory:");
    SeededRandom random(1);
    const std::string first = keep_private(*db, random, "a name", "p-a").value();
    const std::string second = keep_private(*db, random, "a name", "p-a").value();
    const std::string other = keep_private(*db, random, "another", "p-b").value();
    CHECK(first.size() == 64);
    CHECK(first != second);
    CHECK(private_text(*db, first).value() == "a name");

    REQUIRE(erase_private(*db, "p-a"));
    CHECK_FALSE(private_text(*db, first).value());
    CHECK_FALSE(private_text(*db, second).value());
    CHECK(private_text(*db, other).value() == "another");
    CHECK_FALSE(private_text(*db, std::string(64, '0')).value());
    CHECK(private_text(*db, "xyz").error().kind == ErrorKind::invalid);
}

TEST_CASE("the bytes of an erased text are in no file any more") {
    const Scratch scratch;
    const auto db = opened(scratch.path("a.db"));
    SeededRandom random(2);
    const std::string secret = "a text that is nowhere else";
    REQUIRE(keep_private(*db, random, secret, "p-a"));
    REQUIRE(db->checkpoint());
    REQUIRE(read_file(scratch.path("a.db")).value().find(secret) != std::string::npos);
    REQUIRE(erase_private(*db, "p-a"));
    CHECK(read_file(scratch.path("a.db")).value().find(secret) == std::string::npos);
    CHECK(read_file(scratch.path("a.db-wal")).value().find(secret) == std::string::npos);
}

TEST_CASE("a private text that was altered is not shown") {
    const auto db = opened(":memory:");
    SeededRandom random(3);
    const std::string hash = keep_private(*db, random, "not tested", "p-a").value();
    REQUIRE(db->execute("UPDATE private_text SET text = 'tested'"));
    CHECK_FALSE(private_text(*db, hash).value());
    CHECK(has_private_text(*db, hash).value());
    std::vector<std::string> altered;
    REQUIRE(each_altered_text(*db, [&](const std::string& one, const std::string& about) {
        altered = {one, about};
    }));
    CHECK(altered == std::vector<std::string>{hash, "p-a"});
}

TEST_CASE("content is kept once under its digest and never replaced") {
    const auto db = opened(":memory:");
    // SHA-256 by sha256sum.
    const std::string digest =
        "5e2b92cc57ce618dfbb54844a31775e4b95c6fb552ee6bf5a068133c12d2ad90";
    REQUIRE(keep_content(*db, digest, R"({"id":"x"})"));
    REQUIRE(keep_content(*db, digest, R"({"id":"x"})"));
    CHECK(keep_content(*db, digest, "{}").error().kind == ErrorKind::damaged);
    CHECK(content_of(*db, digest).value() == R"({"id":"x"})");
    CHECK_FALSE(content_of(*db, std::string(64, 'b')).value());
    CHECK_FALSE(keep_content(*db, "abcd", "{}"));
    REQUIRE(db->query("UPDATE content_blob SET canonical = x'7b7d'").run());
    CHECK(content_of(*db, digest).error().kind == ErrorKind::damaged);
}

TEST_CASE("a fact is set, set anew and read") {
    const auto db = opened(":memory:");
    CHECK_FALSE(fact(*db, "folded").value());
    REQUIRE(set_fact(*db, "folded", "17"));
    REQUIRE(set_fact(*db, "folded", "18"));
    CHECK(fact(*db, "folded").value() == "18");
}

TEST_CASE("the pepper is made once, for its owner only, and a damaged one is not replaced") {
    const Scratch scratch;
    SeededRandom random(4);
    CHECK(load_pepper(scratch.path("pepper")).error().kind == ErrorKind::absent);
    const auto made = make_pepper(scratch.path("pepper"), random);
    REQUIRE(made);
    CHECK(made.value().size() == 32);
    struct stat status {};
    REQUIRE(stat(scratch.path("pepper").c_str(), &status) == 0);
    CHECK((status.st_mode & 0777) == 0600);
    CHECK(load_pepper(scratch.path("pepper")).value() == made.value());
    REQUIRE(chmod(scratch.path("pepper").c_str(), 0640) == 0);
    const auto open = load_pepper(scratch.path("pepper"));
    REQUIRE_FALSE(open);
    CHECK(open.error().kind == ErrorKind::refused);
    CHECK(open.error().mend == "run: chmod 600 " + scratch.path("pepper"));
    REQUIRE(write_file(scratch.path("pepper"), "short", 0600));
    CHECK(load_pepper(scratch.path("pepper")).error().kind == ErrorKind::damaged);
}
