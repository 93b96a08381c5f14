#include "cli/closed_records.hpp"

#include <filesystem>

#include "cli/new_site.hpp"
#include "content/content.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

constexpr const char* kAnyLanguage = "en";  // the page offers the other one

bool holds_anything(const std::string& folder) {
    if (folder.empty()) return false;
    std::error_code failed;
    const fs::directory_iterator items(folder, failed);
    if (failed) return failed != std::errc::no_such_file_or_directory;
    return items != fs::directory_iterator();
}

}  // namespace

bool site_was_here(const std::string& data, const std::string& seal_copies) {
    return holds_anything(data) || holds_anything(seal_copies);
}

Result<Content> content_left(const ContentDirs& dirs, const std::string& data) {
    Loaded own = load_content(dirs.content, dirs.assets, data + "/site");
    if (own.ok()) return std::move(own.content);
    for (const std::string& folder : {dirs.content, default_content_dir()}) {
        LoadedPack pack = load_pack(folder, dirs.assets);
        if (!pack.ok()) continue;
        Content content;
        content.pack = std::move(pack.pack);
        content.site.language = kAnyLanguage;
        return content;
    }
    TRY(refuse_faults(own.faults));
    return Error{ErrorKind::invalid, "there is no content to show", dirs.content, ""};
}

}  // namespace holdpin
