#include "cli/sheets_only.hpp"

#include <doctest/doctest.h>

#include "cli/sheet_folder.hpp"
#include "example_site.hpp"
#include "script/shown.hpp"

using namespace holdpin;

TEST_CASE("with the records closed the reason stands there and every sheet is two taps away") {
    ExampleSite example;
    const Loaded loaded = load_content(example.dirs.content, example.dirs.assets, example.source);
    REQUIRE(loaded.ok());
    SheetsOnly stage(loaded.content, Error{ErrorKind::damaged, "entry 7 is gone", "ledger", ""});
    CHECK(is_shown(texts_of(stage.page()), "entry 7 is gone"));
    for (const Sheet& sheet : loaded.content.pack.sheets) {
        stage.act({"help", ""});
        stage.act({"sheet:" + sheet.id, ""});
        CHECK(stage.page().id == "sheet/" + sheet.id);
        CHECK(is_shown(texts_of(stage.page()), sheet.first.in("en")));
        stage.act({"back", ""});
        stage.act({"back", ""});
        CHECK(stage.page().id == "records-closed");
    }
}

TEST_CASE("with the records closed nothing can be signed or handed over") {
    ExampleSite example;
    const Loaded loaded = load_content(example.dirs.content, example.dirs.assets, example.source);
    REQUIRE(loaded.ok());
    SheetsOnly stage(loaded.content, Error{ErrorKind::full, "the disk is full", "", ""});
    const auto targets = targets_of(stage.page());
    REQUIRE(targets.size() == 2);
    CHECK(targets.front().id == "language");
    CHECK(targets.back().id == "help");
}

TEST_CASE("with the records closed the reason and the sheets can be read in the other language") {
    ExampleSite example;
    const Loaded loaded = load_content(example.dirs.content, example.dirs.assets, example.source);
    REQUIRE(loaded.ok());
    SheetsOnly stage(loaded.content, Error{ErrorKind::read_only, "it can only be read", "", ""});
    CHECK(is_shown(texts_of(stage.page()), "cannot be written"));
    stage.act({"language", ""});
    CHECK(is_shown(texts_of(stage.page()), "No se puede escribir"));
    CHECK_FALSE(is_shown(texts_of(stage.page()), "it can only be read"));
}

TEST_CASE("while the records are read nothing is handed over, and the sheets are open") {
    ExampleSite example;
    const Loaded loaded = load_content(example.dirs.content, example.dirs.assets, example.source);
    REQUIRE(loaded.ok());
    SheetsOnly stage(loaded.content, std::nullopt);
    CHECK(is_shown(texts_of(stage.page()), "The kiosk reads its records"));
    CHECK(targets_of(stage.page()).size() == 2);
    CHECK(stage.is_at_first_page());
    stage.act({"help", ""});
    CHECK_FALSE(stage.is_at_first_page());
    stage.act({"sheet:fire", ""});
    CHECK(stage.page().id == "sheet/fire");
    CHECK_FALSE(stage.is_at_first_page());
    stage.act({"back", ""});
    stage.act({"back", ""});
    CHECK(stage.is_at_first_page());
    stage.act({"language", ""});
    CHECK(is_shown(texts_of(stage.page()), "El quiosco lee sus registros"));
}

TEST_CASE("with the records closed the safety data sheets can be read") {
    ExampleSite example;
    const Loaded loaded = load_content(example.dirs.content, example.dirs.assets, example.source);
    REQUIRE(loaded.ok());
    SheetFolder sheets(example.dirs.content + "/sites/example/sds");
    SheetsOnly stage(loaded.content, Error{ErrorKind::damaged, "entry 7 is gone", "ledger", ""},
                     &sheets);
    stage.act({"help", ""});
    stage.act({"data-sheets", ""});
    CHECK(is_shown(texts_of(stage.page()), "Nearest eyewash"));
    stage.act({"data-sheet:FC-20,_floor_cleaner.en.pdf", ""});
    CHECK(is_shown(texts_of(stage.page()), "page 1 of 2"));
    stage.act({"turn", ""});
    CHECK(is_shown(texts_of(stage.page()), "page 2 of 2"));
    for (const char* id : {"data-sheets", "emergency", "records-closed"}) {
        stage.act({"back", ""});
        CHECK(stage.page().id == id);
    }
}
