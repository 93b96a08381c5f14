// Seals, witness codes and proofs through the program, and what a start makes of old data.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "cli/stored_records.hpp"
#include "example_site.hpp"
#include "ledger/seal.hpp"
#include "run_program.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

Fact release() {
    Fact fact;
    fact.kind = "release-given";
    fact.by = {"p-quispe-moran"};
    fact.data = {{"machine", "SW-14"}, {"person", "p-quispe-moran"},
                 {"room", "dock-hall"}, {"until_ms", kExampleStart + 3'600'000},
                 {"round", 0}, {"limits", nlohmann::json::array()},
                 {"rooms", nlohmann::json::array()}, {"shifts", nlohmann::json::array()}};
    return fact;
}

Fact signing_on() { return {"signed-on", {"p-quispe-moran"}, "", 0, nlohmann::json::object()}; }

// The example site with a folder for the seal kept outside.
struct SealedSite : ExampleSite {
    SealedSite() { REQUIRE(init().ok()); }
    std::unique_ptr<OpenSite> start() {
        auto site = open_site(data, dirs, clock, random, PinCost::least, copies);
        if (!site) FAIL(site.error().sentence());
        return std::move(site).value();
    }
    std::string words() const { return " --data " + data + " --seal-copy " + copies; }
    std::string copies = temp / "copies";
};

std::uint64_t size_of_newest(OpenSite& site) { return newest_sealed_size(*site.db).value(); }

}  // namespace

TEST_CASE("a new site is sealed, each release seals at once, and the copy outside follows") {
    SealedSite example;
    const auto site = example.start();
    CHECK(size_of_newest(*site) == site->ledger->size());
    REQUIRE(site->book->enter(signing_on()).ok());
    CHECK(size_of_newest(*site) == site->ledger->size() - 1);
    REQUIRE(site->book->enter(release()).ok());
    CHECK(size_of_newest(*site) == site->ledger->size());
    const std::string copy = seal_copy_path(example.copies, site->sealer->key().kiosk_id());
    const auto outside = seal_from(trimmed(read_file(copy).value()));
    REQUIRE(outside.ok());
    CHECK(outside.value().size == site->ledger->size());
    for (int i = 0; i < 64; ++i) REQUIRE(site->book->enter(signing_on()).ok());
    CHECK(size_of_newest(*site) == site->ledger->size());
}

TEST_CASE("old data that were copied back hold every machine, and leave the copy outside alone") {
    SealedSite example;
    fs::copy(example.data, example.temp / "backup", fs::copy_options::recursive);
    std::string copy;
    {
        const auto site = example.start();
        REQUIRE(site->book->enter(release()).ok());
        copy = seal_copy_path(example.copies, site->sealer->key().kiosk_id());
        CHECK(site->world().ledger_ok);
    }
    const std::string before = read_file(copy).value();
    fs::remove_all(example.data);
    fs::rename(example.temp / "backup", example.data);
    {
        const auto site = example.start();
        CHECK_FALSE(site->world().ledger_ok);
        CHECK(site->ledger_doubt.find("older than the seal kept outside") != std::string::npos);
        CHECK(site->book->sealer() == nullptr);
        REQUIRE(site->book->enter(release()).ok());
    }
    CHECK(read_file(copy).value() == before);
    const Ran checked = run("ledger check" + example.words());
    CHECK(checked.code == 1);
    CHECK(checked.said.find("not those that the seal kept outside") != std::string::npos);
    CHECK(run("ledger witness" + example.words()).code == 1);
    CHECK(run("binder make " + (example.temp / "out") + example.words()).code == 0);
    CHECK(read_file(copy).value() == before);
}

TEST_CASE("a witness code goes into the book and comes back from it") {
    SealedSite example;
    const Ran told = run("ledger witness" + example.words());
    REQUIRE(told.code == 0);
    const std::string line = told.said.substr(0, told.said.find('\n'));
    const std::string code = line.substr(0, line.find(' '));
    example.start()->book->enter(release()).ok();
    const auto check = [&](const std::string& witness) {
        return run("ledger check --witness '" + witness + "'" + example.words());
    };
    for (const std::string& typed : {line, code}) {
        const Ran found = check(typed);
        CHECK(found.code == 0);
        CHECK(found.said.find("is that of the seal of 20") != std::string::npos);
    }
    const Ran missing = check("AAAA-AAAA");
    CHECK(missing.code == 1);
    CHECK(missing.said.find("does not contain") != std::string::npos);
    CHECK(check("nonsense").code == 2);
    const auto report = nlohmann::json::parse(
        run("ledger check --json --witness " + code + example.words()).said);
    CHECK(report["witness"]["found"] == true);
    CHECK(report["outside"]["holds"] == true);
    CHECK(report["seals"] == 2);
}

TEST_CASE("proofs of the program are checked without it") {
    SealedSite example;
    example.start()->book->enter(signing_on()).ok();
    const std::string pem = example.temp / "key.pem";
    REQUIRE(write_file(pem, run("ledger key --data " + example.data).said).ok());
    const std::string checker =
        std::string(HOLDPIN_TEST_SOURCE_DIR) + "/tests/ledger/check_proof.py";
    const auto holds = [&](const std::string& numbers) {
        const Ran proof = run("ledger prove " + numbers + example.words());
        CHECK(proof.code == 0);
        const std::string file = example.temp / "proof.json";
        REQUIRE(write_file(file, proof.said).ok());
        const std::string line = "python3 " + checker + " " + file + " " + pem + " >/dev/null";
        return std::system(line.c_str()) == 0;
    };
    const auto size = std::to_string(open_records(example.data).value()->ledger->size());
    CHECK(holds("1"));
    CHECK(holds(size));
    CHECK(holds("7 " + size));
    CHECK(run("ledger prove 100000" + example.words()).code == 1);
    CHECK(run("ledger prove 9 8" + example.words()).code == 1);
    CHECK(run("ledger prove" + example.words()).code == 2);
}

TEST_CASE("a rewritten entry is reported with the stretch it lies in") {
    SealedSite example;
    {
        const auto records = open_records(example.data);
        REQUIRE(records.ok());
        Entry entry = records.value()->ledger->at(5).value();
        entry.data["name"] = std::string(64, '0');
        const std::string text = entry_body(entry).value();
        const Bytes body(text.begin(), text.end());
        Database& db = *records.value()->db;
        REQUIRE(db.execute("DROP TRIGGER entry_stays").ok());
        REQUIRE(db.query("UPDATE entry SET body = ?, leaf = ? WHERE n = 5")
                    .bind(body)
                    .bind(leaf_hash(body))
                    .run()
                    .ok());
    }
    const Ran checked = run("ledger check" + example.words());
    CHECK(checked.code == 1);
    CHECK(checked.said.starts_with("Entry 1: the first change is in entries 1 to "));
    // The file is not as it was left, so that a start folds all entries again.
    CHECK_FALSE(example.start()->world().ledger_ok);
}
