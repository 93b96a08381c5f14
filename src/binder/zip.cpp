#include "binder/zip.hpp"

#include <archive.h>
#include <archive_entry.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <memory>
#include <optional>
#include <vector>

#include "base/out_file.hpp"
#include "binder/folder.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kZipPart = 1U << 16;

Error archive_failure(archive* handle, const std::string& where, ErrorKind kind) {
    const int code = archive_errno(handle);
    const char* text = archive_error_string(handle);
    if (code == ENOSPC || code == EDQUOT || code == EFBIG) kind = ErrorKind::full;
    return {kind, std::string("the zip: ") + (text == nullptr ? "unknown" : text), where,
            kind == ErrorKind::full ? "make room there, or name another place" : ""};
}

struct EntryGone {
    void operator()(archive_entry* entry) const { archive_entry_free(entry); }
};
using EntryPtr = std::unique_ptr<archive_entry, EntryGone>;

struct WriterGone {
    void operator()(archive* handle) const { archive_write_free(handle); }
};
struct ReaderGone {
    void operator()(archive* handle) const { archive_read_free(handle); }
};

// What the library writes into.
struct Target {
    OutFile file;
    std::optional<Error> failure;
};

la_ssize_t write_part(archive* handle, void* target, const void* bytes, std::size_t size) {
    auto& to = *static_cast<Target*>(target);
    const auto written = to.file.write({static_cast<const char*>(bytes), size});
    if (written) return static_cast<la_ssize_t>(size);
    to.failure = written.error();
    archive_set_error(handle, EIO, "cannot write");
    return -1;
}

Result<std::vector<std::string>> files_below(const std::string& dir) {
    std::vector<std::string> names;
    std::error_code failed;
    for (auto at = fs::recursive_directory_iterator(dir, failed);
         !failed && at != fs::recursive_directory_iterator(); at.increment(failed)) {
        if (at->is_regular_file()) names.push_back(fs::relative(at->path(), dir).string());
    }
    if (failed) return Error{ErrorKind::failed, failed.message(), dir, ""};
    std::sort(names.begin(), names.end());
    return names;
}

Result<void> add_file(archive* out, const std::string& dir, const std::string& name,
                      std::int64_t time_ms) {
    const std::string path = dir + "/" + name;
    std::error_code failed;
    const auto size = fs::file_size(path, failed);
    std::ifstream file(path, std::ios::binary);
    if (failed || !file) return Error{ErrorKind::failed, "cannot be read", path, ""};
    const EntryPtr entry(archive_entry_new());
    archive_entry_set_pathname(entry.get(), name.c_str());
    archive_entry_set_size(entry.get(), static_cast<la_int64_t>(size));
    archive_entry_set_filetype(entry.get(), AE_IFREG);
    archive_entry_set_perm(entry.get(), 0644);
    archive_entry_set_mtime(entry.get(), time_t{time_ms / 1000}, 0);
    if (archive_write_header(out, entry.get()) != ARCHIVE_OK) {
        return archive_failure(out, name, ErrorKind::failed);
    }
    std::vector<char> part(kZipPart);
    while (file) {
        file.read(part.data(), static_cast<std::streamsize>(part.size()));
        const auto count = static_cast<std::size_t>(file.gcount());
        if (count > 0 && archive_write_data(out, part.data(), count) < 0) {
            return archive_failure(out, name, ErrorKind::failed);
        }
    }
    return {};
}

Result<void> take_file(archive* in, const std::string& path) {
    std::error_code failed;
    fs::create_directories(fs::path(path).parent_path(), failed);
    OutFile file = TRY(OutFile::open(path));
    std::vector<char> part(kZipPart);
    while (true) {
        const auto count = archive_read_data(in, part.data(), part.size());
        if (count < 0) return archive_failure(in, path, ErrorKind::damaged);
        if (count == 0) break;
        TRY(file.write({part.data(), static_cast<std::size_t>(count)}));
    }
    TRY(file.close());
    return {};
}

}  // namespace

Result<void> zip_folder(const std::string& dir, const std::string& zip, std::int64_t time_ms,
                        const std::function<bool()>& go_on) {
    Target target{TRY(OutFile::open(zip, 0600)), std::nullopt};
    // A failure of the file says more than what the library makes of it.
    const auto failed_at = [&](archive* handle, const std::string& where) {
        return target.failure.value_or(archive_failure(handle, where, ErrorKind::failed));
    };
    const std::unique_ptr<archive, WriterGone> out(archive_write_new());
    archive_write_set_bytes_in_last_block(out.get(), 1);  // no padding behind the end
    if (archive_write_set_format_zip(out.get()) != ARCHIVE_OK ||
        archive_write_open(out.get(), &target, nullptr, write_part, nullptr) != ARCHIVE_OK) {
        return failed_at(out.get(), zip);
    }
    for (const auto& name : TRY(files_below(dir))) {
        if (!go_on()) return cancelled();
        const auto added = add_file(out.get(), dir, name, time_ms);
        if (!added) return target.failure.value_or(added.error());
    }
    if (archive_write_close(out.get()) != ARCHIVE_OK) return failed_at(out.get(), zip);
    TRY(target.file.close());
    return {};
}

Result<void> unzip_into(const std::string& zip, const std::string& dir) {
    const std::unique_ptr<archive, ReaderGone> in(archive_read_new());
    archive_read_support_format_zip(in.get());
    if (archive_read_open_filename(in.get(), zip.c_str(), kZipPart) != ARCHIVE_OK) {
        return archive_failure(in.get(), zip, ErrorKind::damaged);
    }
    archive_entry* entry = nullptr;
    int code = ARCHIVE_OK;
    while ((code = archive_read_next_header(in.get(), &entry)) == ARCHIVE_OK) {
        const char* stored = archive_entry_pathname(entry);
        const std::string name = stored == nullptr ? "" : stored;
        const std::string path = dir + "/" + name;
        std::error_code failed;
        if (!is_binder_name(name) || archive_entry_filetype(entry) != AE_IFREG ||
            fs::exists(path, failed)) {
            return Error{ErrorKind::damaged, "the zip holds something that no binder has", name,
                         ""};
        }
        TRY(take_file(in.get(), path));
    }
    if (code != ARCHIVE_EOF) return archive_failure(in.get(), zip, ErrorKind::damaged);
    return {};
}

}  // namespace holdpin
