// A kiosk whose records cannot be opened shows a page, whatever is missing or cannot be read.
#include "cli/closed_records.hpp"

#include <doctest/doctest.h>

#include <cstdlib>

#include "cli/sheets_only.hpp"
#include "example_site.hpp"
#include "run_program.hpp"
#include "script/shown.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

// Without a display the program ends, and says so: it came as far as to show a page.
Ran kiosk(const ExampleSite& site) {
    return run("kiosk --data " + site.data + " --seal-copy " + (site.temp / "copies") +
                   " --backups '' --window 800 600 </dev/null",
               true);
}

bool wanted_to_show(const Ran& ran) {
    return ran.code == 1 && ran.said.find("the display cannot be opened") != std::string::npos;
}

struct WithoutDisplay {
    WithoutDisplay() { ::unsetenv("DISPLAY"); }
};

}  // namespace

TEST_CASE("where there never was a site the kiosk says how to make one and ends") {
    const WithoutDisplay none;
    const ExampleSite site;
    CHECK_FALSE(site_was_here(site.data, site.temp / "copies"));
    const Ran ran = kiosk(site);
    CHECK(ran.code == 2);
    CHECK(ran.said.find("holdpin init") != std::string::npos);
}

TEST_CASE("a site whose folder, database, key or content went away is told at the screen") {
    const WithoutDisplay none;
    for (const char* gone : {"", "/holdpin.db", "/kiosk.key", "/pepper", "/site"}) {
        CAPTURE(std::string(gone));
        ExampleSite site;
        REQUIRE(site.init().ok());
        REQUIRE(open_site(site.data, site.dirs, site.clock, site.random, PinCost::least,
                          site.temp / "copies")
                    .ok());
        CHECK(site_was_here(site.data, site.temp / "copies"));
        fs::remove_all(site.data + gone);
        CHECK(site_was_here(site.data, site.temp / "copies"));
        const Ran ran = kiosk(site);
        CHECK_MESSAGE(wanted_to_show(ran), ran.said);
    }
}

TEST_CASE("without the files of the site the sheets of the program open, in either language") {
    const ExampleSite site;
    const auto content = content_left(site.dirs, site.data);
    REQUIRE(content.ok());
    SheetsOnly stage(content.value(), Error{ErrorKind::absent, "there is no site here", "", ""});
    CHECK(is_shown(texts_of(stage.page()), "The records of this kiosk are not there"));
    CHECK(is_shown(texts_of(stage.page()), "there is no site here"));
    stage.act({"language", ""});
    CHECK(is_shown(texts_of(stage.page()), "No están los registros de este quiosco"));
    CHECK_FALSE(is_shown(texts_of(stage.page()), "there is no site here"));
    stage.act({"help", ""});
    REQUIRE_FALSE(content.value().pack.sheets.empty());
    for (const Sheet& sheet : content.value().pack.sheets) {
        stage.act({"sheet:" + sheet.id, ""});
        CHECK(is_shown(texts_of(stage.page()), sheet.first.in("es")));
        stage.act({"back", ""});
    }
}

TEST_CASE("an adopted pack that cannot be read does not take the sheets away") {
    ExampleSite site;
    REQUIRE(site.init().ok());
    fs::create_directories(site.data + "/content/sheets");
    REQUIRE(write_file(site.data + "/content/sheets/gas.toml", "spoiled = ").ok());
    const auto content = content_left(resolved({}, site.data), site.data);
    REQUIRE(content.ok());
    CHECK_FALSE(content.value().pack.sheets.empty());
}
