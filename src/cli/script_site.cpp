#include "cli/script_site.hpp"

#include <filesystem>

#include "base/text.hpp"
#include "cli/new_site.hpp"
#include "cli/sheet_folder.hpp"
#include "cli/tag_folder.hpp"

namespace holdpin {
namespace {

std::string site_of(const Script& script, const ContentDirs& dirs) {
    if (script.site.empty()) return dirs.content + "/sites/example";
    return (std::filesystem::path(script.file).parent_path() / script.site).string();
}

}  // namespace

Result<std::unique_ptr<ScriptSite>> open_script(const std::string& path, const ContentDirs& dirs,
                                                const ScriptData& data) {
    auto opened = std::make_unique<ScriptSite>();
    Faults faults;
    opened->script = read_script(path, TRY(read_file(path)), faults);
    TRY(refuse_faults(faults));
    const Script& script = opened->script;
    const std::string from = data.dir.empty() ? site_of(script, dirs) : data.dir + "/site";
    Loaded loaded = load_content(dirs.content, dirs.assets, from);
    TRY(refuse_faults(loaded.faults));
    if (!script.language.empty()) loaded.content.site.language = script.language;
    if (!script.units.empty()) loaded.content.site.units = script.units;
    const Zone zone = TRY(Zone::load(loaded.content.site.zone));
    opened->clock.set_wall(zone.instant(script.date, script.minute_of_day));
    if (!data.dir.empty()) {
        opened->clock.reboot();  // it is another start than the one that made these data
        opened->site = TRY(open_site(data.dir, dirs, opened->clock, opened->random, PinCost::least,
                                     data.seal_copies));
        if (!script.language.empty()) opened->site->content.site.language = script.language;
        opened->site->tags = std::make_unique<TagFolder>(
            opened->site->content, TagFolder::Parts{data.dir + "/" + kTagFolder, {}});
        return opened;
    }
    opened->site = TRY(in_memory_site(std::move(loaded), opened->clock, opened->random));
    constexpr std::int64_t kBinderMs = 20'000;
    opened->binders.emplace(TRY(NewDir::beside(
        (std::filesystem::temp_directory_path() / "holdpin-binders").string())));
    opened->worker = std::make_unique<BinderWorker>(
        *opened->site,
        BinderWorkerOptions{{opened->binders->path()}, false, kBinderMs, make_binder});
    opened->site->binder = opened->worker.get();
    opened->about = std::make_unique<AboutWriter>(*opened->site, *opened->worker);
    opened->site->about_printer = opened->about.get();
    opened->site->tags = std::make_unique<TagFolder>(
        opened->site->content, TagFolder::Parts{opened->binders->path() + "/" + kTagFolder, {}});
    opened->site->data_sheets =
        std::make_unique<SheetFolder>(site_of(script, dirs) + "/" + kSheetFolder);
    return opened;
}

}  // namespace holdpin
