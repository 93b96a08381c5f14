// A file that is written piece by piece, however long it gets, with its SHA-256 on the way.
// It is on disk when close() returned ok; one that was not closed has unknown content.
#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"
#include "base/sha256.hpp"

namespace holdpin {

class OutFile {
  public:
    // Made anew or emptied. Errors: full, failed.
    static Result<OutFile> open(const std::string& path, int mode = 0644);
    OutFile(OutFile&& other) noexcept;
    OutFile(const OutFile&) = delete;
    OutFile& operator=(const OutFile&) = delete;
    ~OutFile();

    // After an error the file is of no use.
    Result<void> write(std::string_view bytes);
    // Writes what is held back and syncs it; the digest of all bytes.
    Result<Sha256Digest> close();

  private:
    OutFile(int fd, std::string path) : fd_(fd), path_(std::move(path)) {}
    Result<void> flush();
    int fd_;
    std::string path_;
    std::string held_;
    Sha256 sum_;
};

}  // namespace holdpin
