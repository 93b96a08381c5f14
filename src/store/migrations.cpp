#include "store/migrations.hpp"

#include <array>
#include <string>

namespace holdpin {
namespace {

// The triggers guard against mistakes of this program, not against somebody with the file in hand;
// that is what the tree and its seals are for. `IS NOT` also catches a number that is NULL, and
// the refused insert is what stops INSERT OR REPLACE, which would delete without a trigger.
constexpr const char* kVersion1 = R"sql(
CREATE TABLE entry (
    n INTEGER PRIMARY KEY CHECK (n > 0),
    body BLOB NOT NULL,
    leaf BLOB NOT NULL CHECK (length(leaf) = 32)
) STRICT;
CREATE TRIGGER entry_stays BEFORE UPDATE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never changed');
END;
CREATE TRIGGER entry_remains BEFORE DELETE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never taken away');
END;
CREATE TRIGGER entry_continues BEFORE INSERT ON entry
WHEN NEW.n IS NOT (SELECT coalesce(max(n), 0) + 1 FROM entry)
BEGIN
    SELECT RAISE(ABORT, 'an entry must have the next number');
END;

CREATE TABLE draft (
    key TEXT PRIMARY KEY NOT NULL,
    body TEXT NOT NULL,
    at_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE private_text (
    hash BLOB PRIMARY KEY NOT NULL CHECK (length(hash) = 32),
    salt BLOB NOT NULL CHECK (length(salt) = 16),
    text TEXT NOT NULL,
    about TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX private_text_about ON private_text (about);

CREATE TABLE credential (
    person TEXT PRIMARY KEY NOT NULL,
    hash TEXT NOT NULL,
    failures INTEGER NOT NULL DEFAULT 0 CHECK (failures >= 0),
    not_before_ms INTEGER NOT NULL DEFAULT 0,
    locked INTEGER NOT NULL DEFAULT 0 CHECK (locked IN (0, 1)),
    must_change INTEGER NOT NULL DEFAULT 0 CHECK (must_change IN (0, 1))
) STRICT, WITHOUT ROWID;

CREATE TABLE content_blob (
    digest BLOB PRIMARY KEY NOT NULL CHECK (length(digest) = 32),
    canonical BLOB NOT NULL
) STRICT;

CREATE TABLE fact (
    name TEXT PRIMARY KEY NOT NULL,
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
)sql";

// A seal is said once and stays: of two heads of one size, one would be a lie.
constexpr const char* kVersion2 = R"sql(
CREATE TABLE seal (
    size INTEGER PRIMARY KEY CHECK (size > 0),
    body TEXT NOT NULL
) STRICT;
CREATE TRIGGER seal_stays BEFORE UPDATE ON seal
BEGIN
    SELECT RAISE(ABORT, 'a seal is never changed');
END;
CREATE TRIGGER seal_remains BEFORE DELETE ON seal
BEGIN
    SELECT RAISE(ABORT, 'a seal is never taken away');
END;
CREATE TRIGGER seal_continues BEFORE INSERT ON seal
WHEN NEW.size IS NULL OR NEW.size <= (SELECT coalesce(max(size), 0) FROM seal)
    OR NEW.size > (SELECT coalesce(max(n), 0) FROM entry)
BEGIN
    SELECT RAISE(ABORT, 'a seal must cover more than the one before, and no more than there is');
END;
)sql";

// The tree's peaks at each 64th entry, so that a start need not read every leaf. They follow from
// the leaves and are made again where they are missing, so nothing guards them.
constexpr const char* kVersion3 = R"sql(
CREATE TABLE frontier (
    size INTEGER PRIMARY KEY CHECK (size > 0 AND size % 64 = 0),
    peaks BLOB NOT NULL
) STRICT;
)sql";

// A purge takes the body out of a row and leaves number and leaf. It is let through only while it
// says so by a fact, set and dropped in its own transaction, and only below the newest seal: what
// no seal covers has nothing but its body to speak for it.
constexpr const char* kVersion4 = R"sql(
DROP TRIGGER entry_stays;
CREATE TRIGGER entry_stays BEFORE UPDATE ON entry
WHEN NOT EXISTS (SELECT 1 FROM fact WHERE name = 'purging')
    OR NEW.n IS NOT OLD.n OR NEW.leaf IS NOT OLD.leaf OR NEW.body IS NOT x''
    OR OLD.n > (SELECT coalesce(max(size), 0) FROM seal)
BEGIN
    SELECT RAISE(ABORT, 'an entry is never changed');
END;
)sql";

// The moving seal goes along with the end of the entries, so that they are all under one at little
// cost; what it covered is covered by the next. Seals that stay are the steps between.
constexpr const char* kVersion5 = R"sql(
CREATE TABLE moving_seal (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    size INTEGER NOT NULL CHECK (size > 0),
    body TEXT NOT NULL
) STRICT;
CREATE TRIGGER moving_seal_moves_on BEFORE UPDATE ON moving_seal
WHEN NEW.size <= OLD.size OR NEW.size > (SELECT coalesce(max(n), 0) FROM entry)
BEGIN
    SELECT RAISE(ABORT, 'the moving seal goes on only, and no further than there is');
END;
CREATE TRIGGER moving_seal_remains BEFORE DELETE ON moving_seal
BEGIN
    SELECT RAISE(ABORT, 'a seal is never taken away');
END;
CREATE VIEW every_seal AS
    SELECT size, body FROM seal
    UNION ALL
    SELECT size, body FROM moving_seal WHERE size > (SELECT coalesce(max(size), 0) FROM seal);
)sql";

constexpr std::array<const char*, static_cast<std::size_t>(kSchemaVersion)> kSteps{
    kVersion1, kVersion2, kVersion3, kVersion4, kVersion5};

}  // namespace

Result<void> migrate(Database& db, std::int64_t version) {
    for (std::int64_t step = version + 1; step <= kSchemaVersion; ++step) {
        const std::string marks = "PRAGMA application_id = " + std::to_string(kApplicationId) +
                                  "; PRAGMA user_version = " + std::to_string(step);
        TRY(db.transaction([&]() -> Result<void> {
            TRY(db.execute(kSteps[static_cast<std::size_t>(step - 1)]));
            return db.execute(marks.c_str());
        }));
    }
    return {};
}

}  // namespace holdpin
