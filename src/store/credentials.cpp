#include <sodium.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <set>

#include "store/tables.hpp"

namespace holdpin {
namespace {

constexpr int kDigitsMin = 6;
constexpr int kDigitsMax = 12;
constexpr int kFailuresMax = 10;
constexpr std::size_t kPepperSize = crypto_auth_hmacsha256_KEYBYTES;
// Seconds to wait after that many failures in a row; the last stands for the lock.
constexpr std::array<std::int64_t, kFailuresMax + 1> kDelays{0,   0,   0,   5,   15, 60,
                                                             120, 300, 600, 900, 900};

using PepperedPin = std::array<std::uint8_t, crypto_auth_hmacsha256_BYTES>;

std::int64_t delay_ms(int failures) {
    return kDelays[static_cast<std::size_t>(std::clamp(failures, 0, kFailuresMax))] * 1000;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool is_pin(std::string_view pin) {
    return pin.size() >= kDigitsMin && pin.size() <= kDigitsMax &&
           std::all_of(pin.begin(), pin.end(), is_digit);
}

// Length of the longest stretch in which each digit is the one before plus `step`; 9 meets 0.
std::size_t longest_run(std::string_view pin, int step) {
    std::size_t longest = 1;
    std::size_t run = 1;
    for (std::size_t i = 1; i < pin.size(); ++i) {
        run = (pin[i] - pin[i - 1] - step) % 10 == 0 ? run + 1 : 1;
        longest = std::max(longest, run);
    }
    return longest;
}

// 123123, 20192019: the whole is a block of at most half its length, again and again.
bool repeats_a_block(std::string_view pin) {
    for (std::size_t block = 1; block <= pin.size() / 2; ++block) {
        if (pin.substr(block) == pin.substr(0, pin.size() - block)) return true;
    }
    return false;
}

bool is_year(std::string_view text) { return text.size() == 4 && text >= "1940" && text <= "2035"; }

// 19871990, or 198719: years after each other, the last perhaps cut off after two digits.
bool is_years(std::string_view pin) {
    if (!is_year(pin.substr(0, 4))) return false;
    for (std::size_t at = 4; at < pin.size(); at += 4) {
        const std::string_view part = pin.substr(at, 4);
        const bool cut_year = part.size() == 2 && (part == "19" || part == "20");
        if (!is_year(part) && !cut_year) return false;
    }
    return true;
}

bool is_of_badge(std::string_view pin, std::string_view badge) {
    std::string digits;
    std::copy_if(badge.begin(), badge.end(), std::back_inserter(digits), is_digit);
    if (digits.size() < 3) return false;  // one or two digits occur in too many PINs to matter
    return pin.find(digits) != std::string_view::npos || digits.find(pin) != std::string::npos;
}

// A hash that stands with this mark holds for one person only: put beside another's name it opens
// nothing. Those without it are of an older version, and are made anew when the PIN is next right.
constexpr std::string_view kOwnMark = "own:";

bool is_own(const Credential& credential) { return credential.hash.starts_with(kOwnMark); }

Result<PepperedPin> peppered(const Bytes& pepper, std::string_view person, std::string_view pin) {
    if (sodium_init() < 0 || pepper.size() != kPepperSize) {
        return Error{ErrorKind::failed, "PINs cannot be hashed without a pepper of 32 bytes", "",
                     ""};
    }
    Bytes message(person.begin(), person.end());
    if (!person.empty()) message.push_back(0);
    message.insert(message.end(), pin.begin(), pin.end());
    PepperedPin mac{};
    crypto_auth_hmacsha256(mac.data(), message.data(), message.size(), pepper.data());
    return mac;
}

// Argon2id takes its password as characters, of any value.
const char* characters(const PepperedPin& mac) { return reinterpret_cast<const char*>(mac.data()); }

Result<bool> matches(const Credential& credential, const PepperedPin& mac) {
    errno = 0;
    const char* hash = credential.hash.c_str() + (is_own(credential) ? kOwnMark.size() : 0);
    if (crypto_pwhash_str_verify(hash, characters(mac), mac.size()) == 0) {
        return true;
    }
    if (errno == EINVAL) return false;  // what libsodium says of a mismatch, and of nothing else
    return Error{ErrorKind::failed, "the PIN could not be checked", credential.person,
                 "there may be too little memory"};
}

Result<void> keep_state(Database& db, const Credential& credential) {
    return db
        .query(
            "UPDATE credential SET failures = ?, not_before_ms = ?, locked = ? "
            "WHERE person = ?")
        .bind(std::int64_t{credential.failures})
        .bind(credential.not_before_ms)
        .bind(std::int64_t{credential.locked})
        .bind(credential.person)
        .run();
}

}  // namespace

bool is_weak_pin(std::string_view pin, std::string_view badge) {
    if (!is_pin(pin)) return true;
    const std::set<char> different(pin.begin(), pin.end());
    return different.size() < 3 || longest_run(pin, 0) >= 4 || longest_run(pin, 1) >= 5 ||
           longest_run(pin, -1) >= 5 || repeats_a_block(pin) || is_years(pin) ||
           is_of_badge(pin, badge);
}

std::string PinBook::draw(int digits, std::string_view badge) {
    const auto size = static_cast<std::size_t>(std::clamp(digits, kDigitsMin, kDigitsMax));
    std::string pin(size, '0');
    do {
        for (char& digit : pin) digit = static_cast<char>('0' + random_.below(10));
    } while (is_weak_pin(pin, badge));
    return pin;
}

Result<void> PinBook::set(std::string_view person, std::string_view pin, bool must_change) {
    if (!is_pin(pin)) {
        return Error{ErrorKind::invalid, "a PIN has 6 to 12 digits and nothing else",
                     std::string(person), ""};
    }
    const PepperedPin mac = TRY(peppered(pepper_, person, pin));
    const bool least = cost_ == PinCost::least;
    std::array<char, crypto_pwhash_STRBYTES> hash{};
    if (crypto_pwhash_str(
            hash.data(), characters(mac), mac.size(),
            least ? crypto_pwhash_OPSLIMIT_MIN : crypto_pwhash_OPSLIMIT_INTERACTIVE,
            least ? crypto_pwhash_MEMLIMIT_MIN : crypto_pwhash_MEMLIMIT_INTERACTIVE) != 0) {
        return Error{ErrorKind::failed, "the PIN could not be hashed", std::string(person),
                     "there may be too little memory"};
    }
    return db_
        .query(
            "INSERT INTO credential (person, hash, must_change) VALUES (?, ?, ?) "
            "ON CONFLICT (person) DO UPDATE SET hash = excluded.hash, failures = 0, "
            "not_before_ms = 0, locked = 0, must_change = excluded.must_change")
        .bind(person)
        .bind(std::string(kOwnMark) + hash.data())
        .bind(std::int64_t{must_change})
        .run();
}

Result<std::optional<Credential>> PinBook::find(std::string_view person) {
    auto query = db_.query(
        "SELECT person, hash, failures, not_before_ms, locked, must_change FROM credential "
        "WHERE person = ?");
    query.bind(person);
    std::optional<Credential> found;
    if (TRY(query.next())) {
        found =
            Credential{query.text(0),    query.text(1),         static_cast<int>(query.integer(2)),
                       query.integer(3), query.integer(4) != 0, query.integer(5) != 0};
    }
    return found;
}

Result<void> PinBook::remove(std::string_view person) {
    return db_.query("DELETE FROM credential WHERE person = ?").bind(person).run();
}

Result<PinCheck> PinBook::check(std::string_view person, std::string_view pin,
                                std::int64_t now_ms) {
    if (db_.in_transaction()) {
        return Error{ErrorKind::refused, "a PIN is not checked inside a transaction", "", ""};
    }
    auto found = TRY(find(person));
    if (!found) return PinCheck{PinAnswer::unknown, 0, 0};
    Credential& credential = *found;
    const int before = credential.failures;
    if (credential.locked) return PinCheck{PinAnswer::locked, 0, before};
    const PepperedPin mac =
        TRY(peppered(pepper_, is_own(credential) ? person : std::string_view(), pin));

    // A longer wait than the delay itself means that the clock was set back since.
    const std::int64_t wait = std::min(credential.not_before_ms - now_ms, delay_ms(before));
    if (wait > 0) {
        credential.not_before_ms = now_ms + wait;
        TRY(keep_state(db_, credential));
        return PinCheck{PinAnswer::wait, wait, before};
    }

    credential.failures = before + 1;
    credential.not_before_ms = now_ms + delay_ms(credential.failures);
    credential.locked = credential.failures >= kFailuresMax;
    TRY(keep_state(db_, credential));
    if (!TRY(matches(credential, mac))) {
        const auto answer = credential.locked ? PinAnswer::locked : PinAnswer::wrong;
        return PinCheck{answer, credential.locked ? 0 : delay_ms(credential.failures),
                        credential.failures};
    }
    credential.failures = 0;
    credential.not_before_ms = 0;
    credential.locked = false;
    if (is_own(credential)) {
        TRY(keep_state(db_, credential));
    } else {
        TRY(set(person, pin, credential.must_change));
    }
    return PinCheck{PinAnswer::right, 0, before};
}

Result<void> carry_pin_counters(Database& from, Database& to) {
    Query rows = from.query("SELECT person, failures, not_before_ms, locked FROM credential");
    while (TRY(rows.next())) {
        TRY(to.query("UPDATE credential SET failures=max(failures,?), "
                     "not_before_ms=max(not_before_ms,?), locked=max(locked,?) WHERE person=?")
                .bind(rows.integer(1))
                .bind(rows.integer(2))
                .bind(rows.integer(3))
                .bind(rows.text(0))
                .run());
    }
    return {};
}

Result<Bytes> make_pepper(const std::string& path, Random& random) {
    Bytes pepper(kPepperSize);
    random.fill(pepper);
    TRY(write_file(path, std::string(pepper.begin(), pepper.end()), 0600));
    return pepper;
}

Result<Bytes> load_pepper(const std::string& path) {
    const auto stored = read_secret(path);
    if (!stored && stored.error().kind == ErrorKind::absent) {
        return Error{ErrorKind::absent,
                     "the pepper is missing, and no PIN can be checked without it", path,
                     "put the copy back that was kept when the site was made"};
    }
    if (!stored) return stored.error();
    const std::string& bytes = stored.value();
    if (bytes.size() != kPepperSize) {
        return Error{ErrorKind::damaged, "the pepper is not 32 bytes long", path,
                     "put the copy back that was kept when the site was made"};
    }
    return Bytes(bytes.begin(), bytes.end());
}

}  // namespace holdpin
