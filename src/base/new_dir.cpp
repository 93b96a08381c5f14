#include "base/new_dir.hpp"

#include <fcntl.h>
#include <stdlib.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>

namespace holdpin {
namespace {

namespace fs = std::filesystem;

Error failure(std::string what, const std::string& where, const std::error_code& code) {
    return {ErrorKind::failed, std::move(what) + ": " + code.message(), where, ""};
}

// Without a slash at the end, so that a name can be put behind it.
std::string plain(const std::string& dir) {
    std::error_code ignored;
    fs::path path = fs::absolute(dir, ignored).lexically_normal();
    return path.has_filename() ? path.string() : path.parent_path().string();
}

// A rename is on disk when the folder around it is.
void sync_folder(const fs::path& folder) {
    const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle < 0) return;
    ::fsync(handle);
    ::close(handle);
}

Result<void> moved(const std::string& from, const std::string& to) {
    std::error_code failed;
    fs::rename(from, to, failed);
    if (failed) return failure("the folder cannot be put in its place", to, failed);
    sync_folder(fs::path(to).parent_path());
    return {};
}

}  // namespace

Result<NewDir> NewDir::beside(const std::string& dir) {
    std::string place = plain(dir);
    std::error_code failed;
    fs::create_directories(fs::path(place).parent_path(), failed);
    if (failed) return failure("the folder cannot be made", place, failed);
    std::string path = place + ".new-XXXXXX";
    if (::mkdtemp(path.data()) == nullptr) {
        return failure("the folder cannot be made", place,
                       std::error_code(errno, std::generic_category()));
    }
    return NewDir(std::move(place), std::move(path));
}

NewDir::NewDir(NewDir&& other) noexcept
    : dir_(std::move(other.dir_)), path_(std::exchange(other.path_, std::string())) {}

NewDir::~NewDir() {
    std::error_code ignored;
    if (!path_.empty()) fs::remove_all(path_, ignored);
}

Result<void> NewDir::take_place() {
    std::error_code failed;
    if (fs::exists(dir_, failed) &&
        !(fs::is_directory(dir_, failed) && fs::is_empty(dir_, failed))) {
        return Error{ErrorKind::refused, "there is something here already", dir_,
                     "name a folder that does not exist yet"};
    }
    TRY(moved(path_, dir_));
    path_.clear();
    return {};
}

Result<void> NewDir::replace() {
    std::error_code failed;
    const std::string old = path_ + ".old";
    const bool had_one = fs::exists(dir_, failed);
    if (had_one) TRY(moved(dir_, old));
    if (auto done = moved(path_, dir_); !done) {
        if (had_one) TRY(moved(old, dir_));
        return done.error();
    }
    path_.clear();
    fs::remove_all(old, failed);
    return {};
}

}  // namespace holdpin
