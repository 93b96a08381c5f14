#include <algorithm>
#include <csignal>
#include <future>

#include "cli/about_writer.hpp"
#include "cli/backup.hpp"
#include "cli/binder_worker.hpp"
#include "cli/closed_records.hpp"
#include "cli/commands.hpp"
#include "cli/meter_watch.hpp"
#include "cli/new_site.hpp"
#include "cli/output.hpp"
#include "cli/sheet_folder.hpp"
#include "cli/sheets_only.hpp"
#include "cli/site_data.hpp"
#include "cli/site_facts.hpp"
#include "cli/tag_folder.hpp"
#include "cli/time_stamps.hpp"
#include "devices/sounder.hpp"
#include "flows/app.hpp"
#include "kiosk/illustrations.hpp"
#include "kiosk/window.hpp"

namespace holdpin {
namespace {

// Opening that takes longer is said on the glass.
constexpr std::chrono::milliseconds kOpensAtOnce{700};

volatile std::sig_atomic_t signalled = 0;

void ask_to_stop(int) { signalled = 1; }

WindowOptions window_options(const KioskOptions& asked, const ContentDirs& dirs) {
    WindowOptions options;
    options.width = asked.width;
    options.height = asked.height;
    options.full_screen = !asked.in_window;
    options.px_per_mm = static_cast<float>(asked.px_per_mm);
    options.show_pointer = asked.pointer || asked.in_window;
    options.paint = illustration_paint(dirs.assets + "/illustrations");
    return options;
}

// Nothing can be released, and everybody still has the emergency sheets.
int show_sheets_only(const Common& common, const ContentDirs& dirs, const Error& reason,
                     std::unique_ptr<WindowGlass> glass, const WindowOptions& options) {
    const auto content = content_left(dirs, common.data);
    if (!content) {
        complain(content.error());
        return kExitWanting;
    }
    const RealClock clock;
    SheetFolder data_sheets(common.data + "/" + kSheetFolder);
    SheetsOnly stage(content.value(), reason, &data_sheets);
    run_window(stage, clock, options, std::move(glass));
    return kExitWanting;
}

std::vector<std::string> words_in(const std::string& command) {
    std::vector<std::string> words = split(command, ' ');
    std::erase(words, "");
    return words;
}

TagFolder::Parts tag_parts(const Common& common, const KioskOptions& asked) {
    TagFolder::Parts parts;
    parts.folder = asked.tag_folder.empty() ? common.data + "/" + kTagFolder : asked.tag_folder;
    parts.printer = words_in(asked.tag_printer);
    return parts;
}

using Opening = std::future<Result<std::unique_ptr<OpenSite>>>;

// After an unclean stop all entries of a large site are read again: the sheets stand open
// meanwhile, and whoever reads one then goes on reading. Null: there is no window to show it in.
std::unique_ptr<WindowGlass> show_opening(const Common& common, const ContentDirs& dirs,
                                          const Opening& opening, const WindowOptions& options) {
    const auto content = content_left(dirs, common.data);
    auto glass = WindowGlass::open(options);
    if (!content || !glass) return nullptr;
    const RealClock clock;
    SheetFolder data_sheets(common.data + "/" + kSheetFolder);
    SheetsOnly stage(content.value(), std::nullopt, &data_sheets);
    show_in(*glass.value(), stage, clock, [&] {
        const bool done = opening.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
        return signalled != 0 || (done && stage.is_at_first_page()) ? Beat::stop : Beat::soon;
    });
    return std::move(glass).value();
}

// Those of the site's file, then those of the command line, each once.
std::vector<std::string> binder_folders(const Site& site, const KioskOptions& asked) {
    std::vector<std::string> folders = site.binder_folders;
    for (const std::string& folder : asked.binder_folders) {
        if (std::find(folders.begin(), folders.end(), folder) == folders.end()) {
            folders.push_back(folder);
        }
    }
    return folders;
}

BackupWatch::Parts backup_parts(OpenSite& site, const Common& common, const KioskOptions& asked) {
    const KioskKey& key = site.sealer->key();
    const std::string outside = seal_copy_path(common.seal_copies, key.kiosk_id());
    return {*site.db,
            site.clock,
            key.kiosk_id(),
            asked.backups,
            [key = key.public_key, outside] {
                Evidence evidence{key, {}, {}};
                if (auto seal = seal_outside(outside, key)) evidence.outside = seal.value();
                return evidence;
            },
            [&site] { return !site.ledger_doubt.empty(); },
            [&site](const Error& found) { site.put_in_doubt(found); },
            [](const Error& error) { complain(error); },
            site.db->was_unclean(),
            static_cast<std::uint64_t>(site.content.site.policy.disk_floor_mb) * 1'000'000};
}

StampWatch::Parts stamp_parts(OpenSite& site, const Common& common, const KioskOptions& asked) {
    return {*site.book,
            site.clock,
            words_in(asked.stamper),
            common.data,
            [&site] { return !site.ledger_doubt.empty(); },
            [](const Error& error) { complain(error); }};
}

// What goes on beside the pages.
struct Watches {
    MeterWatch meters;
    StampWatch stamps;
    BackupWatch backups;
};

std::function<Beat()> beat_of(App& app, Watches& watches, bool backed_up) {
    return [&app, &watches, backed_up] {
        app.tick();
        if (signalled != 0) return Beat::stop;
        const bool entered = watches.meters.enter_new();
        watches.stamps.step();
        const auto step = backed_up ? watches.backups.step() : BackupWatch::Step::idle;
        if (entered || step == BackupWatch::Step::found) return Beat::ask_again;
        return step == BackupWatch::Step::busy ? Beat::soon : Beat::nothing;
    };
}

// What the site's file says of them is not taken over; everything else is as it was.
void complain_of_taken_ids(const OpenSite& site) {
    const auto faults = taken_ids(*site.db, site.content.site.people);
    if (!faults) {
        complain(faults.error());
        return;
    }
    for (const Error& fault : faults.value()) complain(fault);
}

int run_open_site(OpenSite& site, const Common& common, const KioskOptions& asked,
                  std::unique_ptr<WindowGlass> glass, WindowOptions options) {
    complain_of_taken_ids(site);
    BinderWorker binders(site, {binder_folders(site.content.site, asked), true, 0, make_binder});
    site.binder = &binders;
    AboutWriter about_me(site, binders);
    site.about_printer = &about_me;
    site.tags = std::make_unique<TagFolder>(site.content, tag_parts(common, asked));
    Watches watches{{site.world(), modbus_meters(site.clock)},
                    StampWatch(stamp_parts(site, common, asked)),
                    BackupWatch(backup_parts(site, common, asked))};
    App app(site.world());
    options.beat = beat_of(app, watches, !asked.backups.empty());
    return run_window(app, site.clock, options, std::move(glass));
}

}  // namespace

int run_kiosk(const Common& common, const KioskOptions& asked) {
    std::signal(SIGTERM, ask_to_stop);
    std::signal(SIGINT, ask_to_stop);
    RealClock clock;
    SystemRandom random;
    const ContentDirs dirs = resolved(common.asked, common.data);
    WindowOptions options = window_options(asked, dirs);
    Loudspeaker loudspeaker;
    options.sound = [&loudspeaker](Sound sound) {
        return loudspeaker.sound(sound == Sound::air ? Alarm::air : Alarm::leave_zone);
    };
    options.beat = [] { return signalled == 0 ? Beat::nothing : Beat::stop; };
    Opening opening = std::async(std::launch::async, [&] {
        return open_site(common.data, dirs, clock, random, PinCost::interactive,
                         common.seal_copies);
    });
    std::unique_ptr<WindowGlass> glass;
    if (opening.wait_for(kOpensAtOnce) == std::future_status::timeout) {
        glass = show_opening(common, dirs, opening, options);
    }
    const auto site = opening.get();
    if (site) return run_open_site(*site.value(), common, asked, std::move(glass), options);
    complain(site.error());
    if (!site_was_here(common.data, common.seal_copies)) return kExitWrongUse;
    return show_sheets_only(common, dirs, site.error(), std::move(glass), options);
}

}  // namespace holdpin
