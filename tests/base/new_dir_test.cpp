#include "base/new_dir.hpp"

#include <doctest/doctest.h>

#include <filesystem>
#include <string>

#include "base/text.hpp"
#include "support/temp_dir.hpp"

using namespace holdpin;

namespace fs = std::filesystem;

namespace {

// A new folder for `place` with one file in it.
NewDir filled(const std::string& place, const std::string& text) {
    auto made = NewDir::beside(place);
    REQUIRE(made.ok());
    REQUIRE(write_file(made.value().path() + "/note", text).ok());
    return std::move(made).value();
}

}  // namespace

TEST_CASE("a new folder stands at its place with all its files, and nothing is left beside it") {
    const TempDir scratch;
    {
        NewDir dir = filled((scratch / "site"), "new");
        CHECK_FALSE(fs::exists((scratch / "site")));
        REQUIRE(dir.take_place().ok());
    }
    CHECK(read_file((scratch / "site/note")).value_or("") == "new");
    CHECK(scratch.items() == 1);
}

TEST_CASE("a new folder that never got its place is taken away again") {
    const TempDir scratch;
    { const NewDir dir = filled((scratch / "site"), "new"); }
    CHECK(scratch.items() == 0);
}

TEST_CASE("the folder is its owner's alone, and folders above it are made") {
    const TempDir scratch;
    NewDir dir = filled((scratch / "a/b/site/"), "new");
    CHECK((fs::status(dir.path()).permissions() & (fs::perms::group_all | fs::perms::others_all)) ==
          fs::perms::none);
    REQUIRE(dir.take_place().ok());
    CHECK(fs::exists((scratch / "a/b/site/note")));
}

TEST_CASE("a place with something in it is refused and left as it was, an empty one is taken") {
    const TempDir scratch;
    fs::create_directory((scratch / "site"));
    REQUIRE(write_file((scratch / "site/note"), "old").ok());
    {
        NewDir dir = filled((scratch / "site"), "new");
        const auto placed = dir.take_place();
        REQUIRE_FALSE(placed.ok());
        CHECK(placed.error().kind == ErrorKind::refused);
    }
    CHECK(read_file((scratch / "site/note")).value_or("") == "old");
    CHECK(scratch.items() == 1);

    fs::create_directory((scratch / "empty"));
    NewDir dir = filled((scratch / "empty"), "new");
    CHECK(dir.take_place().ok());
}

TEST_CASE("a folder that is replaced is gone once the new one stands") {
    const TempDir scratch;
    fs::create_directory((scratch / "site"));
    REQUIRE(write_file((scratch / "site/old-note"), "old").ok());
    {
        NewDir dir = filled((scratch / "site"), "new");
        REQUIRE(dir.replace().ok());
    }
    CHECK(read_file((scratch / "site/note")).value_or("") == "new");
    CHECK_FALSE(fs::exists((scratch / "site/old-note")));
    CHECK(scratch.items() == 1);
}
