// A disk in memory for tests that can lose its power: what was synced and what was only written
// are kept apart, and every write, truncation and sync is counted. At the chosen call it does
// one of the things that disks do. Names of files are durable at once, as on a journalling file
// system; what it cannot show are disks that lie about a sync. One at a time, registered as
// "power-disk".
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "base/random.hpp"

namespace holdpin {

enum class DiskFault {
    power_cut,  // everything that was not synced is lost
    torn,       // of what was not synced some is lost, and the write itself is cut in half
    io_error,   // this one call fails, and the disk goes on
    full,       // from this call on there is no room; what is written over in place still fits
};

class PowerDisk {
  public:
    struct Pending {
        std::uint64_t at = 0;
        std::string bytes;
        bool cut = false;  // truncated to `at`
    };
    struct Stored {
        std::string durable;
        std::string present;
        std::vector<Pending> pending;
    };
    using Files = std::map<std::string, std::shared_ptr<Stored>>;

    PowerDisk();
    PowerDisk(const PowerDisk&) = delete;
    PowerDisk& operator=(const PowerDisk&) = delete;
    ~PowerDisk();

    // The `nth` call from now on (1 is the next) meets the fault.
    void fail_at(int nth, DiskFault fault, std::uint64_t seed);
    bool has_failed() const;
    int calls() const;  // since the last fail_at() or mend()
    // The disk as it is after the fault, with power again and room to write.
    void mend();

    // Everything that is stored, and back to that.
    std::map<std::string, std::string> image() const;
    void put(const std::map<std::string, std::string>& image);
    static std::string name() { return "power-disk"; }
};

}  // namespace holdpin
