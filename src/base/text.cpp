#include "base/text.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <filesystem>

namespace holdpin {
namespace {

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

Error system_error(const std::string& path, std::string_view doing) {
    const int code = errno;
    const bool full = code == ENOSPC || code == EDQUOT || code == EFBIG;
    const ErrorKind kind = code == ENOENT   ? ErrorKind::absent
                           : full           ? ErrorKind::full
                           : code == EROFS  ? ErrorKind::read_only
                           : code == EACCES ? ErrorKind::refused
                                            : ErrorKind::failed;
    return {kind, fmt::format("cannot {}: {}", doing, std::strerror(code)), path, ""};
}

// A descriptor that is closed when it goes out of sight.
struct Descriptor {
    int fd;
    explicit Descriptor(int opened) : fd(opened) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (fd >= 0) ::close(fd);
    }
};

Result<void> write_all(int fd, std::string_view bytes, const std::string& path) {
    while (!bytes.empty()) {
        const ssize_t count = ::write(fd, bytes.data(), bytes.size());
        if (count < 0) {
            if (errno == EINTR) continue;
            return system_error(path, "write");
        }
        bytes.remove_prefix(static_cast<std::size_t>(count));
    }
    return {};
}

bool is_continuation(char c) { return (static_cast<unsigned>(c) & 0xC0U) == 0x80U; }

// How many continuation bytes belong to a UTF-8 letter that begins with `first`.
int continuation_count(char first) {
    const auto byte = static_cast<std::uint8_t>(first);
    if (byte < 0xC0 || byte >= 0xF8) return 0;
    return byte < 0xE0 ? 1 : byte < 0xF0 ? 2 : 3;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t above = row[j];
            row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] != b[j - 1])});
            diagonal = above;
        }
    }
    return row[b.size()];
}

}  // namespace

std::string hex(std::span<const std::uint8_t> bytes) {
    constexpr char kDigits[] = "0123456789abcdef";
    std::string text;
    text.reserve(bytes.size() * 2);
    for (const std::uint8_t byte : bytes) {
        text += kDigits[byte >> 4];
        text += kDigits[byte & 15];
    }
    return text;
}

Result<Bytes> unhex(std::string_view text) {
    Bytes bytes;
    for (std::size_t i = 0; i + 1 < text.size(); i += 2) {
        const int high = hex_digit(text[i]);
        const int low = hex_digit(text[i + 1]);
        if (high < 0 || low < 0) break;
        bytes.push_back(static_cast<std::uint8_t>(high * 16 + low));
    }
    if (bytes.size() * 2 != text.size()) {
        return Error{ErrorKind::invalid, "this is no hexadecimal text", std::string(text),
                     "use pairs of 0-9 and a-f"};
    }
    return bytes;
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kBlank = " \t\r\n";
    const auto first = text.find_first_not_of(kBlank);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

std::vector<std::string> split(std::string_view text, char separator) {
    std::vector<std::string> parts;
    while (true) {
        const auto at = text.find(separator);
        parts.emplace_back(text.substr(0, at));
        if (at == std::string_view::npos) return parts;
        text.remove_prefix(at + 1);
    }
}

std::string joined(const std::vector<std::string>& parts, std::string_view separator) {
    return fmt::format("{}", fmt::join(parts, separator));
}

std::vector<std::string> letters_of(std::string_view utf8) {
    std::vector<std::string> letters;
    for (const char byte : utf8) {
        if (is_continuation(byte) && !letters.empty()) {
            letters.back() += byte;
        } else {
            letters.emplace_back(1, byte);
        }
    }
    return letters;
}

std::size_t code_points(std::string_view utf8) {
    std::size_t count = 0;
    int open = 0;  // continuation bytes that still belong to the letter counted last
    for (const char c : utf8) {
        if (open > 0 && is_continuation(c)) {
            --open;
            continue;
        }
        ++count;
        open = continuation_count(c);
    }
    return count;
}

void drop_last_code_point(std::string& utf8) {
    while (!utf8.empty() && is_continuation(utf8.back())) utf8.pop_back();
    if (!utf8.empty()) utf8.pop_back();
}

Result<std::string> read_file(const std::string& path) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (file.fd < 0) return system_error(path, "open");
    std::string text;
    char buffer[65536];
    while (true) {
        const ssize_t count = ::read(file.fd, buffer, sizeof buffer);
        if (count < 0) {
            if (errno == EINTR) continue;
            return system_error(path, "read");
        }
        if (count == 0) return text;
        text.append(buffer, static_cast<std::size_t>(count));
    }
}

Result<std::string> read_secret(const std::string& path) {
    std::error_code code;
    const auto open_to = std::filesystem::status(path, code).permissions() &
                         (std::filesystem::perms::group_all | std::filesystem::perms::others_all);
    if (!code && open_to != std::filesystem::perms::none) {
        return Error{ErrorKind::refused, "others than its owner have rights to this secret file",
                     path, "run: chmod 600 " + path};
    }
    return read_file(path);
}

Result<void> write_file(const std::string& path, std::string_view bytes, int mode) {
    const std::string beside = path + ".part";
    {
        const Descriptor file(
            ::open(beside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, mode));
        if (file.fd < 0) return system_error(beside, "create");
        TRY(write_all(file.fd, bytes, beside));
        if (::fsync(file.fd) != 0) return system_error(beside, "store");
    }
    if (::rename(beside.c_str(), path.c_str()) != 0) return system_error(path, "put in place");
    std::string parent = std::filesystem::path(path).parent_path().string();
    if (parent.empty()) parent = ".";
    const Descriptor folder(::open(parent.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (folder.fd < 0 || ::fsync(folder.fd) != 0) return system_error(parent, "store");
    return {};
}

std::string tenths_text(std::int64_t tenths) {
    return fmt::format("{}.{}", tenths / 10, tenths % 10);
}

Result<std::int64_t> parse_tenths(std::string_view text) {
    const auto dot = text.find('.');
    const std::string_view whole = text.substr(0, dot);
    const std::string_view rest = dot == std::string_view::npos ? "" : text.substr(dot + 1);
    std::int64_t value = 0;
    const auto [end, code] = std::from_chars(whole.data(), whole.data() + whole.size(), value);
    const bool whole_ok = code == std::errc{} && end == whole.data() + whole.size() && value >= 0 &&
                          value < 100'000'000 && whole.front() != '-';
    const bool rest_ok =
        dot == std::string_view::npos || (rest.size() == 1 && rest[0] >= '0' && rest[0] <= '9');
    if (!whole_ok || !rest_ok) {
        return Error{ErrorKind::invalid, fmt::format("\"{}\" is no number", text), "",
                     "write digits with at most one decimal, for example 1284.6"};
    }
    return value * 10 + (rest.empty() ? 0 : rest[0] - '0');
}

Result<double> parse_decimal(std::string_view text) {
    double value = 0;
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool plain = text.find_first_not_of("-0123456789.eE+") == std::string_view::npos;
    if (code == std::errc{} && end == text.data() + text.size() && plain && !text.empty()) {
        return value;
    }
    return Error{ErrorKind::invalid, fmt::format("\"{}\" is no number", text), "",
                 "write digits with a decimal point, for example 4.25"};
}

std::string with_thousands(std::string_view number) {
    const auto dot = std::min(number.find('.'), number.size());
    std::string text;
    for (std::size_t i = 0; i < dot; ++i) {
        if (i > 0 && (dot - i) % 3 == 0) text += "\u202f";
        text += number[i];
    }
    return text.append(number.substr(dot));
}

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
    std::string best;
    std::size_t best_distance = 3;
    for (const auto& candidate : known) {
        const std::size_t distance = edit_distance(word, candidate);
        if (distance < best_distance) {
            best = candidate;
            best_distance = distance;
        }
    }
    return best;
}

}  // namespace holdpin
