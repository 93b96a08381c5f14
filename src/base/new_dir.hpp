// A folder that comes into being as a whole: it is filled under another name beside its place and
// renamed when it is ready. What never got its place is taken away again.
#pragma once

#include <string>

#include "base/result.hpp"

namespace holdpin {

class NewDir {
  public:
    // Makes an empty neighbour of `dir`, readable by its owner alone, and the folders above it.
    static Result<NewDir> beside(const std::string& dir);
    NewDir(NewDir&& other) noexcept;
    NewDir(const NewDir&) = delete;
    NewDir& operator=(const NewDir&) = delete;
    ~NewDir();

    const std::string& path() const { return path_; }
    // Refused where `dir` exists and holds anything.
    Result<void> take_place();
    // Like take_place(), but an existing `dir` is taken away once the new one stands.
    Result<void> replace();

  private:
    NewDir(std::string dir, std::string path) : dir_(std::move(dir)), path_(std::move(path)) {}
    std::string dir_;
    std::string path_;  // empty: nothing to take away
};

}  // namespace holdpin
