// Opening: settings in an order that matters, each read back, and the refusal of files that are
// not ours. Until a file is known to be ours nothing is written to it.
#include <sqlite3.h>
#include <sys/stat.h>

#include <filesystem>

#include "store/database.hpp"
#include "store/migrations.hpp"
#include "store/sqlite_error.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

constexpr int kBusyTimeoutMs = 2000;  // a kiosk that is just stopping gets this long

bool has_written_ahead(const std::string& path) {
    std::error_code code;
    const auto size = fs::file_size(path + "-wal", code);
    return !code && size > 0;
}

std::string immutable_uri(const std::string& path) {
    std::string uri = "file:";
    for (const char c : path) {
        if (c == '%' || c == '?' || c == '#') {
            uri += '%' + hex(Bytes{static_cast<std::uint8_t>(c)});
        } else {
            uri += c;
        }
    }
    return uri + "?mode=ro&immutable=1";
}

Result<sqlite3*> connect(const std::string& path, const Database::Options& options) {
    const std::string name = options.read_only ? immutable_uri(path) : path;
    const int flags = SQLITE_OPEN_NOFOLLOW | SQLITE_OPEN_EXRESCODE |
                      (options.read_only ? SQLITE_OPEN_READONLY | SQLITE_OPEN_URI
                                         : SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE);
    sqlite3* db = nullptr;
    const int code = sqlite3_open_v2(name.c_str(), &db, flags,
                                     options.vfs.empty() ? nullptr : options.vfs.c_str());
    if (code == SQLITE_OK) return db;
    Error error = sqlite_error(db, code);
    sqlite3_close(db);
    return error;
}

// Keeps SQL in a damaged or foreign file from doing more than hold data.
Result<void> harden(sqlite3* db) {
    struct Switch {
        int option;
        int value;
    };
    constexpr Switch kSwitches[] = {
        {SQLITE_DBCONFIG_DEFENSIVE, 1},
        {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
        {SQLITE_DBCONFIG_DQS_DML, 0},
        {SQLITE_DBCONFIG_DQS_DDL, 0},
        {SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0},
    };
    for (const auto& [option, value] : kSwitches) {
        int now = -1;
        const int code = sqlite3_db_config(db, option, value, &now);
        if (code != SQLITE_OK || now != value) {
            return Error{ErrorKind::failed, "SQLite does not take a setting that is needed", "",
                         "use SQLite 3.37 or later"};
        }
    }
    sqlite3_busy_timeout(db, kBusyTimeoutMs);
    return {};
}

// Closing a file writes its write-ahead log back into it. A foreign file is left as it is.
void write_back_on_close(sqlite3* db, bool wanted) {
    sqlite3_db_config(db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, wanted ? 0 : 1, nullptr);
}

Result<std::string> ask(Database& db, const char* sql) {
    auto query = db.query(sql);
    if (!TRY(query.next())) return std::string();
    return query.text(0);
}

Result<void> demand(Database& db, const char* set, const char* get, std::string_view wanted) {
    TRY(db.query(set).run());
    const std::string now = TRY(ask(db, get));
    if (now == wanted) return {};
    return Error{ErrorKind::failed, std::string(get) + " is " + now + " after \"" + set + "\"", "",
                 "keep the data on a local disk"};
}

// The version of a file of ours, 0 of an empty one. Error: refused.
Result<std::int64_t> version_of(Database& db) {
    const std::string application = TRY(ask(db, "PRAGMA application_id"));
    const std::string version = TRY(ask(db, "PRAGMA user_version"));
    if (application == "0" && version == "0" &&
        TRY(ask(db, "SELECT count(*) FROM sqlite_schema")) == "0") {
        return std::int64_t{0};
    }
    if (application != std::to_string(kApplicationId)) {
        return Error{ErrorKind::refused, "this file belongs to another program", "",
                     "name the data folder that init made"};
    }
    auto query = db.query("PRAGMA user_version");
    TRY(query.next());
    if (query.integer(0) > kSchemaVersion) {
        return Error{ErrorKind::refused,
                     "this file was written by a newer version of Holdpin (data version " +
                         version + ", known here up to " + std::to_string(kSchemaVersion) + ")",
                     "", "install that version again"};
    }
    return query.integer(0);
}

// In exclusive mode the index of the write-ahead log stands in memory and no second process
// gets in; that holds only if it is asked for before anything is read.
Result<void> settle(Database& db, bool in_memory) {
    if (!in_memory) TRY(demand(db, "PRAGMA journal_mode = WAL", "PRAGMA journal_mode", "wal"));
    // FULL syncs the log at every commit: what was said to be kept outlives a power cut.
    TRY(demand(db, "PRAGMA synchronous = FULL", "PRAGMA synchronous", "2"));
    TRY(demand(db, "PRAGMA foreign_keys = ON", "PRAGMA foreign_keys", "1"));
    TRY(demand(db, "PRAGMA recursive_triggers = ON", "PRAGMA recursive_triggers", "1"));
    TRY(demand(db, "PRAGMA cell_size_check = ON", "PRAGMA cell_size_check", "1"));
    // What is erased is overwritten: private texts may have to go for good.
    TRY(demand(db, "PRAGMA secure_delete = ON", "PRAGMA secure_delete", "1"));
    return db.query("PRAGMA mmap_size = 0").run();
}

Result<void> accept_copy(Database& db) {
    if (TRY(version_of(db)) != kSchemaVersion) {
        return Error{ErrorKind::refused, "this copy is empty or of an older version", "",
                     "make a new copy"};
    }
    return {};
}

Result<void> accept_live(Database& db, sqlite3* raw, bool in_memory, bool unclean) {
    write_back_on_close(raw, false);
    // Where it may not write, SQLite opens a file to read only and says so much later.
    if (db.read_only()) return sqlite_error(nullptr, SQLITE_READONLY);
    if (!in_memory) {
        TRY(demand(db, "PRAGMA locking_mode = EXCLUSIVE", "PRAGMA locking_mode", "exclusive"));
    }
    TRY(version_of(db));
    write_back_on_close(raw, true);
    TRY(settle(db, in_memory));
    if (unclean) TRY(db.check());
    return {};
}

// What an older program left is copied as it is before anything in it is changed.
Result<void> keep_older(Database& db, const std::string& path, std::int64_t version) {
    const std::string copy = path + ".version-" + std::to_string(version);
    std::error_code code;
    if (version == 0 || version == kSchemaVersion || fs::exists(copy, code)) return {};
    return db.copy_to(copy);
}

Result<void> bring_up_to_date(Database& db, const std::string& path) {
    const std::int64_t version = TRY(version_of(db));
    if (!path.empty()) TRY(keep_older(db, path, version));
    return migrate(db, version);
}

}  // namespace

Result<std::unique_ptr<Database>> Database::open(const std::string& path, const Options& options) {
    const bool in_memory = path == ":memory:";
    std::error_code code;
    // SQLITE_OPEN_NOFOLLOW refuses a link anywhere in the path, so links are followed here.
    const fs::path resolved = in_memory ? fs::path(path) : fs::weakly_canonical(path, code);
    if (code) return Error{ErrorKind::failed, "cannot open: " + code.message(), path, ""};
    const bool is_new = !in_memory && !fs::exists(resolved, code);
    const bool unclean = !in_memory && has_written_ahead(resolved.string());
    if (options.read_only && unclean) {
        return Error{ErrorKind::refused,
                     "this copy is not finished: a write-ahead log stands "
                     "beside it",
                     path, "open it once as data, or make a new copy"};
    }

    auto connected = connect(resolved.string(), options);
    if (!connected) {
        Error error = connected.error();
        error.where = path;
        return error;
    }
    sqlite3* raw = connected.value();
    std::unique_ptr<Database> db(new Database(raw));
    db->was_unclean_ = unclean;
    // The write-ahead log takes over the mode of the file.
    if (is_new) ::chmod(resolved.c_str(), S_IRUSR | S_IWUSR);
    auto accepted = harden(raw);
    if (accepted) {
        accepted = options.read_only ? accept_copy(*db) : accept_live(*db, raw, in_memory, unclean);
    }
    if (accepted && !options.read_only) {
        accepted = bring_up_to_date(*db, in_memory ? "" : resolved.string());
    }
    if (!accepted) {
        Error error = accepted.error();
        error.where = path;
        return error;
    }
    return db;
}

}  // namespace holdpin
