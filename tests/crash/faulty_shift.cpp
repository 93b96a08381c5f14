#include "crash/faulty_shift.hpp"

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "flows/say.hpp"
#include "ledger/check.hpp"
#include "records/fold.hpp"
#include "script/runner.hpp"
#include "script/shown.hpp"

namespace holdpin {
namespace {

// 2026-11-25T11:40:00Z, 05:40 in the site's zone.
constexpr std::int64_t kStart = 1795606800000;
constexpr const char* kFile = "power-disk.db";

// Hands that remember what was last seen, and let go when the kiosk says that something failed.
class WatchfulHands final : public Hands {
  public:
    WatchfulHands(OpenSite& site, Shown& shown)
        : site_(site), shown_(shown), hands_(site.world()) {
        static_cast<void>(note());
    }
    Page page() override { return hands_.page(); }
    std::vector<std::string> shown() override { return hands_.shown(); }
    Result<void> tap(const std::string& target) override {
        TRY(hands_.tap(target));
        return note();
    }
    Result<void> type(const std::string& text) override { return hands_.type(text); }
    Result<void> picture(const std::string&) override { return {}; }
    void power_cut() override { hands_.power_cut(); }

  private:
    Result<void> note() {
        const Page page = hands_.page();
        const auto texts = texts_of(page);
        const Say say(site_.content.pack, page.language);
        if (page.id == "failed" || is_shown(texts, say("failure.heading"))) {
            shown_.failed = texts;
            check_sheets();
            return Error{ErrorKind::failed, "the kiosk said that it failed", "", ""};
        }
        shown_.size = site_.ledger->size();
        shown_.root = site_.ledger->root();
        shown_.page = page.id;
        return {};
    }

    // Though nothing can be stored, every sheet opens that does not begin with a question.
    void check_sheets() {
        REQUIRE(hands_.tap("help").ok());
        CHECK(hands_.page().id == "emergency");
        for (const Sheet& sheet : site_.content.pack.sheets) {
            if (sheet.id == "no-start" || sheet.id == "symptoms") continue;
            REQUIRE(hands_.tap("sheet:" + sheet.id).ok());
            CHECK(hands_.page().id == "sheet/" + sheet.id);
            REQUIRE(hands_.tap("back").ok());
        }
    }

    OpenSite& site_;
    Shown& shown_;
    PaperHands hands_;
};

bool has_signed_round(const std::vector<Entry>& entries, const Entry& release) {
    const auto round = release.data.value("round", std::int64_t{0});
    if (round < 1 || round >= release.n) return false;
    const Entry& entry = entries[static_cast<std::size_t>(round) - 1];
    return entry.kind == "round-signed" && entry.data["machine"] == release.data["machine"] &&
           entry.data.contains("signature");
}

void check_state(OpenSite& site) {
    const auto before = state_digest(*site.db);
    REQUIRE(before.ok());
    REQUIRE(site.book->rebuild().ok());
    CHECK(state_digest(*site.db).value() == before.value());
}

}  // namespace

std::vector<Entry> entries_of(Ledger& ledger) {
    std::vector<Entry> all;
    const auto read = ledger.each(1, static_cast<std::int64_t>(ledger.size()),
                                  [&](const Entry& entry) -> Result<void> {
                                      all.push_back(entry);
                                      return {};
                                  });
    CHECK(read.ok());
    return all;
}

int check_releases(const std::vector<Entry>& entries) {
    int releases = 0;
    for (const Entry& entry : entries) {
        if (entry.kind != "release-given") continue;
        ++releases;
        CHECK(has_signed_round(entries, entry));
    }
    return releases;
}

FaultyShift::FaultyShift() {
    const ContentDirs dirs = resolved({});
    loaded_ = load_content(dirs.content, dirs.assets, dirs.content + "/sites/example");
    REQUIRE(loaded_.ok());
    Faults faults;
    const std::string path = std::string(HOLDPIN_TEST_SOURCE_DIR) + "/tests/crash/shift.toml";
    script_ = read_script(path, read_file(path).value(), faults);
    REQUIRE(faults.empty());
    key_ = kiosk_key_of(Bytes(32, 7)).value();
    HandClock clock(kStart - 86'400'000);
    SeededRandom random(3);
    {
        auto site = open(clock, random);
        REQUIRE(site.ok());
        REQUIRE(enter_new_site(*site.value(), key_).ok());
    }
    image_ = disk_.image();
    const Shown whole = run(0, DiskFault::io_error);
    CAPTURE(joined(whole.failed, " | "));
    REQUIRE(whole.finished);
    whole_size_ = whole.size;
    calls_ = disk_.calls();
}

Result<std::unique_ptr<OpenSite>> FaultyShift::open(Clock& clock, Random& random) {
    SiteParts parts{kFile, key_, Bytes(32, 9), PinCost::least, "", PowerDisk::name()};
    return assemble(loaded_, std::move(parts), clock, random);
}

Shown FaultyShift::run(int nth, DiskFault fault) {
    disk_.put(image_);
    disk_.fail_at(nth, fault, static_cast<std::uint64_t>(nth));
    HandClock clock(kStart);
    clock.reboot();
    SeededRandom random(5);
    Shown shown;
    if (const auto opened = open(clock, random)) {
        OpenSite& site = *opened.value();
        WatchfulHands hands(site, shown);
        shown.finished = Runner(site.world(), clock, hands).run(script_).ok();
    } else {
        shown.failed = {opened.error().sentence()};
    }
    // The site is closed by now, and that writes, too.
    shown.met_fault = disk_.has_failed();
    return shown;
}

void FaultyShift::inspect(const Shown& shown, Tally& tally) {
    disk_.mend();
    ++tally.runs;
    tally.faults += shown.met_fault ? 1 : 0;
    tally.said += shown.said() ? 1 : 0;
    tally.finished += shown.finished ? 1 : 0;
    // Either the shift went to its end, or the kiosk said why it did not.
    CHECK(shown.finished != shown.said());
    HandClock clock(kStart + 86'400'000);
    clock.reboot();
    clock.reboot();
    SeededRandom random(17);
    const auto opened = open(clock, random);
    if (!opened) FAIL(opened.error().sentence());
    OpenSite& site = *opened.value();
    CHECK(look_at_start(*site.db, *site.ledger, key_, "").value().doubt.empty());
    CHECK(site.ledger->size() >= shown.size);
    CHECK(site.ledger->size() <= whole_size_);
    if (shown.finished) CHECK(site.ledger->size() == whole_size_);
    if (shown.size > 0) CHECK(site.ledger->root_at(shown.size).value() == shown.root);
    tally.beyond += site.ledger->size() > shown.size ? 1 : 0;
    const auto report = check_ledger(*site.db, {.public_key = key_.public_key, .outside = {},
                                                .witness = {}, .every_signature = true});
    REQUIRE(report.ok());
    CHECK(report.value().ledger.fault == LedgerFault::none);
    CHECK(report.value().ledger.root == site.ledger->root());
    const int releases = check_releases(entries_of(*site.ledger));
    if (shown.page.starts_with("handed/")) CHECK(releases > 0);
    check_state(site);
    Fact more;
    more.kind = "signed-off";
    more.by = {"p-okafor-lind"};
    CHECK(site.book->enter(more).ok());
}

}  // namespace holdpin
