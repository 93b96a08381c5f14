// What is signed is frozen: the same item gives the same bytes, any change others.
#include <doctest/doctest.h>

#include <string>

#include "base/sha256.hpp"
#include "base/text.hpp"
#include "content/content.hpp"
#include "content/digest.hpp"
#include "sample.hpp"

using namespace holdpin;

namespace {

Loaded loaded_with(const Files& pack, const Files& assets = sample::assets()) {
    Loaded loaded = load_content(pack, assets, sample::site());
    REQUIRE_MESSAGE(loaded.ok(), sample::lines(loaded.faults));
    return loaded;
}

std::string digest_of(const Loaded& loaded, std::string_view kind, std::string_view id) {
    return loaded.content.pack.digest(kind, id);
}

}  // namespace

TEST_CASE("every item has frozen bytes and their SHA-256") {
    const Loaded loaded = loaded_with(sample::pack());
    for (const auto* key : {"round/mill-before", "round/mill-after", "guide/look-first",
                            "quiz/look-first", "class/mill", "sheet/crush", "strings/all",
                            "ruleset/footings", "ruleset/holds", "ruleset/duties", "site/shed"}) {
        REQUIRE_MESSAGE(loaded.frozen.contains(key), key);
        CHECK_FALSE(loaded.frozen.at(key).empty());
        CHECK(loaded.content.pack.digests.at(key) == hex(sha256(loaded.frozen.at(key))));
    }
    CHECK(loaded.frozen.size() == 11);
}

TEST_CASE("frozen bytes have the keys of the file in canonical order") {
    const Loaded loaded = loaded_with(sample::pack());
    CHECK(loaded.frozen.at("sheet/crush") ==
          "{\"act\":[{\"text\":{\"en\":\"Call for help.\",\"es\":\"Pida ayuda.\"}}],"
          "\"drawing\":\"wheel-whole\",\"drawings\":{\"illustrations/tiles/wheel-whole.svg\":\"" +
              hex(sha256("<svg/>")) +
              "\"},\"first\":{\"en\":\"Stop the machine.\",\"es\":\"Pare la máquina.\"},"
              "\"footing\":\"common-practice\",\"id\":\"crush\","
              "\"never\":[{\"text\":{\"en\":\"Do not pull.\",\"es\":\"No jale.\"}}],"
          "\"order\":1,"
              "\"tell\":{\"en\":\"Where you are.\",\"es\":\"Dónde está.\"},"
              "\"title\":{\"en\":\"Crushed\",\"es\":\"Aplastado\"}}");
}

TEST_CASE("a comment, a blank line or the order of keys changes no digest") {
    const Files same = sample::with(sample::pack(), "rounds/mill-before.toml",
                                    "kind = \"before\"\nclass = \"mill\"\n",
                                    "# A note.\n\nclass   =   \"mill\"\nkind = \"before\"\n");
    CHECK(loaded_with(same).content.pack.digests ==
          loaded_with(sample::pack()).content.pack.digests);
}

TEST_CASE("a word in either language, a flag or a drawing changes the digest of its item only") {
    const Loaded before = loaded_with(sample::pack());
    for (const auto& [from, to] : {std::pair{"Mire de lado.", "Mire bien."},
                                   std::pair{"takeover = true", "takeover = false"},
                                   std::pair{"most_rise = \"26\"", "most_rise = \"27\""}}) {
        const Loaded after =
            loaded_with(sample::with(sample::pack(), "rounds/mill-before.toml", from, to));
        CHECK(digest_of(after, "round", "mill-before") !=
              digest_of(before, "round", "mill-before"));
        CHECK(digest_of(after, "round", "mill-after") == digest_of(before, "round", "mill-after"));
        CHECK(digest_of(after, "guide", "look-first") == digest_of(before, "guide", "look-first"));
    }
    Files assets = sample::assets();
    assets["illustrations/mill.svg"] += " ";
    const Loaded redrawn = loaded_with(sample::pack(), assets);
    CHECK(digest_of(redrawn, "round", "mill-before") != digest_of(before, "round", "mill-before"));
    CHECK(digest_of(redrawn, "guide", "look-first") != digest_of(before, "guide", "look-first"));
    CHECK(digest_of(redrawn, "sheet", "crush") == digest_of(before, "sheet", "crush"));
}

TEST_CASE("the frozen site names nobody and holds no PIN") {
    const std::string bytes = loaded_with(sample::pack()).frozen.at("site/shed");
    for (const auto* word : {"Luz", "A. Sol", "B-2", "407193", "Ten years", "\"21\""}) {
        CHECK_MESSAGE(bytes.find(word) == std::string::npos, word);
    }
    CHECK(bytes.find("p-luz") != std::string::npos);
    CHECK(bytes.find("\"volume_m3\":\"900.5\"") != std::string::npos);
}

TEST_CASE("frozen items thaw into what they were") {
    const Loaded loaded = loaded_with(sample::pack());
    Pack thawed;
    for (const auto& [key, bytes] : loaded.frozen) {
        if (key.starts_with("round/")) thawed.rounds.push_back(thawed_round(bytes).value());
        if (key.starts_with("guide/")) thawed.guides.push_back(thawed_guide(bytes).value());
        if (key.starts_with("quiz/")) thawed.quizzes.push_back(thawed_quiz(bytes).value());
        if (key.starts_with("sheet/")) thawed.sheets.push_back(thawed_sheet(bytes).value());
    }
    CHECK(thawed.rounds.size() == 2);
    for (const auto& [key, bytes] : frozen_pack(thawed, sample::assets())) {
        if (key.starts_with("ruleset/") || key == "strings/all") continue;
        CHECK_MESSAGE(bytes == loaded.frozen.at(key), key);
    }
}

TEST_CASE("damaged frozen bytes do not thaw") {
    const Loaded loaded = loaded_with(sample::pack());
    const std::string bytes = loaded.frozen.at("round/mill-before");
    for (const std::string& bad :
         {std::string(), std::string("[]"), std::string("{}"), bytes.substr(0, bytes.size() - 1),
          loaded.frozen.at("sheet/crush"), std::string(100000, '[')}) {
        const auto round = thawed_round(bad);
        REQUIRE_FALSE(round.ok());
        CHECK(round.error().kind == ErrorKind::damaged);
    }
}
