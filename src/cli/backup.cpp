#include "cli/backup.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <filesystem>

#include "base/local_time.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

constexpr int kPages = 64;                        // copied between two looks at the clock
constexpr std::int64_t kBudgetMs = 4;             // of one step: a quarter of a frame
constexpr std::int64_t kDayMs = 86'400'000;
constexpr std::int64_t kAgainMs = 3'600'000;      // after a backup that failed
constexpr std::size_t kKept = 7;
constexpr std::size_t kStampSize = 16;            // 20261125T114012Z

std::string stem_of(const std::string& kiosk) { return "holdpin-" + kiosk + "-"; }

std::string stamp_of(std::int64_t at_ms) {
    std::string stamp;
    for (const char c : utc_text(at_ms).substr(0, 19)) {
        if (c != '-' && c != ':') stamp += c;
    }
    return stamp + "Z";
}

std::string named(const std::string& folder, const std::string& kiosk, std::int64_t at_ms) {
    return folder + "/" + stem_of(kiosk) + stamp_of(at_ms) + ".db";
}

Result<void> make_folder(const std::string& folder) {
    std::error_code failed;
    fs::create_directories(folder, failed);
    if (!failed && ::access(folder.c_str(), W_OK) == 0) return {};
    const std::string why = failed ? failed.message() : std::generic_category().message(errno);
    return Error{ErrorKind::failed, "no backup can be put into this folder: " + why, folder,
                 "name a folder that can be written, such as one on a USB stick"};
}

Error unfit(const Error& doubt, const std::string& path) {
    return {ErrorKind::damaged, "the copy does not verify: " + doubt.what, path,
            doubt.mend};
}

}  // namespace

std::string backup_path(const std::string& folder, const std::string& kiosk, std::int64_t at_ms) {
    std::string path = named(folder, kiosk, at_ms);
    std::error_code failed;
    while (fs::exists(path, failed)) path = named(folder, kiosk, at_ms += 1000);
    return path;
}

std::vector<std::string> backups_in(const std::string& folder, const std::string& kiosk) {
    std::vector<std::string> found;
    std::error_code failed;
    const std::string stem = stem_of(kiosk);
    for (const auto& item : fs::directory_iterator(folder, failed)) {
        const std::string name = item.path().filename().string();
        const bool fits = name.starts_with(stem) && name.ends_with(".db") &&
                          name.size() == stem.size() + kStampSize + 3;
        if (fits) found.push_back(item.path().string());
    }
    std::sort(found.begin(), found.end());  // the time in their names sorts as text
    return found;
}

namespace {

// A day after the newest, as its name says, to the hour. A name from the future counts for nothing:
// a clock was wrong.
std::int64_t due_after(const std::string& folder, const std::string& kiosk, std::int64_t now) {
    const auto there = backups_in(folder, kiosk);
    if (there.empty() || there.back() > named(folder, kiosk, now)) return now;
    std::int64_t made = now;
    while (made > now - kDayMs && there.back() <= named(folder, kiosk, made - kAgainMs)) {
        made -= kAgainMs;
    }
    return made <= now - kDayMs ? now : made + kDayMs;
}

// A backup that fills the disk would take the room that the records themselves need.
Result<void> refuse_without_room(Database& db, const std::string& folder,
                                 std::uint64_t leave_free) {
    const std::uint64_t needed = TRY(copy_size(db)) + leave_free;
    std::error_code failed;
    const auto space = fs::space(folder, failed);
    if (failed || space.available >= needed) return {};
    return Error{ErrorKind::full,
                 fmt::format("a backup needs {} MB free here, and there are {}",
                             needed / 1'000'000 + 1, space.available / 1'000'000),
                 folder, "make room, or name a folder on another disk"};
}

}  // namespace

Result<BackupDone> back_up(Database& db, const std::string& path, const Evidence& evidence) {
    TRY(make_folder(fs::path(path).parent_path().string()));
    const auto copy = TRY(StepCopy::begin(db, path));
    while (!TRY(copy->step(kPages))) {
    }
    ThoroughReport report = TRY(check_copy_thoroughly(copy->part(), evidence));
    if (const auto doubt = report.doubt()) return unfit(*doubt, path);
    TRY(copy->take_place());
    return BackupDone{path, report.full.ledger.size, report.full.seals, std::move(report.texts)};
}

BackupWatch::BackupWatch(Parts parts) : parts_(std::move(parts)) {
    const std::int64_t now = parts_.clock.now_ms();
    next_ms_ = parts_.at_once ? now : due_after(parts_.folder, parts_.kiosk, now);
}

BackupWatch::~BackupWatch() {
    if (check_.valid()) check_.wait();
}

BackupWatch::Step BackupWatch::step() {
    if (check_.valid()) return judge();
    if (copy_) return copy();
    if (parts_.clock.now_ms() < next_ms_ || parts_.doubtful()) return Step::idle;
    return begin();
}

BackupWatch::Step BackupWatch::begin() {
    std::error_code failed;
    fs::create_directories(parts_.folder, failed);
    const std::int64_t now = parts_.clock.now_ms();
    next_ms_ = now + kDayMs;
    const auto room = refuse_without_room(parts_.db, parts_.folder, parts_.leave_free);
    auto begun = room ? StepCopy::begin(parts_.db, backup_path(parts_.folder, parts_.kiosk, now))
                      : room.error();
    if (!begun) {
        put_off(begun.error());
        return Step::idle;
    }
    copy_ = std::move(begun).value();
    return Step::busy;
}

BackupWatch::Step BackupWatch::copy() {
    const std::int64_t until = parts_.clock.mono_ms() + kBudgetMs;
    do {
        const auto whole = copy_->step(kPages);
        if (!whole) {
            put_off(whole.error());
            return Step::idle;
        }
        if (whole.value()) {
            check_ = std::async(std::launch::async, check_copy_thoroughly, copy_->part(),
                                parts_.evidence());
            return Step::busy;
        }
    } while (parts_.clock.mono_ms() < until);
    return Step::busy;
}

BackupWatch::Step BackupWatch::judge() {
    if (check_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return Step::idle;
    const auto report = check_.get();
    const auto copy = std::move(copy_);
    if (!report && report.error().kind != ErrorKind::damaged) {
        put_off(report.error());
        return Step::idle;
    }
    const auto doubt = report ? report.value().doubt() : report.error();
    if (doubt) {
        parts_.found(*doubt);
        return Step::found;
    }
    const auto placed = copy->take_place();
    if (!placed) put_off(placed.error());
    if (placed) settle(report.value().texts);
    return Step::idle;
}

// An older backup may still have what was altered.
void BackupWatch::settle(const std::vector<DamagedText>& texts) const {
    for (const DamagedText& text : texts) {
        parts_.complain({ErrorKind::damaged, damaged_sentence(text), "", kTextMend});
    }
    if (texts.empty()) drop_old();
}

void BackupWatch::put_off(const Error& error) {
    copy_.reset();
    next_ms_ = parts_.clock.now_ms() + kAgainMs;
    parts_.complain(error);
}

void BackupWatch::drop_old() const {
    auto there = backups_in(parts_.folder, parts_.kiosk);
    std::error_code ignored;
    for (std::size_t i = 0; i + kKept < there.size(); ++i) fs::remove(there[i], ignored);
}

}  // namespace holdpin
