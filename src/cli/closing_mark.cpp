#include "cli/closing_mark.hpp"

#include <fmt/format.h>
#include <sys/stat.h>

#include "base/text.hpp"

namespace holdpin {
namespace {

std::int64_t ns_of(const timespec& time) {
    return std::int64_t{time.tv_sec} * 1'000'000'000 + time.tv_nsec;
}

// Empty where the file cannot be looked at. The same key signs the same words alike (RFC 8032).
std::string mark_of(const std::string& data, const KioskKey& key) {
    struct stat file {};
    if (::stat((data + "/holdpin.db").c_str(), &file) != 0) return {};
    const std::string words =
        fmt::format("holdpin closed 1 {} {} {} {}", file.st_ino, file.st_size,
                    ns_of(file.st_mtim), ns_of(file.st_ctim));
    return words + " " + hex(sign(key, Bytes(words.begin(), words.end()))) + "\n";
}

}  // namespace

Result<void> keep_closing_mark(const std::string& data, const KioskKey& key) {
    return write_file(data + "/" + kClosingMark, mark_of(data, key));
}

bool is_as_left(const std::string& data, const KioskKey& key) {
    const auto kept = read_file(data + "/" + kClosingMark);
    return kept && !kept.value().empty() && kept.value() == mark_of(data, key);
}

}  // namespace holdpin
