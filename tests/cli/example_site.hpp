// The example site, set up in a folder of its own; and a copy of it as a real site.
#pragma once

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "cli/site_data.hpp"
#include "support/temp_dir.hpp"

namespace holdpin {

// 2026-11-25T11:40:00Z, 05:40 in the site's zone.
inline constexpr std::int64_t kExampleStart = 1795606800000;

struct ExampleSite {
    TempDir temp;
    HandClock clock{kExampleStart};
    SeededRandom random{11};
    ContentDirs dirs = resolved({});
    std::string data = temp / "data";
    std::string source = dirs.content + "/sites/example";

    Result<InitReport> init() {
        return init_site(data, source, dirs, clock, random, PinCost::least);
    }
    Result<std::unique_ptr<OpenSite>> open() {
        return open_site(data, dirs, clock, random, PinCost::least);
    }
    // A copy of the site's files with one text in place of another, in every file.
    std::string changed_copy(const std::string& name, const std::string& from,
                             const std::string& to) {
        const std::string copy = temp / name;
        std::filesystem::create_directories(copy);
        for (const auto& item : std::filesystem::directory_iterator(source)) {
            if (item.path().extension() != ".toml") continue;
            std::string text = read_file(item.path().string()).value();
            for (auto at = text.find(from); at != text.npos; at = text.find(from, at + to.size())) {
                text.replace(at, from.size(), to);
            }
            REQUIRE(write_file(copy + "/" + item.path().filename().string(), text).ok());
        }
        return copy;
    }
    // As a real site: not an example, no PINs, no training brought along.
    std::string real_copy() {
        std::string copy = changed_copy("real", "example = true", "example = false");
        std::filesystem::remove(copy + "/history.toml");
        std::string people;
        for (const auto& line : split(read_file(copy + "/people.toml").value(), '\n')) {
            if (!line.starts_with("example_pin")) people += line + "\n";
        }
        REQUIRE(write_file(copy + "/people.toml", people).ok());
        return copy;
    }
};

}  // namespace holdpin
