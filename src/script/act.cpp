#include "script/act.hpp"

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "content/toml_tree.hpp"

namespace holdpin {
namespace {

struct VerbName {
    std::string_view name;
    Verb verb;
};
constexpr std::array kVerbs{
    VerbName{"tap", Verb::tap},           VerbName{"type", Verb::type},
    VerbName{"pin", Verb::pin},           VerbName{"badge", Verb::badge},
    VerbName{"sign_on", Verb::sign_on},   VerbName{"sign", Verb::sign},
    VerbName{"answer", Verb::answer},     VerbName{"walk", Verb::walk},
    VerbName{"guide", Verb::guide},       VerbName{"quiz", Verb::quiz},
    VerbName{"expect", Verb::expect},     VerbName{"expect_not", Verb::expect_not},
    VerbName{"grey", Verb::grey},
    VerbName{"expect_page", Verb::expect_page}, VerbName{"ledger", Verb::ledger},
    VerbName{"no_ledger", Verb::no_ledger}, VerbName{"wait", Verb::wait},
    VerbName{"clock", Verb::clock},       VerbName{"power_cut", Verb::power_cut},
    VerbName{"picture", Verb::picture},
};

std::vector<std::string> verb_names() {
    std::vector<std::string> names;
    for (const auto& known : kVerbs) names.emplace_back(known.name);
    return names;
}

// What the readers below share: where faults go, and in which file they are.
struct Notes {
    const std::string& file;
    Faults& faults;

    void add(const Node& at, std::string what, std::string mend) {
        faults.push_back({file, at.line, at.column, std::move(what), std::move(mend)});
    }
    void add(const Node::Key& at, std::string what, std::string mend) {
        faults.push_back({file, at.line, at.column, std::move(what), std::move(mend)});
    }
};

std::string text_of(const Node& node, std::string_view key, Notes& notes) {
    if (node.kind == Node::Kind::text && !node.text.empty()) return node.text;
    notes.add(node, "\"" + std::string(key) + "\" takes a text", "write it in quotation marks");
    return {};
}

void read_moment(const Node& node, std::string_view key, Date& date, int& minute, Notes& notes) {
    const std::string text = text_of(node, key, notes);
    if (text.empty()) return;
    const auto parts = split(text, 'T');
    const auto day = parse_date(parts.front());
    const auto time = parse_minute(parts.size() == 2 ? parts.back() : "");
    if (!day.ok() || !time.ok()) {
        notes.add(node, "\"" + text + "\" is no local time", "write \"2026-11-25T05:40\"");
        return;
    }
    date = day.value();
    minute = time.value();
}

int minutes_of(const Node& node, Notes& notes) {
    const std::string text = text_of(node, "wait", notes);
    const auto parts = split(text, ':');
    const bool digits = text.find_first_not_of("0123456789:") == std::string::npos;
    if (digits && parts.size() == 2 && parts[0].size() >= 1 && parts[0].size() <= 5 &&
        parts[1].size() == 2 && parts[1] < "60") {
        return std::stoi(parts[0]) * 60 + std::stoi(parts[1]);
    }
    notes.add(node, "\"" + text + "\" is no time span", "write hours and minutes: \"00:20\"");
    return 0;
}

std::vector<Pair> pairs_of(const Node& node, std::string_view key, Notes& notes) {
    std::vector<Pair> pairs;
    if (node.kind != Node::Kind::table) {
        notes.add(node, "\"" + std::string(key) + "\" takes points and their readings",
                  "write { brake = \"creeps\" }");
        return pairs;
    }
    // As they are written: a parser may hand out keys in an order of its own.
    std::map<std::pair<int, int>, Pair> in_order;
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
        const auto& point = node.keys[i];
        in_order[{point.line, point.column}] = {point.name,
                                                text_of(node.items[i], point.name, notes)};
    }
    for (auto& [place, pair] : in_order) pairs.push_back(std::move(pair));
    return pairs;
}

void read_walk(const Node& node, Act& act, Notes& notes) {
    if (node.kind == Node::Kind::boolean && node.truth) return;
    if (node.kind != Node::Kind::table) {
        notes.add(node, "\"walk\" takes true or a table", "write walk = true");
        return;
    }
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
        const auto& key = node.keys[i];
        if (key.name == "except") {
            act.pairs = pairs_of(node.items[i], "except", notes);
        } else if (key.name == "hours" || key.name == "fuel") {
            act.values[key.name] = text_of(node.items[i], key.name, notes);
        } else {
            notes.add(key, "\"walk\" knows no \"" + key.name + "\"",
                      "it knows except, hours and fuel");
        }
    }
}

void read_argument(const Node& node, std::string_view key, Act& act, Notes& notes) {
    switch (act.verb) {
        case Verb::answer: act.pairs = pairs_of(node, key, notes); break;
        case Verb::walk: read_walk(node, act, notes); break;
        case Verb::wait: act.minutes = minutes_of(node, notes); break;
        case Verb::clock: read_moment(node, key, act.date, act.minute_of_day, notes); break;
        case Verb::guide:
        case Verb::power_cut:
            if (node.kind == Node::Kind::boolean && node.truth) break;
            notes.add(node, "\"" + std::string(key) + "\" takes true", "write true");
            break;
        case Verb::quiz:
            act.text = text_of(node, key, notes);
            if (act.text == "right" || act.text == "wrong" || act.text.empty()) break;
            notes.add(node, "\"" + act.text + "\" is no way to answer", "write right or wrong");
            break;
        default: act.text = text_of(node, key, notes);
    }
}

Act read_act(const Node& node, int number, Notes& notes) {
    Act act;
    act.number = number;
    act.line = node.line;
    if (node.keys.size() != 1) {
        notes.add(node, "an act has one verb, this one has " + std::to_string(node.keys.size()),
                  "write one [[act]] for each");
        return act;
    }
    const auto& key = node.keys.front();
    act.line = key.line;
    const auto known = std::find_if(kVerbs.begin(), kVerbs.end(),
                                    [&](const VerbName& one) { return one.name == key.name; });
    if (known == kVerbs.end()) {
        const std::string near = nearest(key.name, verb_names());
        notes.add(key, "there is no act \"" + key.name + "\"",
                  near.empty() ? "write one of: " + joined(verb_names(), ", ")
                               : "did you mean \"" + near + "\"?");
        return act;
    }
    act.verb = known->verb;
    read_argument(node.items.front(), key.name, act, notes);
    return act;
}

void read_size(const Node& node, Script& script, Notes& notes) {
    const bool pair = node.kind == Node::Kind::array && node.items.size() == 2 &&
                      node.items[0].kind == Node::Kind::integer &&
                      node.items[1].kind == Node::Kind::integer;
    constexpr std::int64_t kLeast = 320;
    constexpr std::int64_t kMost = 8192;
    for (const auto& side : node.items) {
        if (pair && side.integer >= kLeast && side.integer <= kMost) continue;
        notes.add(node, "this is no size of a screen", "write size = [1280, 800]");
        return;
    }
    script.width = static_cast<int>(node.items[0].integer);
    script.height = static_cast<int>(node.items[1].integer);
}

void read_key(const Node::Key& key, const Node& node, Script& script, Notes& notes) {
    if (key.name == "site") {
        script.site = text_of(node, key.name, notes);
    } else if (key.name == "language") {
        script.language = text_of(node, key.name, notes);
    } else if (key.name == "units") {
        script.units = text_of(node, key.name, notes);
        if (script.units == "metric" || script.units == "us") return;
        notes.add(node, "these are no units", "write units = \"metric\" or \"us\"");
    } else if (key.name == "start") {
        read_moment(node, key.name, script.date, script.minute_of_day, notes);
    } else if (key.name == "size") {
        read_size(node, script, notes);
    } else if (key.name == "act" && node.kind == Node::Kind::array) {
        for (std::size_t i = 0; i < node.items.size(); ++i) {
            script.acts.push_back(read_act(node.items[i], static_cast<int>(i) + 1, notes));
        }
    } else {
        notes.add(key, "a script has no \"" + key.name + "\"",
                  "it has site, start, language, units, size and [[act]]");
    }
}

}  // namespace

std::string_view name_of(Verb verb) {
    for (const auto& known : kVerbs) {
        if (known.verb == verb) return known.name;
    }
    return "";
}

Script read_script(const std::string& file, std::string_view text, Faults& faults) {
    Script script;
    script.file = file;
    const auto tree = parse_toml(file, text, faults);
    if (!tree) return script;
    Notes notes{file, faults};
    for (std::size_t i = 0; i < tree->keys.size(); ++i) {
        read_key(tree->keys[i], tree->items[i], script, notes);
    }
    if (tree->find("start") == nullptr) {
        notes.add(*tree, "the script says no start", "write start = \"2026-11-25T05:40\"");
    }
    if (script.acts.empty()) notes.add(*tree, "the script has no act", "write [[act]] rows");
    put_in_order(faults);
    return script;
}

}  // namespace holdpin
