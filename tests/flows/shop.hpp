// The example site in memory with its kiosk, for tests that touch pages as a person would.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <memory>
#include <string>
#include <vector>

#include "cli/site_data.hpp"
#include "flows/app.hpp"
#include "script/shown.hpp"

namespace holdpin {

// 2026-11-25T12:05:00Z, 06:05 in the site's zone: the early shift.
inline constexpr std::int64_t kShopStart = 1795608300000;

struct Shop {
    HandClock clock{kShopStart};
    SeededRandom random{7};
    std::unique_ptr<OpenSite> site;
    std::unique_ptr<App> app;

    explicit Shop(const std::string& language = "en") {
        const ContentDirs dirs = resolved({});
        Loaded loaded =
            load_content(dirs.content, dirs.assets, dirs.content + "/sites/example");
        REQUIRE(loaded.ok());
        loaded.content.site.language = language;
        auto opened = in_memory_site(std::move(loaded), clock, random);
        REQUIRE(opened.ok());
        site = std::move(opened).value();
        restart();
    }
    void restart() { app = std::make_unique<App>(site->world()); }
    void tap(const std::string& id, const std::string& typed = "") {
        clock.pass(1000);
        app->tick();
        app->act({id, typed});
    }
    // Types a badge where it is asked.
    void badge(const std::string& text) { tap("main", text); }
    void pin_of(const std::string& badge_text) {
        for (const Person& person : site->content.site.people) {
            if (person.badge != badge_text) continue;
            if (page_id().starts_with("statement/")) tap("main", person.example_pin);
            tap("main", person.example_pin);
        }
    }
    void sign_on(const std::string& badge_text) {
        tap("sign-on");
        badge(badge_text);
    }
    // The round of a scrubber before use with nothing amiss, up to the PIN. Returns the taps.
    int walk_all_fit() {
        int taps = 0;
        for (const Station& station : site->content.pack.round("scrubber-before-use")->stations) {
            for (const Point& point : station.points) {
                // The whole hours stand there already; the rest is typed, then Next. The gauge of
                // the cylinder is read by its marks.
                const bool hours = point.number && point.number->keeps == "hours";
                taps += hours ? 2 : 1;
                if (point.number) {
                    hours ? tap("next", "1284.6") : tap("mark:80");
                    continue;
                }
                const auto fine = std::find_if(
                    point.readings.begin(), point.readings.end(),
                    [](const Reading& one) { return one.outcome == Outcome::fine; });
                REQUIRE(fine != point.readings.end());
                tap("reading:" + fine->id);
            }
        }
        return taps;
    }
    // As the kiosk's loop does: first what is due, then the page.
    Page page() {
        app->tick();
        return app->page();
    }
    std::string page_id() { return page().id; }
    std::vector<std::string> texts() { return texts_of(page()); }
    bool shows(const std::string& text) { return is_shown(texts(), text); }
    void open_desk(const std::string& badge_text) {
        sign_on(badge_text);
        tap("desk");
        pin_of(badge_text);
        REQUIRE(page_id() == "desk");
    }
    // Entries of a kind.
    std::size_t count_of(const std::string& kind) {
        const auto all = entries();
        return static_cast<std::size_t>(std::count_if(
            all.begin(), all.end(), [&](const Entry& entry) { return entry.kind == kind; }));
    }
    std::vector<Entry> entries() {
        std::vector<Entry> all;
        const auto last = static_cast<std::int64_t>(site->ledger->size());
        REQUIRE(site->ledger->each(1, last, [&](const Entry& entry) -> Result<void> {
            all.push_back(entry);
            return {};
        }).ok());
        return all;
    }
};

}  // namespace holdpin
