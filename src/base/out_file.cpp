#include "base/out_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace holdpin {
namespace {

constexpr std::size_t kHeldBack = 1U << 16;

Error write_error(const std::string& path) {
    const int code = errno;
    const bool full = code == ENOSPC || code == EDQUOT || code == EFBIG;
    return {full ? ErrorKind::full : ErrorKind::failed,
            std::string("cannot write: ") + std::strerror(code), path,
            full ? "make room there, or name another place" : ""};
}

}  // namespace

Result<OutFile> OutFile::open(const std::string& path, int mode) {
    const int fd = ::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, mode);
    if (fd < 0) return write_error(path);
    return OutFile(fd, path);
}

OutFile::OutFile(OutFile&& other) noexcept
    : fd_(std::exchange(other.fd_, -1)),
      path_(std::move(other.path_)),
      held_(std::move(other.held_)),
      sum_(other.sum_) {}

OutFile::~OutFile() {
    if (fd_ >= 0) ::close(fd_);
}

Result<void> OutFile::write(std::string_view bytes) {
    held_ += bytes;
    return held_.size() < kHeldBack ? Result<void>{} : flush();
}

Result<void> OutFile::flush() {
    std::string_view rest = held_;
    sum_.update(rest);
    while (!rest.empty()) {
        const ssize_t count = ::write(fd_, rest.data(), rest.size());
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) return write_error(path_);
        rest.remove_prefix(static_cast<std::size_t>(count));
    }
    held_.clear();
    return {};
}

Result<Sha256Digest> OutFile::close() {
    TRY(flush());
    // A device that cannot be synced, such as a pipe, says EINVAL.
    const bool synced = ::fsync(fd_) == 0 || errno == EINVAL;
    if (!synced || ::close(std::exchange(fd_, -1)) != 0) return write_error(path_);
    return sum_.finish();
}

}  // namespace holdpin
