#include "picture/png.hpp"

#include <doctest/doctest.h>

#include <filesystem>

using namespace holdpin;

TEST_CASE("a picture is written as a PNG file") {
    const auto path = std::filesystem::temp_directory_path() / "holdpin-png-test.png";
    const Raster raster{2, 1, {255, 0, 0, 255, 0, 0, 255, 128}};
    CHECK(write_png(path.string(), raster).ok());
    CHECK(std::filesystem::file_size(path) > 50);
    std::filesystem::remove(path);
}

TEST_CASE("a picture whose bytes do not fit its size is refused") {
    CHECK(write_png("unused.png", Raster{2, 2, {1, 2, 3}}).error().kind == ErrorKind::invalid);
    CHECK_FALSE(write_png("unused.png", Raster{}).ok());
}

TEST_CASE("a folder that is not there gives a sentence") {
    const auto written = write_png("/nowhere/at/all.png", Raster{1, 1, {0, 0, 0, 255}});
    REQUIRE_FALSE(written.ok());
    CHECK(written.error().sentence().starts_with("/nowhere/at/all.png: the PNG file"));
}
