#include "binder/folder.hpp"

#include <filesystem>
#include <fstream>

#include "base/text.hpp"

namespace holdpin {

namespace fs = std::filesystem;

Error cancelled() { return {ErrorKind::refused, "the binder was cancelled", "", ""}; }

bool is_binder_name(const std::string& name) {
    constexpr std::string_view kLetters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_./";
    if (name.empty() || name.find_first_not_of(kLetters) != name.npos) return false;
    for (const auto& part : split(name, '/')) {
        if (part.empty() || part.starts_with('.')) return false;
    }
    return true;
}

Result<std::string> sum_of(std::istream& file) {
    Sha256 sum;
    std::string part(1U << 16, '\0');
    while (file) {
        file.read(part.data(), static_cast<std::streamsize>(part.size()));
        sum.update(std::string_view(part).substr(0, static_cast<std::size_t>(file.gcount())));
    }
    if (file.bad()) return Error{ErrorKind::failed, "this file cannot be read", "", ""};
    return hex(sum.finish());
}

Result<OutFile> BinderFolder::open(const std::string& name) {
    if (!is_binder_name(name) || sums_.contains(name)) {
        return Error{ErrorKind::refused, "a file of a binder cannot have this name", name, ""};
    }
    const fs::path path = fs::path(path_) / name;
    std::error_code failed;
    fs::create_directories(path.parent_path(), failed);
    if (failed) return Error{ErrorKind::failed, failed.message(), path.string(), ""};
    return OutFile::open(path.string());
}

Result<void> BinderFolder::close(const std::string& name, OutFile& file) {
    sums_[name] = hex(TRY(file.close()));
    return {};
}

Result<void> BinderFolder::put(const BinderFile& file) {
    OutFile out = TRY(open(file.path));
    TRY(out.write(file.bytes));
    return close(file.path, out);
}

Result<void> BinderFolder::note(const std::string& name) {
    const std::string path = path_ + "/" + name;
    std::ifstream file(path, std::ios::binary);
    if (!file) return Error{ErrorKind::absent, "this file is missing or cannot be read", path, ""};
    sums_[name] = TRY(sum_of(file));
    return {};
}

std::string BinderFolder::sums() const {
    std::string lines;
    for (const auto& [name, sum] : sums_) lines += sum + "  " + name + "\n";
    return lines;
}

}  // namespace holdpin
