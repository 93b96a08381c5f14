#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/script_site.hpp"
#include "script/runner.hpp"

namespace holdpin {
namespace {

Result<RunReport> rehearsed(const std::string& path, const ContentDirs& dirs) {
    const auto opened = TRY(open_script(path, dirs));
    PaperHands hands(opened->site->world());
    return Runner(opened->site->world(), opened->clock, hands).run(opened->script);
}

}  // namespace

int run_rehearse(const Common& common, const std::vector<std::string>& scripts) {
    const ContentDirs dirs = resolved(common.asked);
    auto list = nlohmann::json::array();
    bool all_well = true;
    for (const auto& path : scripts) {
        const auto report = rehearsed(path, dirs);
        if (!report && report.error().kind == ErrorKind::absent) {
            complain(report.error());
            return kExitWrongUse;
        }
        const RunReport result =
            report ? report.value() : RunReport{0, report.error().sentence(), 0};
        all_well = all_well && result.ok();
        list.push_back({{"script", path},
                        {"acts", result.acts},
                        {"entries", result.entries},
                        {"ok", result.ok()},
                        {"failure", result.failure}});
        if (common.json) continue;
        say(result.ok() ? fmt::format("{}: {} acts as expected, {} entries", path, result.acts,
                                      result.entries)
                        : result.failure);
    }
    if (common.json) say_json(list);
    return all_well ? kExitFine : kExitWanting;
}

}  // namespace holdpin
