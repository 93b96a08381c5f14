// The append-only record. An entry is a fact in the past tense; its stored form (version 1) is the
// RFC 8785 JSON of {v, n, kind, at_ms, offset_min, zone, boot, mono_ms, site, kiosk, by, content,
// about, salt, data}, and its leaf is that of the RFC 6962 tree. See ledger/FORMAT.md.
// Nothing is changed: a correction is a new entry that names the old one. A purge takes bodies out
// when their time is over; number and leaf stay.
// Names and free text never stand in an entry, only SHA-256(salt || text) of them.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <nlohmann/json.hpp>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/clock.hpp"
#include "base/local_time.hpp"
#include "base/random.hpp"
#include "base/result.hpp"
#include "base/text.hpp"
#include "ledger/tree.hpp"
#include "store/database.hpp"

namespace holdpin {

struct Entry {
    std::int64_t n = 0;  // from 1, no gaps
    std::string kind;
    std::int64_t at_ms = 0;
    int offset_min = 0;
    std::string zone;
    std::string boot;
    std::int64_t mono_ms = 0;
    std::string site;
    std::string kiosk;
    std::vector<std::string> by;  // person ids; may be empty
    std::string content;          // digest of the item shown; may be empty
    std::int64_t about = 0;       // the entry this one corrects or answers; 0: none
    std::string salt;             // 32 hex digits
    nlohmann::json data;          // object; integers below 2^53, decimals as strings
};

// What the writer states; the ledger adds number, times, place and salt.
struct Fact {
    std::string kind;
    std::vector<std::string> by;
    std::string content;
    std::int64_t about = 0;
    nlohmann::json data = nlohmann::json::object();
};

// Canonical bytes. Error: invalid, for data that has no canonical form, such as 0.5.
Result<std::string> entry_body(const Entry& entry);
// Error: damaged, if the bytes are not exactly those that entry_body() gives for some entry.
Result<Entry> entry_from(std::string_view body);
// The same for bytes whose leaf was checked: it does not ask whether they are the only form.
Result<Entry> entry_of_trusted(std::string_view body);

// Binds the signature in `data`, if there is one, to this very record: `signature.record` becomes
// the SHA-256 of the body without it: who, when, where, what was shown, and what is stated.
Result<void> bind_signature(Entry& entry);
// False: the signature was made for another record. Without one, or without `record`, true.
bool signature_is_bound(const Entry& entry, std::string_view body);

// The kiosk's own key, made at `init`, file mode 0600: 32-byte Ed25519 seed in hex.
// Making one never replaces a file that is there (refused).
struct KioskKey {
    Bytes seed;
    Bytes public_key;
    std::string kiosk_id() const;  // first 16 hex digits of SHA-256 of the public key
};
Result<KioskKey> kiosk_key_of(Bytes seed);  // 32 bytes; error: invalid
Result<KioskKey> make_kiosk_key(const std::string& path, Random& random);
Result<KioskKey> load_kiosk_key(const std::string& path);
Bytes sign(const KioskKey& key, std::span<const std::uint8_t> message);
bool signature_holds(std::span<const std::uint8_t> public_key,
                     std::span<const std::uint8_t> message,
                     std::span<const std::uint8_t> signature);

// A row as it stands: its leaf was checked against the body. Of a purged entry the body is empty:
// a sealed entry says that it was purged.
struct StoredEntry {
    std::int64_t n = 0;
    std::string body;
    Hash leaf{};
};
// Every row in order, from 1 without gaps; only one is in memory. Errors: damaged, failed, or what
// `visit` said.
Result<void> each_stored(Database& db,
                         const std::function<Result<void>(const StoredEntry&)>& visit);

enum class LedgerFault {
    none,
    gap,           // a number is missing
    altered_body,  // the body does not give the stored leaf
    altered_leaf,  // the leaf is no hash, or the tree is not the one in memory
    undecodable,   // the body gives the leaf, but is no entry
    unreadable,    // the file does not give the row
    inserted,      // something stands between two entries, which moved up
    removed,       // an entry was taken out, and those after it moved down
    reordered,     // an entry stands at a later number than its own
    rewritten,     // body and leaf agree, but the root is not the one that was sealed
    cut_off,       // a seal covers more entries than there are
    bad_seal,      // the entries hold, but a seal is not signed by this kiosk or cannot be read
    moved_signature,  // the signature in it was made for another record
    missing_body,  // the body is empty, and no sealed entry says that it was purged
};
// A clock that was set back is no fault of the record and stands in `clock_jumps` only.
struct LedgerReport {
    std::uint64_t size = 0;  // entries that hold, from the first on
    Hash root{};             // of those
    LedgerFault fault = LedgerFault::none;
    std::int64_t first_bad = 0;             // entry number, 0 if none
    std::string what;                       // one sentence
    std::vector<std::int64_t> clock_jumps;  // entries whose wall clock went back within a boot
};

// Reads every row, whether or not a Ledger can be opened on them; check.hpp also looks at seals.
Result<LedgerReport> check_entries(Database& db);

class Ledger {
  public:
    struct Place {
        std::string site;
        std::string kiosk;
        Zone zone;
    };

    // Takes up the newest kept frontier, holds it against the newest seal and checks the last 64
    // bodies: the cost does not grow with the ledger. Error: damaged, naming the entry.
    static Result<std::unique_ptr<Ledger>> open(Database& db, Clock& clock, Random& random,
                                                Place place);

    // Appends and, when not inside a transaction, is durable on return. Inside one, the entry
    // counts when the transaction does; a rolled-back append must be followed by reload().
    // Errors: invalid (no kind, data that is no object or has no canonical form, `about` names no
    // earlier entry), full, failed; then nothing was appended.
    Result<Entry> append(const Fact& fact);
    Result<void> reload();
    // Reads every leaf and makes the kept frontiers again; reload() does it where they are missing
    // or are not those that the newest seal covers.
    Result<void> reread();

    std::uint64_t size() const { return frontier_.size(); }
    Hash root() const { return frontier_.root(); }
    // Of the first `size` entries, from the frontier kept below. Error: absent, if there are fewer.
    Result<Hash> root_at(std::uint64_t size);
    const Place& place() const { return place_; }

    // Errors: absent (also where it was purged), damaged (also if its body does not give its leaf).
    Result<Entry> at(std::int64_t n);
    // Entries from..to (both included), in order, without those that were purged; stops at the
    // first error. A body that is missing for no sealed reason is one.
    Result<void> each(std::int64_t from, std::int64_t to,
                      const std::function<Result<void>(const Entry&)>& visit);
    // Reads again what append() gave. Error: damaged, naming the first that does not stand there
    // as it was given.
    Result<void> read_back(const std::vector<Entry>& given);
    Result<std::vector<Hash>> leaves();
    // check_entries(), and that its root is the one this ledger has in memory.
    Result<LedgerReport> check();

  private:
    Ledger(Database& db, Clock& clock, Random& random, Place place)
        : db_(db), clock_(clock), random_(random), place_(std::move(place)) {}
    Database& db_;
    Clock& clock_;
    Random& random_;
    Place place_;
    Result<bool> fits_newest_seal();
    Frontier frontier_;
};

}  // namespace holdpin
