// SQLite as a value-returning library: one connection per process, exclusive, WAL, FULL sync.
// Only store/, ledger/ and records/ use it; every SQL text stands in one of those rooms.
// Losing power never loses a committed transaction; a failed commit is reported, never hidden.
// One thread owns a Database; a Query must not outlive it. SQLite before 3.51.3 can damage a WAL
// file that two connections write at once, so a second connection is never opened.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "base/text.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace holdpin {

// A statement that was prepared once and is kept, with its text, by the Database.
struct PreparedStatement {
    std::string sql;
    sqlite3_stmt* statement = nullptr;
    bool in_use = false;
};

// A prepared statement that is being run. Values are bound in order, from the first `?` on;
// columns count from 0. A statement that could not be prepared, or a value that could not be
// bound, comes out as the error of next() or run(). After its last row, next() stays false.
class Query {
  public:
    Query(sqlite3* db, PreparedStatement* held);  // marks `held` as in use
    explicit Query(Error failure) : failure_(std::move(failure)) {}
    Query(Query&& other) noexcept;
    Query(const Query&) = delete;
    Query& operator=(const Query&) = delete;
    ~Query();  // resets the statement, so that it can be used again

    Query& bind(std::int64_t value);
    Query& bind(std::string_view text);
    Query& bind(std::span<const std::uint8_t> blob);
    Query& bind_null();

    Result<bool> next();  // true: a row stands ready
    Result<void> run();   // for statements without rows

    std::int64_t integer(int column) const;
    std::string text(int column) const;
    Bytes blob(int column) const;
    std::span<const std::uint8_t> blob_view(int column) const;  // until the next next()
    bool is_null(int column) const;
    bool is_blob(int column) const;

  private:
    void note_binding(int code);
    sqlite3_stmt* statement() const { return held_ == nullptr ? nullptr : held_->statement; }

    sqlite3* db_ = nullptr;
    PreparedStatement* held_ = nullptr;
    std::optional<Error> failure_;
    int bound_ = 0;
    bool finished_ = false;
};

class Database {
  public:
    struct Options {
        std::string vfs;         // a test VFS; empty: the system's
        bool read_only = false;  // a finished copy, opened immutable
    };

    // Opens or creates `path` (":memory:" for tests), applies the settings, reads them back and
    // migrates. Errors: refused (another program's file, a newer version, in use by the kiosk),
    // damaged, full, failed.
    static Result<std::unique_ptr<Database>> open(const std::string& path, const Options& options);
    ~Database();
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    // Runs `sql`, one constant statement; prepared once and kept. Asked for again while it is
    // still being run, it is prepared a second time, so that the two do not disturb each other.
    Query query(std::string_view sql);
    Result<void> execute(const char* sql);  // several statements, no rows

    // Runs `work` in one transaction: all of it is durable when this returns ok, none otherwise.
    // Transactions do not nest; inside one, `work` is simply run, and if it fails the whole
    // outer transaction does, even when the failure is swallowed on the way.
    Result<void> transaction(const std::function<Result<void>()>& work);
    bool in_transaction() const { return depth_ > 0; }

    Result<void> checkpoint();                      // at quiet moments, outside a transaction
    Result<void> check();                           // quick_check; damaged if not "ok"
    Result<void> copy_to(const std::string& path);  // VACUUM INTO; the target must not exist
    std::int64_t last_row() const;

    bool read_only() const;
    // The program before did not close the file: its write-ahead log was still full on opening.
    bool was_unclean() const { return was_unclean_; }

  private:
    friend class StepCopy;
    explicit Database(sqlite3* db) : db_(db) {}
    Result<void> finish(Result<void> outcome);

    sqlite3* db_;
    std::vector<std::unique_ptr<PreparedStatement>> prepared_;
    int depth_ = 0;
    bool was_unclean_ = false;
    std::optional<Error> spoiled_by_;  // what failed inside the transaction that is running
};

}  // namespace holdpin
