#include "cli/script_site.hpp"

#include <filesystem>

#include "base/text.hpp"
#include "cli/new_site.hpp"
#include "cli/sheet_folder.hpp"

namespace holdpin {
namespace {

std::string site_of(const Script& script, const ContentDirs& dirs) {
    if (script.site.empty()) return dirs.content + "/sites/example";
    return (std::filesystem::path(script.file).parent_path() / script.site).string();
}

}  // namespace

Result<std::unique_ptr<ScriptSite>> open_script(const std::string& path, const ContentDirs& dirs) {
    auto opened = std::make_unique<ScriptSite>();
    Faults faults;
    opened->script = read_script(path, TRY(read_file(path)), faults);
    TRY(refuse_faults(faults));
    const Script& script = opened->script;
    Loaded loaded = load_content(dirs.content, dirs.assets, site_of(script, dirs));
    TRY(refuse_faults(loaded.faults));
    if (!script.language.empty()) loaded.content.site.language = script.language;
    if (!script.units.empty()) loaded.content.site.units = script.units;
    const Zone zone = TRY(Zone::load(loaded.content.site.zone));
    opened->clock.set_wall(zone.instant(script.date, script.minute_of_day));
    opened->site = TRY(in_memory_site(std::move(loaded), opened->clock, opened->random));
    opened->site->data_sheets =
        std::make_unique<SheetFolder>(site_of(script, dirs) + "/" + kSheetFolder);
    return opened;
}

}  // namespace holdpin
