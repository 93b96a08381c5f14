// Time stamps over seals (RFC 3161): asked for once a day while the kiosk runs, by a command of the
// site, and kept as entries. No work waits for one, and nothing is held without it.
#pragma once

#include <functional>
#include <future>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/clock.hpp"
#include "ledger/seal.hpp"
#include "records/book.hpp"

namespace holdpin {

// The entry that keeps a reply over this seal. Errors: those of stamp_from; absent (it is over
// something else).
Result<Fact> stamp_fact(const Seal& seal, std::string_view reply);
// The same for the seal that stays and that the reply is over; absent, where there is none.
Result<Fact> stamp_fact(Database& db, std::string_view reply);

// Why no reply is kept just now.
Error no_stamp_in_doubt();

class StampWatch {
  public:
    struct Parts {
        Book& book;
        const Clock& clock;
        std::vector<std::string> words;  // the command; "{query}" in one is the query's file
        std::string folder;              // for query and reply, while it runs
        std::function<bool()> doubtful;  // true: nothing is asked for, and no reply is kept
        std::function<void(const Error&)> complain;
    };
    explicit StampWatch(Parts parts) : parts_(std::move(parts)) {}
    // Waits for a command that runs, a few seconds at most.
    ~StampWatch();
    StampWatch(const StampWatch&) = delete;
    StampWatch& operator=(const StampWatch&) = delete;

    // To be called again and again by the thread that owns the records; takes a few milliseconds at
    // most. One is asked for a day after one was kept, and an hour after a try that failed, also
    // where the program began anew in between. True when one was entered.
    bool step();

  private:
    bool is_due(std::int64_t now);
    Result<void> begin();
    Result<void> keep();
    void put_off(std::int64_t next_ms);
    void drop_files() const;
    std::string path(const char* name) const { return parts_.folder + "/" + name; }

    Parts parts_;
    std::optional<std::int64_t> next_ms_;  // empty: not looked up yet
    std::optional<Seal> asked_;            // for a stamp over this one
    std::future<Result<void>> running_;
    std::string told_;  // the trouble told last
};

}  // namespace holdpin
