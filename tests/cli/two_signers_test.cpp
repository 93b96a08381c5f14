// Two people who sign at the terminal.
#include "cli/two_signers.hpp"

#include "example_site.hpp"
#include "records/records.hpp"

using namespace holdpin;

namespace {

// As if both typed what is right.
Result<void> sign(OpenSite& site, const std::vector<std::string>& badges, Fact& fact) {
    const AskPin ask = [&](const std::string& badge) -> Result<std::string> {
        for (const Person& person : site.content.site.people) {
            if (person.badge == badge) return person.example_pin;
        }
        return Error{ErrorKind::absent, "nobody of the site", badge, ""};
    };
    const CheckPin check = [&](const std::string& person, const std::string& pin) {
        return site.pins->check(person, pin, site.clock.now_ms());
    };
    return sign_by_two({*site.db, check, ask}, badges, "purge", fact);
}

}  // namespace

TEST_CASE("nobody signs at the terminal who has not accepted what a signature means") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    const auto site = example.open();
    REQUIRE(site.ok());
    Fact fact;
    const auto refused = sign(*site.value(), {"H-1006", "H-2316"}, fact);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.error().sentence().find("p-vang-oduya has not accepted") != std::string::npos);
    CHECK(fact.by.empty());
    CHECK(sign(*site.value(), {"H-1006", "H-1042"}, fact).ok());
    CHECK(fact.by == std::vector<std::string>{"p-brandt"});
}
