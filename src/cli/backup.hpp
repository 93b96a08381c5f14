// Backups: copies of the records, made while they are in use, checked as a whole before they get
// their name. What is in one and what is not stands in store/BACKUP.md.
#pragma once

#include <functional>
#include <future>
#include <memory>
#include <string>
#include <vector>

#include "base/clock.hpp"
#include "cli/thorough_check.hpp"
#include "store/step_copy.hpp"

namespace holdpin {

// "<folder>/holdpin-<kiosk>-20261125T114012Z.db", of the first second from then on that has none.
std::string backup_path(const std::string& folder, const std::string& kiosk, std::int64_t at_ms);
// Those of this kiosk in a folder, oldest first.
std::vector<std::string> backups_in(const std::string& folder, const std::string& kiosk);

struct BackupDone {
    std::string path;
    std::uint64_t entries = 0;
    std::uint64_t seals = 0;
    std::vector<DamagedText> texts = {};  // that count as erased in it
};
// At once, for a command. Error: damaged, if the copy does not verify; then there is none.
Result<BackupDone> back_up(Database& db, const std::string& path, const Evidence& evidence);

// The daily backup of a running kiosk, in steps from its main loop; the check of the copy, which is
// the daily full check as well, runs in a worker. The newest seven are kept.
class BackupWatch {
  public:
    struct Parts {
        Database& db;
        const Clock& clock;
        std::string kiosk;
        std::string folder;
        std::function<Evidence()> evidence;              // asked for when a check begins
        std::function<bool()> doubtful;                  // true: no backup is made
        std::function<void(const Error&)> found;         // what the check found wrong
        std::function<void(const Error&)> complain;
        bool at_once = false;  // after an unclean stop: not at the next day only
        std::uint64_t leave_free = 0;  // bytes on the disk of `folder`: no backup fills it up
    };
    explicit BackupWatch(Parts parts);
    ~BackupWatch();
    BackupWatch(const BackupWatch&) = delete;
    BackupWatch& operator=(const BackupWatch&) = delete;

    enum class Step { idle, busy, found };  // busy: call again soon; found: pages are out of date
    // Takes a few milliseconds at most.
    Step step();
    std::int64_t next_ms() const { return next_ms_; }

  private:
    Step begin();
    Step copy();
    Step judge();
    void put_off(const Error& error);
    void settle(const std::vector<DamagedText>& texts) const;
    void drop_old() const;

    Parts parts_;
    std::int64_t next_ms_ = 0;
    std::unique_ptr<StepCopy> copy_;
    std::future<Result<ThoroughReport>> check_;
};

}  // namespace holdpin
