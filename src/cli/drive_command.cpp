#include <fmt/format.h>

#include <filesystem>

#include "cli/binding.hpp"
#include "cli/commands.hpp"
#include "cli/driven_hands.hpp"
#include "cli/output.hpp"
#include "cli/script_site.hpp"
#include "kiosk/illustrations.hpp"
#include "kiosk/window.hpp"
#include "script/runner.hpp"

namespace holdpin {
namespace {

Result<std::unique_ptr<Glass>> open_glass(const Script& script, const ContentDirs& dirs,
                                          bool without_display) {
    if (without_display) {
        return std::unique_ptr<Glass>(TRY(NullGlass::make(script.width, script.height)));
    }
    WindowOptions options;
    options.width = script.width;
    options.height = script.height;
    options.hidden = true;
    options.paint = illustration_paint(dirs.assets + "/illustrations");
    return std::unique_ptr<Glass>(TRY(WindowGlass::open(options)));
}

Result<void> make_out_folder(const std::string& dir) {
    std::error_code failed;
    std::filesystem::create_directories(dir, failed);
    if (failed) return Error{ErrorKind::failed, failed.message(), dir, ""};
    return {};
}

void tell(const Act& act, const Ledger& ledger) {
    say(fmt::format("act {}: {} entries {}", act.number, ledger.size(), hex(ledger.root())));
}

// The sentence that says what was done; an error where the script failed.
Result<std::string> driven(const DriveOptions& options, const ContentDirs& dirs,
                           const std::string& seal_copies) {
    const auto opened = TRY(open_script(options.script, dirs, {options.data, seal_copies}));
    const auto glass = TRY(open_glass(opened->script, dirs, options.without_display));
    const std::string out = options.without_display ? "" : options.out;
    if (!out.empty()) TRY(make_out_folder(out));
    OpenSite& site = *opened->site;
    DrivenHands hands(site.world(), opened->clock, *glass,
                      {out, options.audit, options.every_page, options.silent});
    Runner runner(site.world(), opened->clock, hands);
    if (options.tell) runner.tell_after_each([&](const Act& act) { tell(act, *site.ledger); });
    const RunReport report = runner.run(opened->script);
    if (!report.ok()) {
        // What stood there when it failed says more than the sentence.
        if (!out.empty()) TRY(hands.picture("failed"));
        return Error{ErrorKind::invalid, report.failure, "", ""};
    }
    std::string line = fmt::format("{}: {} acts as expected, {} entries", options.script,
                                   report.acts, report.entries);
    if (!out.empty()) line += fmt::format(", {} pictures in {}", hands.pictures(), out);
    if (options.records.empty()) return line;
    TRY(bind_site(site, {}, options.records, nullptr));
    return line + ", a binder in " + options.records;
}

}  // namespace

int run_drive(const Common& common, const DriveOptions& options) {
    const auto line = driven(options, resolved(common.asked, options.data), common.seal_copies);
    if (!line) {
        complain(line.error());
        return line.error().kind == ErrorKind::absent ? kExitWrongUse : kExitWanting;
    }
    say(line.value());
    return kExitFine;
}

}  // namespace holdpin
