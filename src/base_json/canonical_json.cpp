#include "base_json/canonical_json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string_view>
#include <utility>
#include <vector>

namespace holdpin {
namespace {

using Json = nlohmann::json;

// Reads the code point that starts at `at` and moves past it. False where the bytes are no UTF-8:
// a cut or overlong sequence, a surrogate, a value past U+10FFFF.
bool next_code_point(std::string_view text, std::size_t& at, char32_t& code) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(at);
    const std::size_t length = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    if ((lead >= 0x80 && lead < 0xC2) || lead > 0xF4 || at + length > text.size()) return false;
    code = length == 1 ? lead : static_cast<char32_t>(lead & (0xFF >> (length + 1)));
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(at + i) & 0xC0) != 0x80) return false;
        code = code << 6 | static_cast<char32_t>(byte(at + i) & 0x3F);
    }
    constexpr char32_t kLeast[] = {0, 0, 0x80, 0x800, 0x10000};
    at += length;
    return code >= kLeast[length] && code <= 0x10FFFF && (code < 0xD800 || code > 0xDFFF);
}

bool is_utf8(std::string_view text) {
    char32_t code = 0;
    for (std::size_t at = 0; at < text.size();) {
        if (!next_code_point(text, at, code)) return false;
    }
    return true;
}

// The RFC sorts keys by UTF-16 code units, which differs from UTF-8 order past U+FFFF.
std::u16string utf16(std::string_view text) {
    std::u16string units;
    char32_t code = 0;
    for (std::size_t at = 0; at < text.size() && next_code_point(text, at, code);) {
        if (code < 0x10000) {
            units += static_cast<char16_t>(code);
        } else {
            units += static_cast<char16_t>(0xD800 + ((code - 0x10000) >> 10));
            units += static_cast<char16_t>(0xDC00 + ((code - 0x10000) & 0x3FF));
        }
    }
    return units;
}

using Member = Json::object_t::value_type;

// They come sorted by their bytes. That is the order of UTF-16 too, up to where surrogates begin.
std::vector<const Member*> sorted(const Json::object_t& object) {
    const auto is_past_surrogates = [](char c) { return static_cast<unsigned char>(c) > 0xED; };
    std::vector<const Member*> members;
    members.reserve(object.size());
    bool by_bytes = true;
    for (const Member& member : object) {
        const std::string& key = member.first;
        by_bytes = by_bytes && std::none_of(key.begin(), key.end(), is_past_surrogates);
        members.push_back(&member);
    }
    if (!by_bytes) {
        std::sort(members.begin(), members.end(), [](const Member* one, const Member* other) {
            return utf16(one->first) < utf16(other->first);
        });
    }
    return members;
}

bool needs_escape(char c) {
    return static_cast<unsigned char>(c) < 0x20 || c == '"' || c == '\\';
}

void put_escaped(std::string& out, char c) {
    switch (c) {
        case '"':
            out += "\\\"";
            return;
        case '\\':
            out += "\\\\";
            return;
        case '\b':
            out += "\\b";
            return;
        case '\t':
            out += "\\t";
            return;
        case '\n':
            out += "\\n";
            return;
        case '\f':
            out += "\\f";
            return;
        case '\r':
            out += "\\r";
            return;
        default:
            break;
    }
    if (static_cast<unsigned char>(c) < 0x20) {
        out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    } else {
        out += c;
    }
}

class Writer {
  public:
    Result<void> put(const Json& value, int depth) {
        if (depth > kCanonicalDepthMax) return refuse("it is nested too deep");
        switch (value.type()) {
            case Json::value_t::null:
                out_ += "null";
                return {};
            case Json::value_t::boolean:
                out_ += value.get<bool>() ? "true" : "false";
                return {};
            case Json::value_t::string:
                return put_text(value.get_ref<const std::string&>());
            case Json::value_t::number_integer:
            case Json::value_t::number_unsigned:
                return put_integer(value);
            case Json::value_t::array:
                return put_array(value, depth);
            case Json::value_t::object:
                return put_object(value, depth);
            default:
                break;
        }
        return refuse("it is a number with a point or binary");
    }

    std::string take() { return std::move(out_); }

  private:
    Error refuse(std::string_view why) const {
        return {ErrorKind::invalid, fmt::format("this value has no canonical form: {}", why), "",
                "write decimals as text, integers below 2^53"};
    }

    Result<void> put_text(const std::string& text) {
        if (!is_utf8(text)) return refuse("the text is no UTF-8");
        out_ += '"';
        if (std::none_of(text.begin(), text.end(), needs_escape)) {
            out_ += text;
        } else {
            for (const char c : text) put_escaped(out_, c);
        }
        out_ += '"';
        return {};
    }

    Result<void> put_integer(const Json& value) {
        const bool too_large =
            value.is_number_unsigned()
                ? value.get<std::uint64_t>() > static_cast<std::uint64_t>(kCanonicalIntegerMax)
                : value.get<std::int64_t>() < -kCanonicalIntegerMax ||
                      value.get<std::int64_t>() > kCanonicalIntegerMax;
        if (too_large) return refuse("the integer is too large");
        out_ += std::to_string(value.get<std::int64_t>());
        return {};
    }

    // Where a fault lies is put together on the way back, so that it costs nothing without one.
    static Error below(const std::string& step, Error error) {
        error.where = '/' + step + error.where;
        return error;
    }

    Result<void> put_array(const Json& value, int depth) {
        out_ += '[';
        for (std::size_t i = 0; i < value.size(); ++i) {
            if (i > 0) out_ += ',';
            auto done = put(value[i], depth + 1);
            if (!done) return below(std::to_string(i), done.error());
        }
        out_ += ']';
        return {};
    }

    Result<void> put_object(const Json& value, int depth) {
        out_ += '{';
        bool first = true;
        for (const Member* member : sorted(value.get_ref<const Json::object_t&>())) {
            if (!std::exchange(first, false)) out_ += ',';
            TRY(put_text(member->first));
            out_ += ':';
            auto done = put(member->second, depth + 1);
            if (!done) return below(member->first, done.error());
        }
        out_ += '}';
        return {};
    }

    std::string out_;
};

}  // namespace

Result<std::string> canonical(const nlohmann::json& value) {
    Writer writer;
    if (auto done = writer.put(value, 0); !done) {
        Error error = done.error();
        if (error.where.empty()) error.where = "/";
        return error;
    }
    return writer.take();
}

}  // namespace holdpin
