#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "content/content.hpp"

namespace holdpin {
namespace {

nlohmann::json json_of(const Faults& faults) {
    auto list = nlohmann::json::array();
    for (const Fault& fault : faults) {
        list.push_back({{"file", fault.file},
                        {"line", fault.line},
                        {"column", fault.column},
                        {"what", fault.what},
                        {"mend", fault.mend}});
    }
    return {{"faults", list}};
}

}  // namespace

int run_proof(const Common& common, const std::vector<std::string>& paths) {
    for (const auto& path : paths) {
        std::error_code failed;
        if (!std::filesystem::exists(path, failed)) {
            complain({ErrorKind::absent, "there is no such file or folder", path, ""});
            return kExitWrongUse;
        }
    }
    const ContentDirs dirs = resolved(common.asked);
    const Faults faults = proof(paths, dirs.content, dirs.assets);
    if (common.json) {
        say_json(json_of(faults));
    } else {
        for (const Fault& fault : faults) say(fault.sentence());
        say(faults.empty() ? "No fault found." : fmt::format("Faults: {}", faults.size()));
    }
    return faults.empty() ? kExitFine : kExitWanting;
}

}  // namespace holdpin
