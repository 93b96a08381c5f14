#include "store/step_copy.hpp"

#include <sqlite3.h>
#include <sys/stat.h>

#include <filesystem>

#include "store/sqlite_error.hpp"
#include "store/sync_path.hpp"

namespace holdpin {

namespace fs = std::filesystem;

Result<std::uint64_t> copy_size(Database& db) {
    Query size =
        db.query("SELECT page_count * page_size FROM pragma_page_count(), pragma_page_size()");
    TRY(size.next());
    return static_cast<std::uint64_t>(size.integer(0));
}

Result<std::unique_ptr<StepCopy>> StepCopy::begin(Database& db, const std::string& path) {
    std::error_code ignored;
    if (fs::exists(path, ignored)) {
        return Error{ErrorKind::refused, "there is a file already", path, "choose another name"};
    }
    std::unique_ptr<StepCopy> copy(new StepCopy(path));
    fs::remove(copy->part_, ignored);  // left by a copy that was cut off
    TRY(copy->start(db.db_));
    return copy;
}

StepCopy::~StepCopy() {
    close();
    std::error_code ignored;
    if (!placed_) fs::remove(part_, ignored);
}

Result<void> StepCopy::start(sqlite3* source) {
    const int code = sqlite3_open_v2(part_.c_str(), &target_,
                                     SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
    if (code != SQLITE_OK) {
        Error error = sqlite_error(target_, code);
        error.where = part_;
        return error;
    }
    ::chmod(part_.c_str(), S_IRUSR | S_IWUSR);
    // Nobody goes by the copy before it is whole; it is synced once, at its end.
    sqlite3_exec(target_, "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF", nullptr, nullptr,
                 nullptr);
    backup_ = sqlite3_backup_init(target_, "main", source, "main");
    if (backup_ == nullptr) return sqlite_error(target_, sqlite3_errcode(target_));
    return {};
}

Result<bool> StepCopy::step(int pages) {
    if (whole_) return true;
    if (backup_ == nullptr) return Error{ErrorKind::failed, "this copy is over", part_, ""};
    const int code = sqlite3_backup_step(backup_, pages);
    if (code == SQLITE_OK) return false;
    if (code == SQLITE_BUSY || code == SQLITE_LOCKED) return false;  // the next step tries again
    if (code == SQLITE_DONE) {
        TRY(finish());
        return true;
    }
    close();
    Error error = sqlite_error(nullptr, code);
    error.where = part_;
    return error;
}

Result<void> StepCopy::finish() {
    const int code = sqlite3_backup_finish(std::exchange(backup_, nullptr));
    close();
    if (code != SQLITE_OK) return sqlite_error(nullptr, code);
    TRY(sync_path(part_));
    whole_ = true;
    return {};
}

Result<void> StepCopy::take_place() {
    if (!whole_) return Error{ErrorKind::refused, "this copy is not whole", part_, ""};
    std::error_code code;
    fs::rename(part_, path_, code);
    if (code) return Error{ErrorKind::failed, "cannot put in place: " + code.message(), path_, ""};
    placed_ = true;
    return sync_folder_of(path_);
}

void StepCopy::close() {
    if (backup_ != nullptr) sqlite3_backup_finish(std::exchange(backup_, nullptr));
    if (target_ != nullptr) sqlite3_close(std::exchange(target_, nullptr));
}

}  // namespace holdpin
