#include "store/sqlite_error.hpp"

#include <sqlite3.h>

namespace holdpin {

Error sqlite_error(sqlite3* db, int code) {
    const std::string said = db == nullptr ? sqlite3_errstr(code) : sqlite3_errmsg(db);
    switch (code & 0xff) {  // the low byte is the primary code, the rest says more
        case SQLITE_FULL:
            return {ErrorKind::full, "the disk is full", "", "make room and try again"};
        case SQLITE_CORRUPT:
        case SQLITE_NOTADB:
            return {ErrorKind::damaged, "the stored data cannot be read: " + said, "",
                    "go back to the last good copy"};
        case SQLITE_BUSY:
            return {ErrorKind::refused, "the data is in use by a running kiosk", "",
                    "stop the kiosk first"};
        case SQLITE_LOCKED:
            return {ErrorKind::refused, "another statement of this program is still running", "",
                    ""};
        case SQLITE_READONLY:
            return {ErrorKind::read_only, "the data can only be read, not written", "",
                    "make the disk writable"};
        case SQLITE_CONSTRAINT:
            return {ErrorKind::refused, "the data does not fit its table: " + said, "", ""};
        default:
            return {ErrorKind::failed, "the database failed: " + said, "", ""};
    }
}

}  // namespace holdpin
