#include "content/folder.hpp"

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>

#include "base/text.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kBytesMax = 8 * 1024 * 1024;

void take_file(Files& files, const fs::path& path, const std::string& shown, Faults& faults) {
    std::error_code code;
    const auto size = fs::file_size(path, code);
    if (!code && size > kBytesMax) {
        faults.push_back({shown, 0, 0, "the file is larger than 8 MiB", "make it smaller"});
        return;
    }
    auto bytes = read_file(path.string());
    if (bytes.ok()) {
        files[shown] = std::move(bytes).value();
    } else {
        faults.push_back({shown, 0, 0, bytes.error().what, bytes.error().mend});
    }
}

bool is_hidden(const fs::path& path) { return path.filename().string().starts_with('.'); }

}  // namespace

bool is_folder(const std::string& path) {
    std::error_code code;
    return fs::is_directory(path, code);
}

bool has_file(const std::string& folder, const std::string& name) {
    std::error_code code;
    return fs::is_regular_file(fs::path(folder) / name, code);
}

std::optional<std::string> name_inside(const std::string& path, const std::string& folder) {
    std::error_code code;
    const fs::path whole = fs::weakly_canonical(path, code);
    const fs::path base = fs::weakly_canonical(folder, code);
    fs::path name = whole.lexically_relative(base);
    if (name.filename().empty()) name = name.parent_path();
    if (code || name.empty() || *name.begin() == "..") return std::nullopt;
    return name.generic_string();
}

Files read_folder(const std::string& path, std::string_view ending, Faults& faults) {
    Files files;
    std::error_code code;
    fs::recursive_directory_iterator at(path, code);
    if (code) {
        faults.push_back({path, 0, 0, "the folder cannot be read: " + code.message(), ""});
        return files;
    }
    for (const fs::recursive_directory_iterator end; at != end && !code; at.increment(code)) {
        const fs::path& found = at->path();
        if (is_hidden(found)) {
            at.disable_recursion_pending();
            continue;
        }
        std::error_code no_matter;
        if (!at->is_regular_file(no_matter) || !found.string().ends_with(ending)) continue;
        if (files.size() == kFilesMax) {
            faults.push_back({path, 0, 0, "the folder holds more than 2000 files", "split it"});
            return files;
        }
        take_file(files, found, found.lexically_relative(path).generic_string(), faults);
    }
    if (code) faults.push_back({path, 0, 0, "the folder cannot be read: " + code.message(), ""});
    return files;
}

Files read_one(const std::string& path, const std::string& shown, Faults& faults) {
    Files files;
    take_file(files, path, shown, faults);
    return files;
}

std::vector<std::string> sites_in(const std::string& pack_dir) {
    std::vector<std::string> sites;
    std::error_code code;
    for (const auto& entry : fs::directory_iterator(fs::path(pack_dir) / "sites", code)) {
        const std::string path = entry.path().string();
        if (has_file(path, "site.toml")) sites.push_back(path);
    }
    std::sort(sites.begin(), sites.end());
    return sites;
}

}  // namespace holdpin
