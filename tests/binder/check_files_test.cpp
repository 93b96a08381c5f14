// The check over files that lie in memory, and what it reads of a folder.
#include <doctest/doctest.h>

#include <cstdlib>
#include <map>
#include <sstream>

#include "binder/check.hpp"
#include "bound.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

using Texts = std::map<std::string, std::string>;

Texts texts_of(const Bound& f) {
    Texts texts;
    const BinderFiles files = files_in(f.out()).value();
    for (const auto& name : files.names) texts[name] = f.file(name);
    return texts;
}

Result<CheckedBinder> check_texts(const Texts& texts) {
    BinderFiles files;
    for (const auto& [name, text] : texts) files.names.push_back(name);
    files.open = [&](const std::string& name) -> std::unique_ptr<std::istream> {
        const auto found = texts.find(name);
        if (found == texts.end()) return nullptr;
        return std::make_unique<std::istringstream>(found->second);
    };
    return check_files(files, nullptr);
}

}  // namespace

TEST_CASE("a binder is checked from memory as it is from a folder") {
    Bound f;
    f.made();
    const auto folder = check_binder(f.out(), f.dir.string(), nullptr);
    Texts texts = texts_of(f);
    const auto memory = check_texts(texts);
    REQUIRE_MESSAGE(memory.ok(), memory.error().sentence());
    CHECK(memory.value().entries == folder.value().entries);
    CHECK(memory.value().rows == folder.value().rows);
    CHECK(memory.value().root == folder.value().root);
    CHECK(memory.value().files == texts.size());
    texts.erase("tables/air.csv");
    CHECK(check_texts(texts).error().sentence() == "tables/air.csv: is missing");
    texts["key.pem"] += std::string(kLongestText, ' ');
    CHECK(check_texts(texts).error().sentence() == "key.pem: is longer than 67108864 bytes");
    // Seeds for fuzzing are made of it: tests/fuzz/binder_fuzz.cpp.
    if (const char* show = std::getenv("HOLDPIN_SHOW")) {
        fs::copy(f.out(), show, fs::copy_options::recursive | fs::copy_options::overwrite_existing);
    }
}

TEST_CASE("a link in the folder of a binder is named as what does not belong there") {
    Bound f;
    f.made();
    fs::create_symlink(f.out() + "/tables/air.csv", f.out() + "/tables/again.csv");
    const auto found = check_binder(f.out(), f.dir.string(), nullptr);
    REQUIRE_FALSE(found.ok());
    CHECK(found.error().where == "tables/again.csv");
    fs::remove(f.out() + "/tables/again.csv");
    fs::rename(f.out() + "/tables/air.csv", f.dir / "air.csv");
    fs::create_symlink(f.dir / "air.csv", f.out() + "/tables/air.csv");
    CHECK(check_binder(f.out(), f.dir.string(), nullptr).error().sentence() ==
          "tables/air.csv: is missing");
}

TEST_CASE("lines are read as they stand, whatever their length, and none without end") {
    for (const std::size_t length : {0UL, 1UL, 4094UL, 4095UL, 4096UL, 8190UL, 100'000UL}) {
        CAPTURE(length);
        const std::string long_one(length, 'x');
        std::istringstream file(long_one + "\n\n" + long_one + "y");
        std::string line;
        CHECK(next_line(file, line).value());
        CHECK(line == long_one);
        CHECK(next_line(file, line).value());
        CHECK(line.empty());
        CHECK(next_line(file, line).value());
        CHECK(line == long_one + "y");
        CHECK_FALSE(next_line(file, line).value());
    }
    std::istringstream endless(std::string(2 * kLongestLine, 'x'));
    std::string line;
    const auto found = next_line(endless, line);
    REQUIRE_FALSE(found.ok());
    CHECK(found.error().what == "holds a line longer than 16777216 bytes");
}
