// JPEG data sheets: looked at before they are unpacked, never half a picture.
#include "cli/jpeg_sheet.hpp"

#include <doctest/doctest.h>

#include <filesystem>

#include "base/text.hpp"
#include "cli/sheet_folder.hpp"
#include "devices/bounded_run.hpp"
#include "support/temp_dir.hpp"

using namespace holdpin;

namespace fs = std::filesystem;

namespace {

// A picture of our own as JPEG, packed by the twin of the program that unpacks it.
std::string jpeg(const TempDir& dir, int width, int height, const char* colours = "-optimize") {
    std::string picture = "P6\n" + std::to_string(width) + " " + std::to_string(height) + "\n255\n";
    for (int i = 0; i < width * height; ++i) {
        picture += static_cast<char>(i % 251);
        picture += static_cast<char>(i % 83);
        picture += '\x40';
    }
    REQUIRE(write_file(dir / "in.ppm", picture).ok());
    BoundedRun run;
    run.words = {"cjpeg", colours, "-outfile", dir / "out", dir / "in.ppm"};
    REQUIRE(run_bounded(run).ok());
    return read_file(dir / "out").value();
}

void put(const TempDir& dir, const char* name, const std::string& bytes) {
    REQUIRE(write_file(dir / name, bytes).ok());
}

}  // namespace

TEST_CASE("the size of a JPEG is read from its head, also of one in many scans or in grey") {
    const TempDir dir;
    for (const char* kind : {"-optimize", "-progressive", "-grayscale"}) {
        const auto size = jpeg_size(jpeg(dir, 40, 30, kind));
        REQUIRE(size.ok());
        CHECK(size.value().width == 40);
        CHECK(size.value().height == 30);
    }
    CHECK_FALSE(jpeg_size("").ok());
    CHECK_FALSE(jpeg_size("%PDF-1.4").ok());
    CHECK_FALSE(jpeg_size("\xFF\xD8\xFF").ok());
}

TEST_CASE("a large JPEG is unpacked in eighths, so that no side is above 2000") {
    CHECK(jpeg_eighths({1200, 900}) == 8);
    CHECK(jpeg_eighths({4000, 3000}) == 4);
    CHECK(jpeg_eighths({9000, 100}) == 1);
    CHECK(jpeg_eighths({kMostJpegSide, 1}) == 1);
}

TEST_CASE("a JPEG in the folder is one page, and what was unpacked goes away") {
    const TempDir dir;
    const TempDir sheets;
    put(sheets, "Soap.es.jpg", jpeg(dir, 3000, 1500));
    put(sheets, "Grey.jpeg", jpeg(dir, 50, 20, "-grayscale"));
    std::string drawn;
    {
        SheetFolder folder(sheets / "");
        const auto soap = folder.draw("Soap.es.jpg", 3);
        REQUIRE_MESSAGE(soap.ok(), (soap.ok() ? "" : soap.error().sentence()));
        CHECK(soap.value().width == 1875);  // five eighths
        CHECK(soap.value().page == 1);
        CHECK(soap.value().pages == 1);
        const auto grey = folder.draw("Grey.jpeg", 1);
        REQUIRE(grey.ok());
        CHECK(grey.value().width == 50);
        drawn = grey.value().png;
        CHECK(fs::exists(drawn));
    }
    CHECK_FALSE(fs::exists(drawn));
}

TEST_CASE("a JPEG that is broken anywhere is an error, and never half a picture") {
    const TempDir dir;
    const TempDir sheets;
    const std::string whole = jpeg(dir, 200, 100);
    SheetFolder folder(sheets / "");
    for (const std::size_t length : {std::size_t{0}, std::size_t{3}, std::size_t{100},
                                     whole.size() / 2, whole.size() - 40}) {
        CAPTURE(length);
        put(sheets, "a.jpg", whole.substr(0, length));
        CHECK_FALSE(folder.draw("a.jpg", 1).ok());
    }
    // A size that the file only claims: too large, or more than it holds.
    std::string claims = whole;
    const auto frame = claims.find("\xFF\xC0");
    REQUIRE(frame != std::string::npos);
    claims[frame + 5] = '\x7F';
    put(sheets, "a.jpg", claims);
    CHECK_FALSE(folder.draw("a.jpg", 1).ok());
    claims[frame + 5] = '\x30';
    put(sheets, "a.jpg", claims);
    CHECK_FALSE(folder.draw("a.jpg", 1).ok());
}

TEST_CASE("what was unpacked is read only where it is whole") {
    CHECK(raster_of_pnm("P5\n2 1\n255\nab").ok());
    CHECK(raster_of_pnm("P6\n1 1\n255\nabc").value().rgba.size() == 4);
    for (const char* bytes : {"", "P6", "P6\n1 1\n255\nab", "P5\n2 2\n255\nab", "P5\n0 1\n255\n",
                              "P5\n99999999999 1\n255\n", "P4\n1 1\na", "P5\n1 1\n65535\nab"}) {
        CAPTURE(bytes);
        CHECK_FALSE(raster_of_pnm(bytes).ok());
    }
}
