// A copy of a database that is in use, made a few pages at a time by SQLite's backup API, so
// that whoever draws frames can do it in between. What is written meanwhile comes into the copy,
// too. The copy stands under another name until it is whole and was checked; one that was not
// finished is taken away. The database must outlive it; not to be stepped inside a transaction.
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "base/result.hpp"
#include "store/database.hpp"

struct sqlite3_backup;

namespace holdpin {

// How large a copy is, in bytes.
Result<std::uint64_t> copy_size(Database& db);

class StepCopy {
  public:
    // Refused where `path` exists.
    static Result<std::unique_ptr<StepCopy>> begin(Database& db, const std::string& path);
    StepCopy(const StepCopy&) = delete;
    StepCopy& operator=(const StepCopy&) = delete;
    ~StepCopy();

    // Copies up to so many pages. True: everything is in the file part(), closed and on the disk.
    // Errors: full, failed; then the copy is over.
    Result<bool> step(int pages);
    // Gives the finished copy its name.
    Result<void> take_place();

    const std::string& part() const { return part_; }
    const std::string& path() const { return path_; }

  private:
    StepCopy(std::string path) : path_(std::move(path)), part_(path_ + ".part") {}
    Result<void> start(sqlite3* source);
    Result<void> finish();
    void close();

    std::string path_;
    std::string part_;
    sqlite3* target_ = nullptr;
    sqlite3_backup* backup_ = nullptr;
    bool whole_ = false;
    bool placed_ = false;
};

}  // namespace holdpin
