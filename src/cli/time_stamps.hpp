// Time stamps over seals (RFC 3161): asked for once a day while the kiosk runs, by a command of the
// site, and kept as entries. No work waits for one, and nothing is held without it.
#pragma once

#include <functional>
#include <future>
#include <string>
#include <string_view>
#include <vector>

#include "base/clock.hpp"
#include "records/book.hpp"

namespace holdpin {

// The entry that keeps a reply. Errors: those of stamp_from; absent (it is over no seal here).
Result<Fact> stamp_fact(Database& db, std::string_view reply);

class StampWatch {
  public:
    struct Parts {
        Book& book;
        const Clock& clock;
        std::vector<std::string> words;  // the command; "{query}" in one is the query's file
        std::string folder;              // for query and reply, while it runs
        std::function<bool()> doubtful;  // true: nothing is asked for
        std::function<void(const Error&)> complain;
    };
    explicit StampWatch(Parts parts) : parts_(std::move(parts)) {}
    ~StampWatch();
    StampWatch(const StampWatch&) = delete;
    StampWatch& operator=(const StampWatch&) = delete;

    // To be called again and again by the thread that owns the records; takes a few milliseconds at
    // most. The first stamp is asked for at once, the next a day after one that was kept, and an
    // hour after a try that failed. True when one was entered.
    bool step();

  private:
    Result<void> begin();
    Result<void> keep();
    std::string path(const char* name) const { return parts_.folder + "/" + name; }

    Parts parts_;
    std::int64_t next_ms_ = 0;
    std::future<Result<void>> running_;
    std::string told_;  // the trouble told last
};

}  // namespace holdpin
