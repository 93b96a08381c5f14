#include "cli/time_stamps.hpp"

#include <filesystem>
#include <utility>

#include "base/text.hpp"
#include "devices/bounded_run.hpp"
#include "ledger/base64.hpp"
#include "ledger/time_stamp.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

constexpr std::int64_t kStampEveryMs = 24 * 3'600'000LL;
constexpr std::int64_t kStampAgainMs = 3'600'000;
constexpr std::int64_t kStampTakesMs = 6'000;  // whoever stops the kiosk waits as long at most
constexpr const char* kQuery = "time-stamp.tsq";
constexpr const char* kReply = "time-stamp.tsr";
constexpr const char* kNext = "time-stamp-next";  // fact of the data file: when the next is due

std::string with_query(std::string word, const std::string& path) {
    constexpr std::string_view kPlace = "{query}";
    const auto at = word.find(kPlace);
    return at == std::string::npos ? word : word.replace(at, kPlace.size(), path);
}

Error over_nothing() {
    return {ErrorKind::absent, "this reply is over no seal of this kiosk", "",
            "send what holdpin ledger stamp-query wrote here, and give its reply"};
}

}  // namespace

Result<Fact> stamp_fact(const Seal& seal, std::string_view reply) {
    const TimeStamp stamp = TRY(stamp_from(reply));
    if (stamp.digest != stamped_digest(seal)) return over_nothing();
    Fact fact;
    fact.kind = "seal-stamped";
    fact.data = {{"size", seal.size},
                 {"root", hex(seal.root)},
                 {"time", stamp.time},
                 {"reply", base64(Bytes(reply.begin(), reply.end()))}};
    return fact;
}

Result<Fact> stamp_fact(Database& db, std::string_view reply) {
    const TimeStamp stamp = TRY(stamp_from(reply));
    const auto seal = TRY(find_kept_seal(
        db, [&](const Seal& one) { return stamped_digest(one) == stamp.digest; }));
    return seal ? stamp_fact(*seal, reply) : over_nothing();
}

Error no_stamp_in_doubt() {
    return {ErrorKind::refused, "no time stamp is kept while the records are in doubt", "",
            "run: holdpin ledger check"};
}

StampWatch::~StampWatch() {
    if (!running_.valid()) return;
    running_.wait();
    drop_files();
}

bool StampWatch::step() {
    const std::int64_t now = parts_.clock.now_ms();
    const bool ends = running_.valid();
    if (ends && running_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) {
        return false;
    }
    if (!ends && !is_due(now)) return false;
    put_off(now + kStampAgainMs);
    const auto done = ends ? keep() : begin();
    if (!done) {
        const std::string trouble = done.error().sentence();
        if (std::exchange(told_, trouble) != trouble) parts_.complain(done.error());
        return false;
    }
    if (!ends) return false;
    put_off(now + kStampEveryMs);
    told_.clear();
    return true;
}

// A time further away than a day was written under a clock that was wrong.
bool StampWatch::is_due(std::int64_t now) {
    if (parts_.words.empty() || parts_.doubtful()) return false;
    if (!next_ms_) {
        const auto stored = fact(parts_.book.db(), kNext).value_or(std::nullopt);
        next_ms_ = stored ? static_cast<std::int64_t>(parse_decimal(*stored).value_or(0)) : 0;
    }
    return now >= *next_ms_ || *next_ms_ > now + kStampEveryMs;
}

// Where it cannot be stored, it holds until the program begins anew.
void StampWatch::put_off(std::int64_t next_ms) {
    next_ms_ = next_ms;
    static_cast<void>(set_fact(parts_.book.db(), kNext, std::to_string(next_ms)));
}

Result<void> StampWatch::begin() {
    asked_ = TRY(newest_kept_seal(parts_.book.db()));
    if (!asked_) return {};
    TRY(write_file(path(kQuery), stamp_query(stamped_digest(*asked_))));
    BoundedRun run;
    for (const std::string& word : parts_.words) {
        run.words.push_back(with_query(word, path(kQuery)));
    }
    run.output = path(kReply);
    run.time_ms = kStampTakesMs;
    run.file_bytes = kMostStampBytes;
    running_ = std::async(std::launch::async, run_bounded, run);
    return {};
}

Result<void> StampWatch::keep() {
    const auto run = running_.get();
    const auto reply = run ? read_file(path(kReply)) : run.error();
    drop_files();
    const std::string bytes = TRY(reply);
    if (parts_.doubtful()) return no_stamp_in_doubt();
    TRY(parts_.book.enter(TRY(stamp_fact(*asked_, bytes))));
    return {};
}

void StampWatch::drop_files() const {
    std::error_code ignored;
    std::filesystem::remove(path(kQuery), ignored);
    std::filesystem::remove(path(kReply), ignored);
}

}  // namespace holdpin
