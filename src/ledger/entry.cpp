// The stored form of an entry: to bytes and back. FORMAT.md describes it.
#include <algorithm>

#include "base/sha256.hpp"
#include "base_json/canonical_json.hpp"
#include "ledger/ledger.hpp"

namespace holdpin {
namespace {

constexpr std::int64_t kEntryVersion = 1;  // on disk; do not change
constexpr std::size_t kEntryFields = 15;
constexpr std::size_t kSaltDigits = 32;

// Takes fields out of a parsed body, moving what is large, and remembers whether all were there and
// of their type.
class FieldReader {
  public:
    explicit FieldReader(nlohmann::json& object) : object_(object) {}
    bool ok() const { return ok_; }

    std::int64_t integer(const char* name) {
        const auto* field = find(name);
        ok_ = ok_ && field != nullptr && field->is_number_integer();
        return ok_ ? field->get<std::int64_t>() : 0;
    }
    std::string text(const char* name) {
        const auto* field = find(name);
        ok_ = ok_ && field != nullptr && field->is_string();
        return ok_ ? field->get<std::string>() : std::string();
    }
    std::vector<std::string> texts(const char* name) {
        const auto* field = find(name);
        ok_ = ok_ && field != nullptr && field->is_array() &&
              std::all_of(field->begin(), field->end(),
                          [](const nlohmann::json& item) { return item.is_string(); });
        return ok_ ? field->get<std::vector<std::string>>() : std::vector<std::string>();
    }
    nlohmann::json object(const char* name) {
        auto* field = find(name);
        ok_ = ok_ && field != nullptr && field->is_object();
        return ok_ ? std::move(*field) : nlohmann::json::object();
    }

  private:
    nlohmann::json* find(const char* name) {
        const auto found = object_.find(name);
        return found == object_.end() ? nullptr : &*found;
    }

    nlohmann::json& object_;
    bool ok_ = true;
};

Error no_entry(std::string why) {
    return {ErrorKind::damaged, "a stored body is no entry of version 1: " + std::move(why), "",
            ""};
}

bool is_salt(std::string_view text) {
    return text.size() == kSaltDigits &&
           text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

Result<Entry> entry_of(nlohmann::json object) {
    FieldReader fields(object);
    const std::int64_t version = fields.integer("v");
    Entry entry;
    entry.n = fields.integer("n");
    entry.kind = fields.text("kind");
    entry.at_ms = fields.integer("at_ms");
    entry.offset_min = static_cast<int>(fields.integer("offset_min"));
    entry.zone = fields.text("zone");
    entry.boot = fields.text("boot");
    entry.mono_ms = fields.integer("mono_ms");
    entry.site = fields.text("site");
    entry.kiosk = fields.text("kiosk");
    entry.by = fields.texts("by");
    entry.content = fields.text("content");
    entry.about = fields.integer("about");
    entry.salt = fields.text("salt");
    entry.data = fields.object("data");
    if (!fields.ok() || version != kEntryVersion || object.size() != kEntryFields) {
        return no_entry("its fields are not those of the format");
    }
    if (entry.n < 1 || entry.kind.empty() || entry.about < 0 || entry.about >= entry.n ||
        !is_salt(entry.salt)) {
        return no_entry("a field has a value that no entry has");
    }
    return entry;
}

}  // namespace

Result<std::string> entry_body(const Entry& entry) {
    const nlohmann::json object = {
        {"v", kEntryVersion},
        {"n", entry.n},
        {"kind", entry.kind},
        {"at_ms", entry.at_ms},
        {"offset_min", entry.offset_min},
        {"zone", entry.zone},
        {"boot", entry.boot},
        {"mono_ms", entry.mono_ms},
        {"site", entry.site},
        {"kiosk", entry.kiosk},
        {"by", entry.by},
        {"content", entry.content},
        {"about", entry.about},
        {"salt", entry.salt},
        {"data", entry.data},
    };
    return canonical(object);
}

Result<void> bind_signature(Entry& entry) {
    const auto at = entry.data.find("signature");
    if (at == entry.data.end() || !at->is_object()) return {};
    at->erase("record");
    (*at)["record"] = hex(sha256(TRY(entry_body(entry))));
    return {};
}

bool signature_is_bound(const Entry& entry, std::string_view body) {
    const auto at = entry.data.find("signature");
    if (at == entry.data.end() || !at->is_object() || !at->contains("record")) return true;
    // The keys are sorted and others come before it, so that taking this out leaves the body that
    // was hashed. The digest stands in the body once: nobody finds a text that holds its own.
    const auto& record = (*at)["record"];
    if (!record.is_string()) return false;
    const std::string stated = record.get<std::string>();
    const std::string part = ",\"record\":\"" + stated + "\"";
    const auto place = body.find(part);
    if (place == std::string_view::npos) return false;
    std::string without(body.substr(0, place));
    without += body.substr(place + part.size());
    return hex(sha256(without)) == stated;
}

Result<Entry> entry_from(std::string_view body) {
    auto object = nlohmann::json::parse(body, nullptr, false);
    if (!object.is_object()) return no_entry("it is no JSON object");
    // Only one sequence of bytes stands for an entry: no blanks, no key twice, no other order.
    const auto again = canonical(object);
    if (!again || again.value() != body) return no_entry("it is not in canonical form");
    return entry_of(std::move(object));
}

Result<Entry> entry_of_trusted(std::string_view body) {
    auto object = nlohmann::json::parse(body, nullptr, false);
    if (!object.is_object()) return no_entry("it is no JSON object");
    return entry_of(std::move(object));
}

}  // namespace holdpin
