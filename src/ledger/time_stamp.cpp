#include "ledger/time_stamp.hpp"

#include <algorithm>
#include <optional>

namespace holdpin {
namespace {

// Identifiers of DER (X.690): a tag and whether it holds further parts.
constexpr std::uint8_t kInteger = 0x02;
constexpr std::uint8_t kOctets = 0x04;
constexpr std::uint8_t kObjectId = 0x06;
constexpr std::uint8_t kTime = 0x18;
constexpr std::uint8_t kSequence = 0x30;
constexpr std::uint8_t kSet = 0x31;
constexpr std::uint8_t kFirstTagged = 0xA0;

// 2.16.840.1.101.3.4.2.1, 1.2.840.113549.1.7.2 and 1.2.840.113549.1.9.16.1.4.
constexpr std::string_view kSha256("\x60\x86\x48\x01\x65\x03\x04\x02\x01", 9);
constexpr std::string_view kSignedData("\x2A\x86\x48\x86\xF7\x0D\x01\x07\x02", 9);
constexpr std::string_view kStampInfo("\x2A\x86\x48\x86\xF7\x0D\x01\x09\x10\x01\x04", 11);

Error no_reply() {
    return {ErrorKind::damaged, "this is no reply of a time stamp authority", "",
            "give the file as the authority sent it (application/timestamp-reply)"};
}

// The parts of a DER value one after the other. After the first that does not fit there is none.
class Parts {
  public:
    explicit Parts(std::string_view bytes) : rest_(bytes) {}

    // The content of the next part, if it has this identifier.
    std::optional<std::string_view> next(std::uint8_t identifier) {
        if (rest_.size() < 2 || static_cast<std::uint8_t>(rest_[0]) != identifier) return {};
        auto length = static_cast<std::size_t>(static_cast<std::uint8_t>(rest_[1]));
        std::size_t head = 2;
        if (length > kLongForm) {
            const std::size_t count = length - kLongForm;
            if (count > kMostLengthBytes || rest_.size() < head + count) return {};
            length = 0;
            for (std::size_t i = 0; i < count; ++i) {
                length = length * 256 + static_cast<std::uint8_t>(rest_[head++]);
            }
        } else if (length == kLongForm) {
            return {};
        }
        if (rest_.size() - head < length) return {};
        const std::string_view content = rest_.substr(head, length);
        rest_.remove_prefix(head + length);
        return content;
    }
    // The same, to be read further.
    std::optional<Parts> into(std::uint8_t identifier) {
        const auto content = next(identifier);
        return content ? std::optional<Parts>(Parts(*content)) : std::nullopt;
    }
    bool empty() const { return rest_.empty(); }

  private:
    static constexpr std::size_t kLongForm = 0x80;
    static constexpr std::size_t kMostLengthBytes = 4;

    std::string_view rest_;
};

// The TSTInfo that the token carries: ContentInfo, SignedData, EncapsulatedContentInfo.
std::optional<std::string_view> info_in(Parts& reply) {
    auto token = reply.into(kSequence);
    if (!token || token->next(kObjectId) != kSignedData) return {};
    auto tagged = token->into(kFirstTagged);
    auto data = tagged ? tagged->into(kSequence) : std::nullopt;
    if (!data || !data->next(kInteger) || !data->next(kSet)) return {};
    auto content = data->into(kSequence);
    if (!content || content->next(kObjectId) != kStampInfo) return {};
    auto wrapped = content->into(kFirstTagged);
    return wrapped ? wrapped->next(kOctets) : std::nullopt;
}

// 20261125114012Z, or with a fraction, as RFC 3161 section 2.4.2 has it.
std::optional<std::string> readable(std::string_view time) {
    constexpr std::size_t kToSeconds = 14;
    if (time.size() <= kToSeconds || time.back() != 'Z') return {};
    const std::string_view digits = time.substr(0, kToSeconds);
    std::string_view fraction = time.substr(kToSeconds, time.size() - kToSeconds - 1);
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    if (!std::all_of(digits.begin(), digits.end(), is_digit)) return {};
    if (!fraction.empty()) {
        const std::string_view after = fraction.substr(1);
        const bool formed = fraction[0] == '.' && !after.empty() && after.size() <= 9;
        if (!formed || !std::all_of(after.begin(), after.end(), is_digit)) return {};
    }
    const auto two = [&](std::size_t at) { return (digits[at] - '0') * 10 + digits[at + 1] - '0'; };
    const bool is_day = two(4) >= 1 && two(4) <= 12 && two(6) >= 1 && two(6) <= 31;
    // The second 60 is a leap second.
    if (!is_day || two(8) > 23 || two(10) > 59 || two(12) > 60) return {};
    const std::string text(digits);
    return text.substr(0, 4) + "-" + text.substr(4, 2) + "-" + text.substr(6, 2) + "T" +
           text.substr(8, 2) + ":" + text.substr(10, 2) + ":" + text.substr(12, 2) +
           std::string(fraction) + "Z";
}

std::optional<TimeStamp> stamp_in(std::string_view info) {
    Parts whole(info);
    auto parts = whole.into(kSequence);
    if (!parts || !parts->next(kInteger) || !parts->next(kObjectId)) return {};
    auto imprint = parts->into(kSequence);
    auto algorithm = imprint ? imprint->into(kSequence) : std::nullopt;
    if (!algorithm || algorithm->next(kObjectId) != kSha256) return {};
    const auto digest = imprint->next(kOctets);
    TimeStamp stamp;
    if (!digest || digest->size() != stamp.digest.size() || !parts->next(kInteger)) return {};
    std::transform(digest->begin(), digest->end(), stamp.digest.begin(),
                   [](char c) { return static_cast<std::uint8_t>(c); });
    const auto time = parts->next(kTime);
    auto text = time ? readable(*time) : std::nullopt;
    if (!text) return {};
    stamp.time = std::move(*text);
    return stamp;
}

}  // namespace

Sha256Digest stamped_digest(const Seal& seal) { return sha256(seal_body(seal) + "\n"); }

std::string stamp_query(const Sha256Digest& digest) {
    // SEQUENCE { 1, SEQUENCE { SEQUENCE { SHA-256, NULL }, OCTET STRING }, TRUE }.
    std::string query("\x30\x39\x02\x01\x01\x30\x31\x30\x0D\x06\x09", 11);
    query += kSha256;
    query += std::string("\x05\x00\x04\x20", 4);
    query.append(digest.begin(), digest.end());
    query += std::string("\x01\x01\xFF", 3);
    return query;
}

Result<TimeStamp> stamp_from(std::string_view reply) {
    if (reply.size() > kMostStampBytes) return no_reply();
    Parts whole(reply);
    auto parts = whole.into(kSequence);
    auto status = parts ? parts->into(kSequence) : std::nullopt;
    const auto code = status ? status->next(kInteger) : std::nullopt;
    if (!code || code->size() != 1 || !whole.empty()) return no_reply();
    const int granted_with_changes = 1;
    if (static_cast<std::uint8_t>((*code)[0]) > granted_with_changes) {
        return Error{ErrorKind::refused, "the authority refused to stamp, with status " +
                         std::to_string(static_cast<std::uint8_t>((*code)[0])), "",
                     "openssl ts -reply -text -in FILE shows why"};
    }
    const auto info = info_in(*parts);
    auto stamp = info ? stamp_in(*info) : std::nullopt;
    if (!stamp) return no_reply();
    return std::move(*stamp);
}

}  // namespace holdpin
