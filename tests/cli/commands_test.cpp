// The program as it is called: its exit codes, and where its words go.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "example_site.hpp"
#include "run_program.hpp"

using namespace holdpin;

TEST_CASE("the version and the help of every command end with 0") {
    CHECK(run("--version").said.starts_with("holdpin "));
    for (const char* command :
         {"", "kiosk", "init", "proof", "adopt", "people", "people import", "binder",
          "binder make", "binder check", "ledger", "ledger check", "ledger rebuild",
          "ledger witness",
          "ledger prove", "ledger key", "rehearse", "drive"}) {
        CAPTURE(command);
        const Ran ran = run(std::string(command) + " --help");
        CHECK(ran.code == 0);
        CHECK(ran.said.find("--help") != std::string::npos);
    }
}

TEST_CASE("wrong use ends with 2 and says what is wrong on standard error") {
    CHECK(run("").code == 2);
    CHECK(run("frobnicate").code == 2);
    CHECK(run("init --data x").code == 2);
    CHECK(run("proof /no/such/file").code == 2);
    const Ran ran = run("rehearse /no/such/file.toml", true);
    CHECK(ran.code == 2);
    CHECK(ran.said.find("/no/such/file.toml") != std::string::npos);
    CHECK(run("rehearse /no/such/file.toml").said.empty());
}

TEST_CASE("init, check, rebuild and export work on a data directory one after the other") {
    TempDir temp;
    const std::string data = " --data " + (temp / "data");
    const std::string site = resolved({}).content + "/sites/example";
    const Ran made = run("init" + data + " --site " + site, true);
    REQUIRE_MESSAGE(made.code == 0, made.said);
    CHECK(made.said.find("example data") != std::string::npos);
    CHECK(run("init" + data + " --site " + site).code == 1);

    const Ran checked = run("ledger check --json" + data);
    CHECK(checked.code == 0);
    const auto report = nlohmann::json::parse(checked.said);
    CHECK(report["fault"] == "none");
    CHECK(report["size"].get<int>() > 50);

    const Ran rebuilt = run("ledger rebuild" + data);
    CHECK(rebuilt.code == 0);
    CHECK(rebuilt.said.find("it is as it was before") != std::string::npos);

    const std::string out = temp / "out";
    CHECK(run("binder make " + out + data).code == 0);
    CHECK(std::filesystem::exists(out + "/SHA256SUMS"));
    CHECK(run("binder make " + out + data).code == 1);
}

TEST_CASE("people are imported as a whole or not at all") {
    TempDir temp;
    const std::string data = " --data " + (temp / "data");
    REQUIRE(run("init" + data + " --site " + resolved({}).content + "/sites/example").code == 0);
    const std::string csv = temp / "people.csv";
    const std::string header = "id,name,badge,language,duties\n";
    REQUIRE(write_file(csv, header + "p-a,Ann Doe,H-8001,en,operator\np-b,Ben,H-1042,en,operator\n")
                .ok());
    const Ran taken = run("people import " + csv + data, true);
    CHECK(taken.code == 1);
    CHECK(taken.said.find("H-1042") != std::string::npos);
    REQUIRE(write_file(csv, header + "p-a,Ann Doe,H-8001,en,operator\n").ok());
    CHECK(run("people import " + csv + data).said.starts_with("1 people are enrolled"));
}

TEST_CASE("an import gives a known id to nobody else, unless the same person has a new name") {
    TempDir temp;
    const std::string data = " --data " + (temp / "data");
    REQUIRE(run("init" + data + " --site " + resolved({}).content + "/sites/example").code == 0);
    const std::string csv = temp / "people.csv";
    REQUIRE(write_file(csv, "id,name,badge,language,duties\n"
                            "p-okafor-lind,Ann Doe,H-8001,en,operator\n").ok());
    const Ran other = run("people import " + csv + data, true);
    CHECK(other.code == 1);
    CHECK(other.said.find("the id belongs to R. Okafor-Lind, not to Ann Doe") != std::string::npos);
    const Ran same = run("people import --renamed p-okafor-lind " + csv + data);
    CHECK_MESSAGE(same.said.starts_with("1 people are enrolled"), same.said);
}

TEST_CASE("a fault in content is one line with file, line and column, and ends with 1") {
    ExampleSite example;
    const std::string bad = example.changed_copy("bad", "region = \"US\"", "region = 7");
    const Ran ran = run("proof " + bad);
    CHECK(ran.code == 1);
    CHECK(ran.said.find("site.toml:") != std::string::npos);
    const auto report = nlohmann::json::parse(run("proof --json " + bad).said);
    CHECK(report["faults"].size() >= 1);
    CHECK(report["faults"][0]["line"].get<int>() > 0);
}

TEST_CASE("the content that is shipped has no fault") {
    const Ran ran = run("proof");
    CHECK_MESSAGE(ran.code == 0, ran.said);
}
