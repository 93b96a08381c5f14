// Safety data sheets as files: what is listed, what is drawn, and what is not.
#include "cli/sheet_folder.hpp"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <chrono>
#include <filesystem>

#include "base/text.hpp"
#include "cli/paths.hpp"
#include "support/temp_dir.hpp"

using namespace holdpin;

namespace fs = std::filesystem;

namespace {

constexpr const char* kCleaner = "FC-20,_floor_cleaner.en.pdf";
constexpr const char* kGranules = "AG-1,_absorbent_granules.en.png";

std::string example_folder() { return resolved({}).content + "/sites/example/sds"; }

void put(const std::string& path, const std::string& bytes) {
    REQUIRE(write_file(path, bytes).ok());
}

// A program of our own in the place of a real one.
std::string fake(const TempDir& dir, const std::string& name, const std::string& does) {
    put(dir / name, "#!/bin/sh\n" + does + "\n");
    REQUIRE(::chmod((dir / name).c_str(), 0700) == 0);
    return dir / name;
}

std::string example_pdf() { return read_file(example_folder() + "/" + kCleaner).value(); }

}  // namespace

TEST_CASE("the file's name gives the product's name and the language") {
    CHECK(data_sheet_of("FC-20.es.pdf").name == "FC-20");
    CHECK(data_sheet_of("FC-20.es.pdf").language == "es");
    CHECK(data_sheet_of("Floor_cleaner.pdf").name == "Floor cleaner");
    CHECK(data_sheet_of("v2.1.pdf").name == "v2.1");
    CHECK(data_sheet_of("v2.1.pdf").language.empty());
    CHECK(data_sheet_of("jab\xC3\xB3n.pdf").name == "jabón");
    CHECK(data_sheet_of("a\nb\x7F.pdf").name == "a?b?");
    CHECK(data_sheet_of("a\xFF\xC3.pdf").name == "a??");
    CHECK(data_sheet_of(kCleaner).name == "FC-20");
    CHECK(data_sheet_of(kCleaner).kind == "floor cleaner");
    CHECK(data_sheet_of(kCleaner).language == "en");
    CHECK(data_sheet_of("FC-20,.pdf").kind.empty());
    CHECK(code_points(data_sheet_of("a," + std::string(200, 'x') + ".pdf").kind) == 60);
    CHECK(code_points(data_sheet_of(std::string(200, 'x') + ".pdf").name) == 60);
}

TEST_CASE("only PDF, JPEG and PNG files that stand in the folder itself are listed") {
    const TempDir dir;
    fs::create_directory(dir / "below");
    for (const char* name : {"b.PDF", "a.png", ".hidden.pdf", "notes.txt", "below/c.pdf", "c.JPG",
                             "d.jpeg"}) {
        put(dir / name, "x");
    }
    fs::create_symlink("/etc/hostname", dir / "link.pdf");
    fs::create_directory(dir / "folder.pdf");
    const auto sheets = SheetFolder(dir / "").list();
    REQUIRE(sheets.size() == 4);
    CHECK(sheets[0].id == "a.png");
    CHECK(sheets[1].id == "b.PDF");
    CHECK(sheets[2].id == "c.JPG");
    CHECK(SheetFolder(dir / "nowhere").list().empty());
}

TEST_CASE("a PDF is drawn page by page, a PNG shown as it is, and nothing stays behind") {
    std::string drawn;
    {
        SheetFolder folder(example_folder());
        const auto first = folder.draw(kCleaner, 1);
        REQUIRE_MESSAGE(first.ok(), (first.ok() ? "" : first.error().sentence()));
        CHECK(first.value().pages == 2);
        CHECK(first.value().height == 2000);
        drawn = first.value().png;
        CHECK(fs::exists(drawn));
        const auto last = folder.draw(kCleaner, 99);
        REQUIRE(last.ok());
        CHECK(last.value().page == 2);
        CHECK_FALSE(fs::exists(drawn));
        const auto picture = folder.draw(kGranules, 1);
        REQUIRE(picture.ok());
        CHECK(picture.value().width == 1000);
        CHECK(picture.value().pages == 1);
        drawn = last.value().png;
    }
    CHECK_FALSE(fs::exists(fs::path(drawn).parent_path()));
}

TEST_CASE("names with odd characters are drawn, and reach no shell") {
    const TempDir dir;
    const std::string odd = "-q $(touch hit); 'a' \"b\"\n*.pdf";
    put(dir / odd, example_pdf());
    SheetFolder folder(dir / "");
    REQUIRE(folder.list().size() == 1);
    CHECK(folder.list()[0].name == "-q $(touch hit); 'a' \"b\"?*");
    CHECK(folder.draw(odd, 1).ok());
    CHECK(dir.items() == 1);
}

TEST_CASE("a name that was not listed opens nothing") {
    SheetFolder folder(example_folder());
    for (const char* id : {"../site.toml", "/etc/hostname", "", "FC-20",
                           "../sds/FC-20,_floor_cleaner.en.pdf"}) {
        CAPTURE(id);
        CHECK(folder.draw(id, 1).error().kind == ErrorKind::absent);
    }
}

TEST_CASE("a broken file of any kind is an error and no more") {
    const TempDir dir;
    const std::string whole = example_pdf();
    put(dir / "empty.pdf", "");
    put(dir / "words.pdf", "this is no PDF");
    put(dir / "half.pdf", whole.substr(0, whole.size() / 3));
    put(dir / "words.png", "this is no PNG, and longer than its head");
    const std::string png = read_file(example_folder() + "/" + kGranules).value();
    put(dir / "short.png", png.substr(0, 20));
    std::string huge = png;
    huge[16] = '\x7F';  // its width
    put(dir / "huge.png", huge);
    SheetFolder folder(dir / "");
    for (const DataSheet& sheet : folder.list()) {
        CAPTURE(sheet.id);
        CHECK_FALSE(folder.draw(sheet.id, 1).ok());
    }
}

TEST_CASE("a program that hangs, dies or draws nothing leaves the kiosk with an error") {
    const TempDir dir;
    const TempDir programs;
    put(dir / "x.pdf", example_pdf());
    const std::string two_pages = fake(programs, "info", "echo 'Pages:           2'");
    const auto before = std::chrono::steady_clock::now();
    for (const char* does : {"sleep 60", "exit 1", "kill -SEGV $$", "exit 0"}) {
        CAPTURE(does);
        SheetFolder folder(dir / "", {fake(programs, "draw", does), two_pages, 300});
        CHECK_FALSE(folder.draw("x.pdf", 1).ok());
    }
    for (const char* says : {"sleep 60", "echo nothing", "echo 'Pages: -1'", "echo 'Pages: 1e9'"}) {
        CAPTURE(says);
        SheetFolder folder(dir / "", {"pdftocairo", fake(programs, "bad", says), 300});
        CHECK_FALSE(folder.draw("x.pdf", 1).ok());
    }
    SheetFolder missing(dir / "", {"holdpin-no-such", "holdpin-no-such", 300});
    CHECK(missing.draw("x.pdf", 1).error().kind == ErrorKind::absent);
    CHECK(std::chrono::steady_clock::now() - before < std::chrono::seconds(10));
}

TEST_CASE("a new site has the sheets that lie beside its file, and a folder in any case") {
    const TempDir with;
    REQUIRE(copy_sheets(resolved({}).content + "/sites/example", with / "").ok());
    CHECK(SheetFolder(with / "sds").list().size() == 4);
    const TempDir without;
    const TempDir bare;
    REQUIRE(copy_sheets(bare / "", without / "").ok());
    CHECK(fs::is_directory(without / "sds"));
}
