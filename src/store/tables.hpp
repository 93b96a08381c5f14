// Tables that are no entries: drafts of work in progress, private texts, credentials, adopted
// content, small facts. Durable on return, or with the transaction they are called in.
// What can be erased by law stands here, not in the ledger.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/random.hpp"
#include "base/result.hpp"
#include "store/database.hpp"

namespace holdpin {

// ---- drafts: every tap of a running round, guide or quiz ----
struct Draft {
    std::string key;   // "round/SW-14", "guide/p-okafor-lind/co-and-ventilation"
    std::string body;  // JSON, owned by the flow
    std::int64_t at_ms = 0;
};
Result<void> keep_draft(Database& db, const Draft& draft);
Result<std::optional<Draft>> find_draft(Database& db, std::string_view key);
Result<std::vector<Draft>> drafts_under(Database& db, std::string_view prefix);
Result<void> drop_draft(Database& db, std::string_view key);

// ---- private texts: names and free text that entries carry only as SHA-256(salt || text) ----
// Stores `text` with a fresh 16-byte salt; returns the hash in hex. `about` is a person id.
Result<std::string> keep_private(Database& db, Random& random, std::string_view text,
                                 std::string_view about);
// Empty when it was erased or is unknown, and where what stands there is not what was kept: what
// somebody altered is shown nowhere, and each_altered_text names it.
Result<std::optional<std::string>> private_text(Database& db, std::string_view hash_hex);
// Also of one that was altered: it has to be erased all the same.
Result<bool> has_private_text(Database& db, std::string_view hash_hex);
Result<void> each_altered_text(
    Database& db,
    const std::function<void(const std::string& hash, const std::string& about)>& visit);
// The bytes are overwritten and, outside a transaction, also gone from the write-ahead log;
// inside one, call Database::checkpoint() after it.
Result<void> erase_private(Database& db, std::string_view about);
// One of them, by its hash; to be followed by Database::checkpoint(). False: there was none.
Result<bool> erase_private_text(Database& db, std::string_view hash_hex);
// The hashes of all that is kept about a person.
Result<std::vector<std::string>> private_texts_about(Database& db, std::string_view about);

// ---- credentials: PINs as Argon2id with a pepper kept in a file of its own ----
struct Credential {
    std::string person;
    std::string hash;                // encoded string of the password hash
    int failures = 0;                // since the last success
    std::int64_t not_before_ms = 0;  // growing delay after failures
    bool locked = false;             // after ten
    bool must_change = false;
};
enum class PinAnswer { right, wrong, wait, locked, unknown };
struct PinCheck {
    PinAnswer answer = PinAnswer::unknown;
    std::int64_t wait_ms = 0;  // for `wait` and `wrong`: until the next attempt counts
    int failures = 0;          // since the last success; for `right`: those before it
};
// Cost of hashing: `interactive` for people, `least` for tests and rehearsals.
enum class PinCost { interactive, least };

class PinBook {
  public:
    // `pepper`: 32 bytes.
    PinBook(Database& db, Random& random, Bytes pepper, PinCost cost)
        : db_(db), random_(random), pepper_(std::move(pepper)), cost_(cost) {}

    // A random PIN of `digits` (6..12) digits that is on no blocklist and is not in the badge.
    std::string draw(int digits, std::string_view badge);
    // Also takes away a lock. Error: invalid if it is not 6 to 12 digits; whether it is weak is
    // for the caller to ask, who knows the badge.
    Result<void> set(std::string_view person, std::string_view pin, bool must_change);
    // Counts the attempt before it is judged, so that pulling the plug gains nothing; therefore
    // refused inside a transaction. Delay after n failures: 0 0 5 15 60 120 300 600 900 s;
    // the tenth locks and is answered `locked`. A clock set back lengthens no delay.
    Result<PinCheck> check(std::string_view person, std::string_view pin, std::int64_t now_ms);
    Result<std::optional<Credential>> find(std::string_view person);
    // Takes the PIN away; whoever has none signs nothing.
    Result<void> remove(std::string_view person);

  private:
    Database& db_;
    Random& random_;
    Bytes pepper_;
    PinCost cost_;
};
// Failures, delays and locks of one database that are more than those in another.
Result<void> carry_pin_counters(Database& from, Database& to);
// Not 6 to 12 digits; fewer than three different digits; four equal in a row; a run of five up or
// down; a block repeated; years after each other; the digits of the badge, or a part of them.
bool is_weak_pin(std::string_view pin, std::string_view badge);
// Makes 32 bytes in a new file of mode 0600. A new pepper makes every PIN that was set under
// another one wrong, so only a new site has one made.
Result<Bytes> make_pepper(const std::string& path, Random& random);
// Absent or of another length: an error that says to put the copy back.
Result<Bytes> load_pepper(const std::string& path);

// ---- adopted content, kept as it was shown; a digest never changes its bytes ----
Result<void> keep_content(Database& db, std::string_view digest_hex, std::string_view canonical);
Result<std::optional<std::string>> content_of(Database& db, std::string_view digest_hex);

// ---- small facts ----
Result<void> set_fact(Database& db, std::string_view name, std::string_view value);
Result<std::optional<std::string>> fact(Database& db, std::string_view name);

}  // namespace holdpin
