// A small site with people, training, a round and a finding in memory, for tests of printed
// documents, and the programs with which a stranger looks at them.
#pragma once

#include <doctest/doctest.h>

#include <cstdlib>
#include <map>

#include "base/sha256.hpp"
#include "binder/papers.hpp"
#include "content/content.hpp"
#include "ledger/sealer.hpp"
#include "records/book.hpp"
#include "store/tables.hpp"
#include "support/shell.hpp"
#include "support/temp_dir.hpp"

namespace holdpin {

// 2026-11-25T11:40:00Z, 05:40 in Chicago (UTC-6 in winter).
inline constexpr std::int64_t kPapersStart = 1795606800000;

// What a program prints; its exit code must be 0.
inline std::string output_of(const std::string& command) {
    const Ran ran = run_shell(command);
    CHECK_MESSAGE(ran.code == 0, command, "\n", ran.said);
    return ran.said;
}

// Runs of blanks become one, so that where a line was broken does not matter.
inline std::string text_of_pdf(const std::string& bytes, const std::string& options = "") {
    const TempDir folder;
    REQUIRE(write_file(folder / "a.pdf", bytes).ok());
    const std::string raw = output_of("pdftotext " + options + " '" + (folder / "a.pdf") + "' -");
    std::string text;
    for (const char c : raw) {
        const char plain = c == '\n' || c == '\f' ? ' ' : c;
        if (plain != ' ' || text.empty() || text.back() != ' ') text.push_back(plain);
    }
    return text;
}

inline bool has(const std::string& text, const std::string& wanted) {
    return text.find(wanted) != std::string::npos;
}

struct PapersDesk {
    HandClock clock{kPapersStart};
    SeededRandom random{7};
    Loaded loaded;
    Zone zone = Zone::load("America/Chicago").value();
    KioskKey key = kiosk_key_of(Bytes(32, 9)).value();
    std::unique_ptr<Database> db = Database::open(":memory:", {}).value();
    std::unique_ptr<Ledger> ledger =
        Ledger::open(*db, clock, random, {"ash-lane", key.kiosk_id(), zone}).value();
    std::unique_ptr<Book> book = Book::open(*db, *ledger, random).value();
    BinderScope scope;
    std::optional<Zone> moved;  // where the site is when the papers are printed

    PapersDesk() {
        const std::string root = HOLDPIN_TEST_SOURCE_DIR;
        loaded = load_content(root + "/content", root + "/assets", root + "/content/sites/example");
        REQUIRE(loaded.ok());
        for (const auto& [name, bytes] : loaded.frozen) {
            REQUIRE(keep_content(*db, hex(sha256(bytes)), bytes).ok());
        }
        enrol("p-ann", "Ana Quispe Morán");
        enrol("p-bob", "Robert Okafor-Lind");
    }
    std::string hidden(const std::string& text, const std::string& about) {
        return keep_private(*db, random, text, about).value();
    }
    void enrol(const std::string& id, const std::string& name) {
        enter({"person-enrolled", {}, "", 0, {{"person", id}, {"name", hidden(name, id)},
               {"badge", "H-" + id}, {"language", "es"}, {"duties", {"operator"}},
               {"endorsements", nlohmann::json::array()}, {"extension", ""}, {"competence", ""},
               {"listed_until", ""}}});
        hashes[id] = hidden(name, id);
    }
    nlohmann::json signature(const std::string& person, const std::string& meaning,
                             const std::string& language) {
        return {{"name", hashes.at(person)}, {"meaning", meaning}, {"language", language}};
    }
    std::int64_t enter(const Fact& fact) {
        clock.pass(60'000);
        const auto entered = book->enter(fact);
        REQUIRE_MESSAGE(entered.ok(), entered.error().sentence());
        return entered.value().n;
    }
    // Ann is instructed, practises and is evaluated by Bob.
    std::int64_t train(const std::string& language) {
        const nlohmann::json base{{"person", "p-ann"}, {"class", "ride-on-scrubber-lp"},
                                  {"topics", {"controls", "raised-hopper"}}};
        auto instructed = base;
        instructed["on"] = "2026-11-03";
        enter({"instructed", {"p-bob"}, "", 0, instructed});
        auto practised = base;
        practised["on"] = "2026-11-05";
        enter({"practised", {"p-bob"}, "", 0, practised});
        auto evaluated = base;
        evaluated["passed"] = true;
        evaluated["text"] = hidden("SW-14, nave de carga", "p-ann");
        if (!language.empty()) evaluated["signature"] = signature("p-bob", "evaluate", language);
        return enter({"evaluated", {"p-bob"}, "", 0, evaluated});
    }
    // Ann does not agree.
    std::int64_t dispute(std::int64_t about) {
        return enter({"disagreement-noted", {"p-ann"}, "", about,
                      {{"text", hidden("It was not so", "p-ann")}}});
    }
    void seal() {
        Sealer sealer(*db, *ledger, clock, {key, "", nullptr});
        REQUIRE(sealer.seal().ok());
    }
    std::vector<BinderFile> printed() {
        const BinderMaterial material{*db,  *ledger, loaded.content, moved ? *moved : zone,
                                      key,  scope,   clock.now_ms()};
        std::vector<BinderFile> files;
        const auto made = papers(material, [&](const BinderFile& file) -> Result<void> {
            files.push_back(file);
            return {};
        });
        REQUIRE_MESSAGE(made.ok(), made.error().sentence());
        return files;
    }
    // The document whose path begins so.
    std::string document(const std::string& begins) {
        for (const BinderFile& file : printed()) {
            if (file.path.starts_with("papers/" + begins)) {
                keep_for_eyes(file);
                return file.bytes;
            }
        }
        FAIL("there is no document " << begins);
        return "";
    }
    // Where HOLDPIN_SHOW names a folder, the documents are left there to be looked at.
    static void keep_for_eyes(const BinderFile& file) {
        const char* show = std::getenv("HOLDPIN_SHOW");
        if (show == nullptr) return;
        std::string name = file.path.substr(file.path.rfind('/') + 1);
        REQUIRE(write_file(std::string(show) + "/" + name, file.bytes).ok());
    }

    std::map<std::string, std::string> hashes;
};

}  // namespace holdpin
