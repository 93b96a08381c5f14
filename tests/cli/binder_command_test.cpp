// Binders through the program: what is said, and the exit codes.
#include <doctest/doctest.h>

#include "example_site.hpp"
#include "ledger/ledger.hpp"
#include "run_program.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

struct BinderSite : ExampleSite {
    BinderSite() { REQUIRE(init().ok()); }
    std::string words() const { return " --seal-copy \"\" --data " + data; }
    std::string out = temp / "out";
};

}  // namespace

TEST_CASE("a binder is made, checked, and checked again where there are no records") {
    BinderSite site;
    for (const std::string& out : {site.out, site.out + ".zip"}) {
        const Ran made = run("binder make " + out + site.words(), true);
        REQUIRE_MESSAGE(made.code == 0, made.said);
        CHECK(made.said.find("entries are in " + out) != std::string::npos);
        CHECK(made.said.find("wanting") == std::string::npos);
    }
    fs::remove_all(site.data);
    for (const std::string& out : {site.out, site.out + ".zip"}) {
        const Ran checked = run("binder check " + out, true);
        CHECK_MESSAGE(checked.code == 0, checked.said);
        CHECK(checked.said.starts_with("All agree: entries 1"));
        CHECK(checked.said.find("Signed by kiosk ") != std::string::npos);
    }
}

TEST_CASE("a stranger holds a binder against what stands on paper") {
    BinderSite site;
    REQUIRE(run("binder make " + site.out + site.words()).code == 0);
    const std::string id = load_kiosk_key(site.data + "/kiosk.key").value().kiosk_id();
    std::string code = run("ledger witness --data " + site.data, true).said;  // "CODE @ SIZE"
    code = code.substr(0, code.find('\n'));
    fs::remove_all(site.data);
    const std::string check = "binder check " + site.out;
    const Ran both = run(check + " --kiosk " + id + " --witness '" + code + "' --witness '" +
                         code + "'", true);
    CHECK_MESSAGE(both.code == 0, both.said);
    CHECK(both.said.find("Signed by kiosk " + id + ", as noted.") != std::string::npos);
    CHECK(both.said.find("The witness code ") != std::string::npos);
    CHECK(run(check + " --kiosk 0123456789abcdef").code == 1);
    CHECK(run(check + " --witness 'K7DM-3XQA @ 9'").code == 1);
    CHECK(run(check + " --kiosk ABC").code == 2);
    CHECK(run(check + " --witness K7DM-3XQA").code == 2);
}

TEST_CASE("a binder that was changed, or is none, ends with 1 and says where") {
    BinderSite site;
    REQUIRE(run("binder make " + site.out + site.words()).code == 0);
    std::string lines = read_file(site.out + "/entries.jsonl").value();
    lines[100] = lines[100] == '0' ? '1' : '0';
    REQUIRE(write_file(site.out + "/entries.jsonl", lines).ok());
    const Ran checked = run("binder check " + site.out, true);
    CHECK(checked.code == 1);
    CHECK(checked.said == "entries.jsonl: was changed\n");
    CHECK(run("binder check " + (site.temp / "nothing")).code == 1);
}

TEST_CASE("what cannot be made says why: a day that is none, a stranger, a place that is taken") {
    BinderSite site;
    CHECK(run("binder make --from yesterday " + site.out + site.words()).code == 2);
    CHECK(run("binder make --from 2026-12-01 --to 2026-11-01 " + site.out + site.words()).code ==
          2);
    const Ran stranger = run("binder make --person p-nobody " + site.out + site.words(), true);
    CHECK(stranger.code == 1);
    CHECK(stranger.said.find("p-nobody") != std::string::npos);
    REQUIRE(run("binder make --person p-quispe-moran " + site.out + site.words()).code == 0);
    CHECK(run("binder make " + site.out + site.words(), true)
              .said.find("there is something here already") != std::string::npos);
}

TEST_CASE("while the kiosk runs, the program says so and makes nothing") {
    BinderSite site;
    const auto running = site.open();
    REQUIRE(running.ok());
    const Ran ran = run("binder make " + site.out + site.words(), true);
    CHECK(ran.code == 1);
    CHECK_MESSAGE(ran.said.find("kiosk") != std::string::npos, ran.said);
    CHECK_FALSE(fs::exists(site.out));
}

TEST_CASE("records in doubt come out unsealed, and a check finds that") {
    BinderSite site;
    fs::remove(site.data + "/kiosk.key");
    SeededRandom other(99);
    REQUIRE(make_kiosk_key(site.data + "/kiosk.key", other).ok());
    const Ran made = run("binder make " + site.out + site.words(), true);
    REQUIRE_MESSAGE(made.code == 0, made.said);
    CHECK(made.said.find("not signed by this kiosk") != std::string::npos);
    const Ran checked = run("binder check " + site.out, true);
    CHECK(checked.code == 1);
    CHECK(checked.said.find("is not signed with key.pem") != std::string::npos);
}
