#include "store/database.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "store/sqlite_error.hpp"
#include "store/sync_path.hpp"

namespace holdpin {
// ---- Query ----

Query::Query(sqlite3* db, PreparedStatement* held) : db_(db), held_(held) { held_->in_use = true; }

Query::Query(Query&& other) noexcept
    : db_(other.db_),
      held_(std::exchange(other.held_, nullptr)),
      failure_(std::move(other.failure_)),
      bound_(other.bound_),
      finished_(other.finished_) {}

Query::~Query() {
    if (held_ == nullptr) return;
    // A reset repeats the error of the last step, which next() has already returned.
    sqlite3_reset(held_->statement);
    sqlite3_clear_bindings(held_->statement);
    held_->in_use = false;
}

void Query::note_binding(int code) {
    if (code != SQLITE_OK && !failure_) failure_ = sqlite_error(db_, code);
}

Query& Query::bind(std::int64_t value) {
    if (statement() != nullptr) note_binding(sqlite3_bind_int64(statement(), ++bound_, value));
    return *this;
}

Query& Query::bind(std::string_view text) {
    if (statement() == nullptr) return *this;
    const char* bytes = text.empty() ? "" : text.data();  // a null pointer would bind NULL
    note_binding(sqlite3_bind_text64(statement(), ++bound_, bytes, text.size(), SQLITE_TRANSIENT,
                                     SQLITE_UTF8));
    return *this;
}

Query& Query::bind(std::span<const std::uint8_t> blob) {
    if (statement() == nullptr) return *this;
    const void* bytes = blob.empty() ? static_cast<const void*>("") : blob.data();
    note_binding(sqlite3_bind_blob64(statement(), ++bound_, bytes, blob.size(), SQLITE_TRANSIENT));
    return *this;
}

Query& Query::bind_null() {
    if (statement() != nullptr) note_binding(sqlite3_bind_null(statement(), ++bound_));
    return *this;
}

Result<bool> Query::next() {
    if (failure_) return *failure_;
    if (finished_ || held_ == nullptr) return false;
    const int code = sqlite3_step(held_->statement);
    if (code == SQLITE_ROW) return true;
    finished_ = true;  // another step would run the statement a second time
    if (code == SQLITE_DONE) return false;
    failure_ = sqlite_error(db_, code);
    return *failure_;
}

Result<void> Query::run() {
    while (TRY(next())) {
    }
    return {};
}

std::int64_t Query::integer(int column) const {
    return statement() == nullptr ? 0 : sqlite3_column_int64(statement(), column);
}

std::string Query::text(int column) const {
    if (statement() == nullptr) return {};
    // sqlite3_column_bytes counts the bytes of the form that was asked for last.
    const unsigned char* text = sqlite3_column_text(statement(), column);
    const int size = sqlite3_column_bytes(statement(), column);
    if (text == nullptr) return {};
    return {text, text + size};
}

Bytes Query::blob(int column) const {
    if (statement() == nullptr) return {};
    const auto* bytes = static_cast<const std::uint8_t*>(sqlite3_column_blob(statement(), column));
    const int size = sqlite3_column_bytes(statement(), column);
    if (bytes == nullptr) return {};
    return {bytes, bytes + size};
}

std::span<const std::uint8_t> Query::blob_view(int column) const {
    if (statement() == nullptr) return {};
    const auto* bytes = static_cast<const std::uint8_t*>(sqlite3_column_blob(statement(), column));
    const int size = sqlite3_column_bytes(statement(), column);
    if (bytes == nullptr) return {};
    return {bytes, static_cast<std::size_t>(size)};
}

bool Query::is_null(int column) const {
    return statement() == nullptr || sqlite3_column_type(statement(), column) == SQLITE_NULL;
}

bool Query::is_blob(int column) const {
    return sqlite3_column_type(statement(), column) == SQLITE_BLOB;
}

// ---- Database ----

Database::~Database() {
    for (const auto& held : prepared_) sqlite3_finalize(held->statement);
    sqlite3_close(db_);
}

Query Database::query(std::string_view sql) {
    const auto idle = std::find_if(prepared_.begin(), prepared_.end(), [&](const auto& held) {
        return !held->in_use && held->sql == sql;
    });
    if (idle != prepared_.end()) return {db_, idle->get()};

    auto held = std::make_unique<PreparedStatement>();
    held->sql = sql;
    const char* rest = nullptr;
    const int code = sqlite3_prepare_v3(db_, held->sql.c_str(), static_cast<int>(sql.size()) + 1,
                                        SQLITE_PREPARE_PERSISTENT, &held->statement, &rest);
    if (code != SQLITE_OK) {
        Error failure = sqlite_error(db_, code);
        failure.where = held->sql;
        return Query(std::move(failure));
    }
    if (held->statement == nullptr || !trimmed(rest).empty()) {
        sqlite3_finalize(held->statement);
        return Query(Error{ErrorKind::invalid, "a query is exactly one statement", held->sql, ""});
    }
    prepared_.push_back(std::move(held));
    return {db_, prepared_.back().get()};
}

Result<void> Database::execute(const char* sql) {
    const int code = sqlite3_exec(db_, sql, nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) return sqlite_error(db_, code);
    return {};
}

Result<void> Database::transaction(const std::function<Result<void>()>& work) {
    if (depth_ > 0) {
        auto outcome = work();
        if (!outcome && !spoiled_by_) spoiled_by_ = outcome.error();
        return outcome;
    }
    // IMMEDIATE takes the right to write at once, not at the first write.
    TRY(execute("BEGIN IMMEDIATE"));
    spoiled_by_.reset();
    ++depth_;
    auto outcome = work();
    --depth_;
    return finish(std::move(outcome));
}

Result<void> Database::finish(Result<void> outcome) {
    if (outcome && spoiled_by_) outcome = *spoiled_by_;
    if (outcome && sqlite3_get_autocommit(db_) != 0) {
        outcome = Error{ErrorKind::failed, "the transaction had ended before its time", "", ""};
    }
    if (outcome) outcome = execute("COMMIT");
    // After some failures (a full disk, an I/O error) SQLite has rolled back by itself.
    if (!outcome && sqlite3_get_autocommit(db_) == 0) {
        if (const auto undone = execute("ROLLBACK"); !undone) return undone;
    }
    return outcome;
}

Result<void> Database::checkpoint() {
    auto query = this->query("PRAGMA wal_checkpoint(TRUNCATE)");
    if (TRY(query.next()) && query.integer(0) != 0) {
        return Error{ErrorKind::refused, "the write-ahead log is in use and was not emptied", "",
                     ""};
    }
    return {};
}

Result<void> Database::check() {
    auto query = this->query("PRAGMA quick_check(1)");
    if (TRY(query.next()) && query.text(0) == "ok") return {};
    return Error{ErrorKind::damaged, "the stored data is damaged: " + query.text(0), "",
                 "go back to the last good copy"};
}

Result<void> Database::copy_to(const std::string& path) {
    namespace fs = std::filesystem;
    std::error_code ignored;
    if (fs::exists(path, ignored)) {
        return Error{ErrorKind::refused, "there is a file already", path, "choose another name"};
    }
    const std::string beside = path + ".part";
    fs::remove(beside, ignored);  // left by a copy that was cut off
    TRY(query("VACUUM INTO ?").bind(beside).run());
    TRY(sync_path(beside));
    std::error_code code;
    fs::rename(beside, path, code);
    if (code) return Error{ErrorKind::failed, "cannot put in place: " + code.message(), path, ""};
    return sync_folder_of(path);
}

std::int64_t Database::last_row() const { return sqlite3_last_insert_rowid(db_); }

bool Database::read_only() const { return sqlite3_db_readonly(db_, "main") == 1; }

}  // namespace holdpin
