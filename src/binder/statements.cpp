#include "binder/statements.hpp"

#include <nlohmann/json.hpp>

#include "base_json/values.hpp"

namespace holdpin {
namespace {

using nlohmann::json;

constexpr const char* kVerbs = "http://adlnet.gov/expapi/verbs/";
constexpr const char* kActivities = "http://adlnet.gov/expapi/activities/";

// The kinds that are learning. Whether one was passed decides between two verbs.
struct Learning {
    std::string_view kind;
    const char* verb;
    const char* verb_failed;
    const char* type;
    const char* names;  // the key that says what was learned
};
constexpr Learning kLearning[] = {
    {"guide-read", "completed", "completed", "lesson", "guide"},
    {"quiz-finished", "passed", "failed", "assessment", "quiz"},
    {"instructed", "attended", "attended", "lesson", "class"},
    {"practised", "attended", "attended", "simulation", "class"},
    {"evaluated", "passed", "failed", "performance", "class"},
};

// A domain that never resolves (RFC 2606): the identifiers stay inside what the site makes of them.
std::string home_of(const Entry& entry) { return "https://" + entry.site + ".holdpin.invalid"; }

json account(const Entry& entry, const std::string& person) {
    return {{"objectType", "Agent"},
            {"account", {{"homePage", home_of(entry)}, {"name", person}}}};
}

// The leaf is a hash over 128 random bits, so its first half serves as a random UUID (RFC 9562,
// version 4), and the same entry has the same one in every binder.
std::string uuid_of(Hash leaf) {
    leaf[6] = static_cast<std::uint8_t>((leaf[6] & 0x0FU) | 0x40U);
    leaf[8] = static_cast<std::uint8_t>((leaf[8] & 0x3FU) | 0x80U);
    const std::string all = hex(leaf);
    return all.substr(0, 8) + "-" + all.substr(8, 4) + "-" + all.substr(12, 4) + "-" +
           all.substr(16, 4) + "-" + all.substr(20, 12);
}

const Text* title_of(const Learning& learning, const std::string& id, const Pack& pack) {
    const std::string_view names = learning.names;
    if (names == "guide") {
        const Guide* guide = pack.guide(id);
        return guide == nullptr ? nullptr : &guide->title;
    }
    if (names == "quiz") {
        const Quiz* quiz = pack.quiz(id);
        return quiz == nullptr ? nullptr : &quiz->title;
    }
    const MachineClass* machine_class = pack.machine_class(id);
    return machine_class == nullptr ? nullptr : &machine_class->name;
}

json activity(const Entry& entry, const Learning& learning, const Pack& pack) {
    const std::string id = text_of(entry.data, learning.names);
    json definition{{"type", std::string(kActivities) + learning.type}};
    if (const Text* title = title_of(learning, id, pack)) {
        definition["name"] = json(title->by_language);
    }
    return {{"objectType", "Activity"},
            {"id", home_of(entry) + "/" + std::string(entry.kind) + "/" + id},
            {"definition", definition}};
}

json result_of(const Entry& entry) {
    json result = json::object();
    const auto passed = entry.data.find("passed");
    if (passed != entry.data.end() && passed->is_boolean()) result["success"] = *passed;
    const std::int64_t asked = number_of(entry.data, "asked");
    if (entry.kind == "quiz-finished" && asked > 0) {
        const std::int64_t right = number_of(entry.data, "right");
        result["score"] = {{"raw", right}, {"min", 0}, {"max", asked},
                           {"scaled", static_cast<double>(right) / static_cast<double>(asked)}};
    }
    return result;
}

json context_of(const Entry& entry) {
    const std::string home = home_of(entry);
    json extensions{{home + "/entry", entry.n}, {home + "/topics", json::array()}};
    const auto topics = entry.data.find("topics");
    if (topics != entry.data.end()) extensions[home + "/topics"] = *topics;
    if (!entry.content.empty()) extensions[home + "/content"] = entry.content;
    const std::string on = text_of(entry.data, "on");
    if (!on.empty()) extensions[home + "/on"] = on;
    json context{{"platform", "Holdpin"}, {"extensions", extensions}};
    const std::string language = text_of(entry.data, "language");
    if (!language.empty()) context["language"] = language;
    const bool by_other = !entry.by.empty() && entry.by.front() != text_of(entry.data, "person");
    if (by_other) context["instructor"] = account(entry, entry.by.front());
    return context;
}

}  // namespace

std::optional<std::string> statement_of(const Entry& entry, const Hash& leaf, const Pack& pack) {
    for (const Learning& learning : kLearning) {
        const std::string person = text_of(entry.data, "person");
        if (learning.kind != entry.kind || person.empty()) continue;
        const auto passed = entry.data.find("passed");
        const bool failed = passed != entry.data.end() && *passed == false;
        const char* verb = failed ? learning.verb_failed : learning.verb;
        json statement{{"id", uuid_of(leaf)},
                       {"actor", account(entry, person)},
                       {"verb", {{"id", std::string(kVerbs) + verb}, {"display", {{"en", verb}}}}},
                       {"object", activity(entry, learning, pack)},
                       {"context", context_of(entry)},
                       {"timestamp", utc_text(entry.at_ms)},
                       {"version", "2.0.0"}};
        if (json result = result_of(entry); !result.empty()) statement["result"] = result;
        return statement.dump(-1, ' ', false, json::error_handler_t::replace);
    }
    return std::nullopt;
}

}  // namespace holdpin
