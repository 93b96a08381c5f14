// Proofreading of files on a disk, as an author does it.
#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <string>

#include "base/text.hpp"
#include "content/content.hpp"
#include "sample.hpp"

using namespace holdpin;

namespace {

namespace fs = std::filesystem;

// A folder with the sample in it; gone when the test ends.
struct Disk {
    Disk() {
        for (const auto& [name, bytes] : sample::pack()) put("content/" + name, bytes);
        for (const auto& [name, bytes] : sample::assets()) put("assets/" + name, bytes);
        for (const auto& [name, bytes] : sample::site()) put("content/sites/shed/" + name, bytes);
    }
    ~Disk() { fs::remove_all(root); }
    Disk(const Disk&) = delete;
    Disk& operator=(const Disk&) = delete;

    std::string put(const std::string& name, const std::string& bytes) const {
        const fs::path path = root / name;
        fs::create_directories(path.parent_path());
        REQUIRE(write_file(path.string(), bytes).ok());
        return path.string();
    }
    std::string at(const std::string& name) const { return (root / name).string(); }
    Faults proof(const std::vector<std::string>& paths) const {
        return holdpin::proof(paths, at("content"), at("assets"));
    }

    fs::path root = [] {
        std::string name = (fs::temp_directory_path() / "holdpin-proof-XXXXXX").string();
        REQUIRE(mkdtemp(name.data()) != nullptr);
        return fs::path(name);
    }();
};

std::string broken(const std::string& file, std::string_view from, std::string_view to) {
    return sample::with(sample::pack(), file, from, to).at(file);
}

}  // namespace

TEST_CASE("a pack and a site on disk load, from a folder or from the file of the site") {
    const Disk disk;
    const Loaded folder =
        load_content(disk.at("content"), disk.at("assets"), disk.at("content/sites/shed"));
    CHECK_MESSAGE(folder.ok(), sample::lines(folder.faults));
    CHECK(folder.content.site.people.size() == 2);
    CHECK(load_pack(disk.at("content"), disk.at("assets")).ok());

    const Loaded head = load_content(disk.at("content"), disk.at("assets"),
                                     disk.at("content/sites/shed/site.toml"));
    CHECK(sample::has(head.faults, "sites/shed/site.toml", "the site has no person"));
}

TEST_CASE("folders that are not there are faults") {
    const Disk disk;
    const Loaded loaded = load_content(disk.at("none"), disk.at("assets"), disk.at("nowhere"));
    CHECK(sample::has(loaded.faults, disk.at("none"), "the folder cannot be read"));
    CHECK_FALSE(loaded.ok());
}

TEST_CASE("without a path the whole pack and its sites are proofread") {
    const Disk disk;
    CHECK(disk.proof({}).empty());
    disk.put("content/sites/shed/more.toml", "[[roof]]\n");
    CHECK(sample::has(disk.proof({}), "sites/shed/more.toml", "did you mean \"room\"?"));
}

TEST_CASE("faults of the named files alone are told") {
    const Disk disk;
    const std::string sheet =
        disk.put("content/sheets/crush.toml", broken("sheets/crush.toml", "first", "frist"));
    const std::string round = disk.put("content/rounds/mill-after.toml",
                                       broken("rounds/mill-after.toml", "kind", "knid"));
    CHECK(sample::has(disk.proof({sheet}), "sheets/crush.toml", "did you mean \"first\"?"));
    CHECK_FALSE(sample::has(disk.proof({sheet}), "rounds/mill-after.toml", ""));
    CHECK(sample::has(disk.proof({disk.at("content/rounds")}), "rounds/mill-after.toml", "kind"));
    CHECK(disk.proof({disk.at("content/guides")}).empty());
    CHECK(sample::has(disk.proof({disk.at("content")}), "sheets/crush.toml", "first"));
}

TEST_CASE("a file elsewhere is laid over the pack, and what it breaks in others is told") {
    const Disk disk;
    const std::string draft =
        disk.put("draft/classes/mill.toml",
                 broken("classes/mill.toml", "id = \"looking\"", "id = \"seeing\""));
    const Faults faults = disk.proof({draft});
    CHECK(sample::has(faults, "classes/mill.toml", "does not teach \"seeing\""));
    CHECK(sample::has(faults, "rounds/mill-before.toml", "there is no topic \"looking\""));
    CHECK(
        disk.proof({disk.put("draft/strings/new.toml", "a = { en = \"A\", es = \"A\" }")}).empty());
}

TEST_CASE("a site elsewhere is proofread against the pack") {
    const Disk disk;
    for (const auto& [name, bytes] : sample::site()) disk.put("other/" + name, bytes);
    CHECK_MESSAGE(disk.proof({disk.at("other")}).empty(),
                  sample::lines(disk.proof({disk.at("other")})));
    disk.put("other/site.toml",
             sample::with(sample::site(), "site.toml", "class = \"mill\"", "class = \"kiln\"")
                 .at("site.toml"));
    CHECK(sample::has(disk.proof({disk.at("other")}), disk.at("other/site.toml"), "no class"));
}
