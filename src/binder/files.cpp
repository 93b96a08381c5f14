#include "binder/files.hpp"

#include <array>
#include <filesystem>
#include <fstream>

namespace holdpin {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kPart = std::size_t{1} << 12;

Error unreadable() { return {ErrorKind::failed, "cannot be read", "", ""}; }

Error too_long(const char* what, std::size_t most) {
    return {ErrorKind::damaged,
            std::string(what) + " longer than " + std::to_string(most) + " bytes", "", ""};
}

}  // namespace

Result<BinderFiles> files_in(const std::string& dir) {
    BinderFiles files;
    std::error_code failed;
    auto at = fs::recursive_directory_iterator(dir, failed);
    for (; !failed && at != fs::recursive_directory_iterator(); at.increment(failed)) {
        if (at->is_directory(failed) && !at->is_symlink(failed)) continue;
        files.names.push_back(at->path().lexically_relative(dir).generic_string());
    }
    if (failed) {
        return Error{ErrorKind::failed, "this folder cannot be listed: " + failed.message(), dir,
                     "see to it that you may read it, or copy the binder to another disk"};
    }
    files.open = [dir](const std::string& name) -> std::unique_ptr<std::istream> {
        std::error_code unknown;
        const fs::path path = fs::path(dir) / name;
        if (!fs::is_regular_file(fs::symlink_status(path, unknown))) return nullptr;
        return std::make_unique<std::ifstream>(path, std::ios::binary);
    };
    return files;
}

Result<bool> next_line(std::istream& file, std::string& line) {
    line.clear();
    std::array<char, kPart> part{};
    while (line.size() <= kLongestLine) {
        file.getline(part.data(), part.size());
        if (file.bad()) return unreadable();
        const bool ended = file.good();  // then the line feed was counted, too
        line.append(part.data(), static_cast<std::size_t>(file.gcount()) - (ended ? 1 : 0));
        if (ended) return true;
        if (file.eof()) return !line.empty();
        file.clear();  // no fault: the part was full
    }
    return too_long("holds a line", kLongestLine);
}

Result<std::string> whole_text(std::istream& file) {
    std::string text;
    std::array<char, kPart> part{};
    while (file && text.size() <= kLongestText) {
        file.read(part.data(), part.size());
        text.append(part.data(), static_cast<std::size_t>(file.gcount()));
    }
    if (file.bad()) return unreadable();
    if (text.size() > kLongestText) return too_long("is", kLongestText);
    return text;
}

}  // namespace holdpin
