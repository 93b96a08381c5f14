// A script and the site it runs on, in memory, at the local time at which the script begins.
#pragma once

#include <memory>
#include <string>

#include "base/clock.hpp"
#include "base/random.hpp"
#include "cli/about_writer.hpp"
#include "cli/binder_worker.hpp"
#include "cli/site_data.hpp"
#include "script/act.hpp"

namespace holdpin {

struct ScriptSite {
    Script script;
    HandClock clock{0};
    SeededRandom random{1};  // the same script, the same salts and questions
    std::unique_ptr<OpenSite> site;
    std::optional<NewDir> binders;  // where binders and tags are put; goes away with the script
    std::unique_ptr<BinderWorker> worker;
    std::unique_ptr<AboutWriter> about;
};

// All faults of the script and of the content come as one error.
// With `data`, a site's data directory, the script runs on that.
struct ScriptData {
    std::string dir;
    std::string seal_copies;
};
Result<std::unique_ptr<ScriptSite>> open_script(const std::string& path, const ContentDirs& dirs,
                                                const ScriptData& data = {});

}  // namespace holdpin
