#include "base/new_dir.hpp"

#include <doctest/doctest.h>
#include <stdlib.h>

#include <filesystem>
#include <string>

#include "base/text.hpp"

using namespace holdpin;

namespace fs = std::filesystem;

namespace {

// A folder of this test alone, gone afterwards.
class Scratch {
  public:
    Scratch() {
        std::string name = (fs::temp_directory_path() / "holdpin-base-XXXXXX").string();
        REQUIRE(::mkdtemp(name.data()) != nullptr);
        path_ = name;
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    ~Scratch() { fs::remove_all(path_); }

    std::string at(const std::string& name) const { return (path_ / name).string(); }
    std::ptrdiff_t count() const {
        return std::distance(fs::directory_iterator(path_), fs::directory_iterator());
    }

  private:
    fs::path path_;
};

// A new folder for `place` with one file in it.
NewDir filled(const std::string& place, const std::string& text) {
    auto made = NewDir::beside(place);
    REQUIRE(made.ok());
    REQUIRE(write_file(made.value().path() + "/note", text).ok());
    return std::move(made).value();
}

}  // namespace

TEST_CASE("a new folder stands at its place with all its files, and nothing is left beside it") {
    const Scratch scratch;
    {
        NewDir dir = filled(scratch.at("site"), "new");
        CHECK_FALSE(fs::exists(scratch.at("site")));
        REQUIRE(dir.take_place().ok());
    }
    CHECK(read_file(scratch.at("site/note")).value_or("") == "new");
    CHECK(scratch.count() == 1);
}

TEST_CASE("a new folder that never got its place is taken away again") {
    const Scratch scratch;
    { const NewDir dir = filled(scratch.at("site"), "new"); }
    CHECK(scratch.count() == 0);
}

TEST_CASE("the folder is its owner's alone, and folders above it are made") {
    const Scratch scratch;
    NewDir dir = filled(scratch.at("a/b/site/"), "new");
    CHECK((fs::status(dir.path()).permissions() & (fs::perms::group_all | fs::perms::others_all)) ==
          fs::perms::none);
    REQUIRE(dir.take_place().ok());
    CHECK(fs::exists(scratch.at("a/b/site/note")));
}

TEST_CASE("a place with something in it is refused and left as it was, an empty one is taken") {
    const Scratch scratch;
    fs::create_directory(scratch.at("site"));
    REQUIRE(write_file(scratch.at("site/note"), "old").ok());
    {
        NewDir dir = filled(scratch.at("site"), "new");
        const auto placed = dir.take_place();
        REQUIRE_FALSE(placed.ok());
        CHECK(placed.error().kind == ErrorKind::refused);
    }
    CHECK(read_file(scratch.at("site/note")).value_or("") == "old");
    CHECK(scratch.count() == 1);

    fs::create_directory(scratch.at("empty"));
    NewDir dir = filled(scratch.at("empty"), "new");
    CHECK(dir.take_place().ok());
}

TEST_CASE("a folder that is replaced is gone once the new one stands") {
    const Scratch scratch;
    fs::create_directory(scratch.at("site"));
    REQUIRE(write_file(scratch.at("site/old-note"), "old").ok());
    {
        NewDir dir = filled(scratch.at("site"), "new");
        REQUIRE(dir.replace().ok());
    }
    CHECK(read_file(scratch.at("site/note")).value_or("") == "new");
    CHECK_FALSE(fs::exists(scratch.at("site/old-note")));
    CHECK(scratch.count() == 1);
}
