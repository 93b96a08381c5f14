#include "store/sync_path.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

namespace holdpin {

Result<void> sync_path(const std::string& path) {
    const int fd = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    const bool synced = fd >= 0 && ::fsync(fd) == 0;
    const int code = errno;
    if (fd >= 0) ::close(fd);
    if (synced) return {};
    return Error{ErrorKind::failed, std::string("cannot store: ") + std::strerror(code), path, ""};
}

Result<void> sync_folder_of(const std::string& path) {
    const std::string folder = std::filesystem::path(path).parent_path().string();
    return sync_path(folder.empty() ? "." : folder);
}

}  // namespace holdpin
