// A disk for tests that fails when told to: SQLite's own VFS with a counter in front of each write,
// sync and truncation. From the chosen call on, every one fails, as on a disk that is full or was
// pulled out; reading goes on. One at a time; registered as "failing-disk" while it lives.
#pragma once

#include <sqlite3.h>

#include <string>

namespace holdpin {

class FailingDisk {
  public:
    FailingDisk();
    FailingDisk(const FailingDisk&) = delete;
    FailingDisk& operator=(const FailingDisk&) = delete;
    ~FailingDisk();

    // The `nth` call from now on (1 is the next) and all later ones fail with `code`.
    void fail_from(int nth, int code);
    void mend();
    bool has_failed() const;
    static std::string name() { return "failing-disk"; }
};

}  // namespace holdpin
