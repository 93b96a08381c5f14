#include "cli/time_stamps.hpp"

#include <filesystem>
#include <optional>

#include "base/text.hpp"
#include "devices/bounded_run.hpp"
#include "ledger/base64.hpp"
#include "ledger/time_stamp.hpp"

namespace holdpin {
namespace {

constexpr std::int64_t kStampEveryMs = 24 * 3'600'000LL;
constexpr std::int64_t kStampAgainMs = 3'600'000;
constexpr std::int64_t kStampTakesMs = 20'000;
constexpr std::uint64_t kMostReply = 1U << 16;  // with certificates it has a few thousand
constexpr const char* kQuery = "time-stamp.tsq";
constexpr const char* kReply = "time-stamp.tsr";

std::string with_query(std::string word, const std::string& path) {
    constexpr std::string_view kPlace = "{query}";
    const auto at = word.find(kPlace);
    return at == std::string::npos ? word : word.replace(at, kPlace.size(), path);
}

}  // namespace

Result<Fact> stamp_fact(Database& db, std::string_view reply) {
    const TimeStamp stamp = TRY(stamp_from(reply));
    std::optional<Seal> stamped;
    TRY(each_seal(db, [&](const Seal& seal) -> Result<void> {
        if (stamped_digest(seal) == stamp.digest) stamped = seal;
        return {};
    }));
    if (!stamped) {
        return Error{ErrorKind::absent, "this reply is over no seal of this kiosk", "",
                     "send what holdpin ledger stamp-query wrote here, and give its reply"};
    }
    Fact fact;
    fact.kind = "seal-stamped";
    fact.data = {{"size", stamped->size},
                 {"root", hex(stamped->root)},
                 {"time", stamp.time},
                 {"reply", base64(Bytes(reply.begin(), reply.end()))}};
    return fact;
}

StampWatch::~StampWatch() {
    if (running_.valid()) running_.wait();
}

bool StampWatch::step() {
    const std::int64_t now = parts_.clock.now_ms();
    const bool ends = running_.valid();
    if (ends && running_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) {
        return false;
    }
    if (!ends && (parts_.words.empty() || now < next_ms_ || parts_.doubtful())) return false;
    const auto done = ends ? keep() : begin();
    next_ms_ = now + (done ? kStampEveryMs : kStampAgainMs);
    const std::string trouble = done ? "" : done.error().sentence();
    if (!done && trouble != told_) parts_.complain(done.error());
    if (ends) told_ = trouble;
    return ends && done.ok();
}

Result<void> StampWatch::begin() {
    const auto seal = TRY(newest_kept_seal(parts_.book.db()));
    if (!seal) return {};
    TRY(write_file(path(kQuery), stamp_query(stamped_digest(*seal))));
    BoundedRun run;
    for (const std::string& word : parts_.words) {
        run.words.push_back(with_query(word, path(kQuery)));
    }
    run.output = path(kReply);
    run.time_ms = kStampTakesMs;
    run.file_bytes = kMostReply;
    running_ = std::async(std::launch::async, run_bounded, run);
    return {};
}

Result<void> StampWatch::keep() {
    const auto run = running_.get();
    const auto reply = run ? read_file(path(kReply)) : run.error();
    std::error_code ignored;
    std::filesystem::remove(path(kQuery), ignored);
    std::filesystem::remove(path(kReply), ignored);
    const std::string bytes = TRY(reply);
    TRY(parts_.book.enter(TRY(stamp_fact(parts_.book.db(), bytes))));
    return {};
}

}  // namespace holdpin
