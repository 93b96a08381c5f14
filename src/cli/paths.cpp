#include "cli/paths.hpp"

#include <cstdlib>
#include <filesystem>

namespace holdpin {
namespace {

namespace fs = std::filesystem;

std::string environment(const char* name) {
    const char* value = std::getenv(name);
    return value == nullptr ? "" : value;
}

// A folder of the program: installed beside it, or in the source tree.
std::string shared_folder(const char* name) {
    std::error_code failed;
    const fs::path program = fs::read_symlink("/proc/self/exe", failed);
    if (!failed) {
        const fs::path installed = program.parent_path().parent_path() / "share/holdpin" / name;
        if (fs::is_directory(installed, failed)) return installed;
    }
    return fs::path(HOLDPIN_SOURCE_DIR) / name;
}

}  // namespace

std::string default_data_dir() {
    // A relative path there is to be ignored, says the XDG base directory specification.
    const std::string data = environment("XDG_DATA_HOME");
    if (data.starts_with('/')) return data + "/holdpin";
    const std::string home = environment("HOME");
    return (home.empty() ? "/var/lib" : home + "/.local/share") + "/holdpin";
}

std::string default_seal_copies() {
    const std::string state = environment("XDG_STATE_HOME");
    if (state.starts_with('/')) return state + "/holdpin/seals";
    const std::string home = environment("HOME");
    return home.empty() ? "/var/lib/holdpin-seals" : home + "/.local/state/holdpin/seals";
}

std::string default_backups() {
    const std::string state = environment("XDG_STATE_HOME");
    if (state.starts_with('/')) return state + "/holdpin/backups";
    const std::string home = environment("HOME");
    return home.empty() ? "/var/lib/holdpin-backups" : home + "/.local/state/holdpin/backups";
}

std::string seal_copy_path(const std::string& folder, const std::string& kiosk_id) {
    return folder.empty() ? "" : folder + "/" + kiosk_id + ".json";
}

std::string default_content_dir() { return shared_folder("content"); }
std::string default_assets_dir() { return shared_folder("assets"); }

ContentDirs resolved(const ContentDirs& asked, const std::string& data_dir) {
    ContentDirs dirs = asked;
    if (dirs.assets.empty()) dirs.assets = default_assets_dir();
    if (!dirs.content.empty()) return dirs;
    std::error_code ignored;
    const std::string adopted = data_dir + "/content";
    const bool has_adopted = !data_dir.empty() && fs::is_directory(adopted, ignored);
    dirs.content = has_adopted ? adopted : default_content_dir();
    return dirs;
}

}  // namespace holdpin
