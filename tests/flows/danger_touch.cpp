#include "danger_touch.hpp"

#include <algorithm>
#include <optional>
#include <string_view>

#include "records/works.hpp"

namespace holdpin {
namespace {

const char* any_of(Shop& shop, const std::vector<const char*>& list) {
    return list[shop.random.below(static_cast<std::uint32_t>(list.size()))];
}

std::string pin_asked(Shop& shop, const PinBody& body) {
    for (const Person& person : shop.site->content.site.people) {
        if (person.name == body.name && shop.random.below(16) != 0) return person.example_pin;
    }
    return "000000";
}

std::string code_of(Shop& shop, const std::string& plate) {
    const auto tag = tag_of(*shop.site->db, plate);
    const bool right = tag.ok() && tag.value() && shop.random.below(4) != 0;
    return right ? tag.value()->code : "AAAAAA";
}

std::string typed_for(Shop& shop, const Page& page, const Taste& taste) {
    if (const auto* pin = std::get_if<PinBody>(&page.body)) return pin_asked(shop, *pin);
    if (page.id == "badge") return any_of(shop, taste.badges);
    if (page.id.starts_with("lockout/device")) {
        return any_of(shop, {"L-1", "L-2", "L-3", "L-4", ""});
    }
    if (page.id.starts_with("tag-code/")) {
        return code_of(shop, page.id.substr(page.id.find('/') + 1));
    }
    if (page.id.starts_with("air/reading/")) {
        return any_of(shop, {"0", "3", "12", "34.9", "35", "36", "220", "-1"});
    }
    if (std::holds_alternative<NumberBody>(page.body)) {
        return any_of(shop, {"0", "3", "12", "240", "-1", "1290.5", ""});
    }
    return "Something typed";
}

// Ids of every kind of danger work, sent to whatever is open.
const char* out_of_order(Shop& shop) {
    static const std::vector<const char*> kIds{
        "main", "take", "done", "back", "clear", "off", "join", "test", "look", "moved", "next",
        "all-out", "lockout", "job:me", "job:arm", "reading:fine", "reading:damaged", "counted",
        "enter", "read", "head:others", "engine", "door:dock-door-1", "room:dock-hall", "print",
        "put-tag", "read-tag", "tag:none", "tag:there", "tag-off", "return", "repair", "recheck",
        "allow", "reply:rinse:me", "reply:rinse:nothing", "reply:soap:dry", "reply:soap:coupling",
        "reply:store:done", "reply:straps:firm", "reply:uncouple:quiet", "reply:floor:dry",
        "reply:pick:chosen:GOOD1", "reply:which-drain:chosen:ramp-grate", "again", "finding:1",
        "work:drain", "work:exchange", "report:SW-14", "report:BW-03", "what:gas", "who:none",
        "air-alarm", "no-start", "report", "dry:dock-hall", "tag-again", "fine", "x", ""};
    return any_of(shop, kIds);
}

using Targets = std::vector<PageTarget>;

Targets enabled_targets(const Page& page) {
    Targets targets;
    for (PageTarget& one : targets_of(page)) {
        if (one.enabled) targets.push_back(std::move(one));
    }
    return targets;
}

const PageTarget& any_target(Shop& shop, const Targets& targets) {
    return targets[shop.random.below(static_cast<std::uint32_t>(targets.size()))];
}

// What `wanted` stands for among these; null: it is not there.
const PageTarget* find_wanted(Shop& shop, const Targets& targets, std::string_view wanted) {
    const bool any = wanted.ends_with('*');
    if (any) wanted.remove_suffix(1);
    const bool begins = any || wanted.ends_with(':');
    std::vector<const PageTarget*> found;
    for (const PageTarget& one : targets) {
        if (begins ? one.id.starts_with(wanted) : one.id == wanted) found.push_back(&one);
    }
    if (found.empty()) return nullptr;
    return any ? found[shop.random.below(static_cast<std::uint32_t>(found.size()))] : found.front();
}

const PageTarget* wanted_target(Shop& shop, const Page& page, const Targets& targets,
                                const Taste& taste) {
    const auto want = std::find_if(taste.wants.begin(), taste.wants.end(), [&](const Want& one) {
        return page.id.find(one.page) != std::string::npos;
    });
    if (want == taste.wants.end() || shop.random.below(10) == 0) return nullptr;
    std::vector<const char*> there;
    for (const char* one : want->targets) {
        if (find_wanted(shop, targets, one) != nullptr) there.push_back(one);
    }
    return there.empty() ? nullptr : find_wanted(shop, targets, any_of(shop, there));
}

// A row that is not ticked yet, where the page waits for ticks.
const PageTarget* unticked(Shop& shop, const Page& page, const Targets& targets) {
    const auto* list = std::get_if<ListBody>(&page.body);
    if (list == nullptr || page.main.id.empty() || page.main.enabled) return nullptr;
    std::vector<const PageTarget*> open;
    for (const Row& row : list->rows) {
        const auto at = std::find_if(targets.begin(), targets.end(),
                                     [&](const PageTarget& one) { return one.id == row.id; });
        if (!row.chosen && at != targets.end()) open.push_back(&*at);
    }
    if (open.empty()) return nullptr;
    return open[shop.random.below(static_cast<std::uint32_t>(open.size()))];
}

// Forward rather than back.
const PageTarget& likely_target(Shop& shop, const Page& page, const Targets& targets,
                                const Taste& taste) {
    if (const PageTarget* wanted = wanted_target(shop, page, targets, taste)) return *wanted;
    if (const PageTarget* row = unticked(shop, page, targets)) return *row;
    const auto main = std::find_if(targets.begin(), targets.end(),
                                   [](const PageTarget& one) { return one.main; });
    if (main != targets.end() && shop.random.below(2) == 0) return *main;
    const PageTarget& one = any_target(shop, targets);
    const bool away = one.id == "back" || one.id == "help";
    return away && main != targets.end() && shop.random.below(4) != 0 ? *main : one;
}

}  // namespace

Touch next_touch(Shop& shop, const Taste& taste) {
    Touch touch;
    touch.page = shop.page();
    const Targets targets = enabled_targets(touch.page);
    if (targets.empty() || shop.random.below(taste.hostile) == 0) {
        touch.action.id = out_of_order(shop);
    } else {
        touch.action.id = likely_target(shop, touch.page, targets, taste).id;
    }
    touch.action.arg = typed_for(shop, touch.page, taste);
    touch.offered = std::any_of(targets.begin(), targets.end(), [&](const PageTarget& one) {
        return one.id == touch.action.id;
    });
    return touch;
}

}  // namespace holdpin
