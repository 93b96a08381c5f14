// The commands that erase what is over, and write down what is stored about one person.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "example_site.hpp"
#include "run_program.hpp"

using namespace holdpin;

TEST_CASE("what is stored about a person is written into a new folder: text, JSON and PDF") {
    ExampleSite example;
    example.clock.set_wall(RealClock().now_ms());
    REQUIRE(example.init().ok());
    const std::string out = example.temp / "about";
    const std::string data = " --seal-copy '' --data " + example.data;
    const auto told = run("people about-me --person p-okafor-lind " + out + data);
    CHECK(told.code == 0);
    const std::string text = read_file(out + "/about-me.txt").value();
    CHECK(text.find("What Holdpin stores about R. Okafor-Lind") != std::string::npos);
    const auto json = nlohmann::json::parse(read_file(out + "/about-me.json").value());
    CHECK(json.at("person") == "p-okafor-lind");
    CHECK(json.at("records").size() > 5);
    CHECK(read_file(out + "/about-me.pdf").value().starts_with("%PDF-"));
    CHECK(run("people about-me --person p-nobody " + out + "2" + data).code == 1);
}

TEST_CASE("a purge says what it would erase, erases nothing as of a day to come, and says so") {
    ExampleSite example;
    example.clock.set_wall(RealClock().now_ms());
    REQUIRE(example.init().ok());
    const std::string data = " --seal-copy '' --data " + example.data;
    const std::string purge = "ledger purge" + data;
    const auto now = run(purge);
    CHECK(now.code == 0);
    CHECK(now.said.find("0 texts, the names of 0 people") != std::string::npos);
    CHECK(run(purge + " --as-of 2090-01-01").code == 0);
    CHECK(run(purge + " --as-of 2090-01-01 --yes").code == 2);
    CHECK(run(purge + " --as-of sometime").code == 2);
    CHECK(run("ledger check" + data).code == 0);
}
