// The folder in which a binder comes into being: files by their name inside it, each with its sum.
#pragma once

#include <istream>
#include <map>
#include <string>

#include "base/out_file.hpp"
#include "binder/binder.hpp"

namespace holdpin {

class BinderFolder {
  public:
    explicit BinderFolder(std::string path) : path_(std::move(path)) {}

    // A file to be written piece by piece; its folders are made. Refused: a name with anything but
    // ASCII letters, digits and "-_./" in it, one that leaves the folder, and one that is there.
    Result<OutFile> open(const std::string& name);
    Result<void> close(const std::string& name, OutFile& file);
    Result<void> put(const BinderFile& file);
    // A file that somebody else wrote into the folder.
    Result<void> note(const std::string& name);

    const std::string& path() const { return path_; }
    std::size_t size() const { return sums_.size(); }
    // As `sha256sum --check` reads them, in the order of the names.
    std::string sums() const;

  private:
    std::string path_;
    std::map<std::string, std::string> sums_;
};

// What is said where somebody called the work off half way.
Error cancelled();
// Whether a name stays inside a binder and reads the same on every system.
bool is_binder_name(const std::string& name);
// The sum of what is left in a file that may be long. Error: failed.
Result<std::string> sum_of(std::istream& file);

}  // namespace holdpin
