#include "script/shown.hpp"

#include <algorithm>
#include <array>

namespace holdpin {
namespace {

// Collects while walking over the kinds of bodies; empty texts are not shown.
struct Collector {
    std::vector<std::string> texts;
    std::vector<PageTarget> targets;

    void say(const std::string& text) {
        if (!text.empty()) texts.push_back(text);
    }
    void say(const std::vector<std::string>& all) {
        for (const auto& text : all) say(text);
    }
    void target(const Button& button, bool main = false) {
        if (button.id.empty()) return;
        say(button.label);
        say(button.second);
        targets.push_back({button.id, button.label, button.enabled, button.why_not, main});
    }
    void target(const Tile& tile) {
        say(tile.label);
        say(tile.second);
        targets.push_back({tile.id, tile.label, tile.enabled, tile.why_not, false});
    }
    void plate(const PlateView& plate) {
        say({plate.plate, plate.class_name, plate.hours});
        for (const LugView& lug : plate.lugs) say({lug.name, lug.word});
        say(plate.state);
        if (!plate.action.empty()) targets.push_back({plate.action, plate.plate, true, "", false});
    }
    void end_of(const char* way, const Dial& dial, const char* sign, bool enabled) {
        targets.push_back({way + dial.id, dial.label + sign, enabled, dial.why_not, false});
    }
    void picture(const PictureView& picture) {
        for (const PartMark& part : picture.parts) say(part.name);
        say(picture.caption);
    }
    void warnings(const std::vector<WarningView>& all) {
        for (const WarningView& warning : all) say({warning.word, warning.text});
    }

    void operator()(const FloorBody& body) {
        for (const PlateView& one : body.plates) plate(one);
        target(body.large);
    }
    void operator()(const HoldsBody& body) {
        plate(body.plate);
        say(body.heading);
        for (const HoldCard& hold : body.holds) say({hold.title, hold.reason, hold.lift});
        say(body.remark);
        target(body.jobs);
    }
    void operator()(const HandedBody& body) {
        plate(body.plate);
        say({body.heading, body.name});
        say(body.lines);
        say({body.entry, body.remark});
        target(body.jobs);
    }
    void operator()(const StepBody& body) {
        picture(body.picture);
        warnings(body.warnings);
        say({body.action, body.key_point_label, body.key_point, body.reason_label, body.reason,
             body.note, body.footing});
    }
    void operator()(const ChoiceBody& body) {
        picture(body.picture);
        warnings(body.warnings);
        say({body.question, body.look});
        for (const Tile& tile : body.tiles) target(tile);
        say({body.remark, body.footing});
        target(body.aside);
    }
    void operator()(const NumberBody& body) {
        picture(body.picture);
        say({body.question, body.look, body.unit, body.start, body.last, body.remark,
             body.footing});
        for (const std::string& mark : body.marks) {
            targets.push_back({"mark:" + mark, mark, true, "", false});
        }
    }
    void operator()(const PinBody& body) {
        say({body.heading, body.name, body.statement, body.remark});
    }
    void operator()(const TextBody& body) {
        say({body.heading, body.hint, body.start, body.remark});
    }
    void operator()(const ListBody& body) {
        say({body.heading, body.remark});
        for (const Row& row : body.rows) {
            say({row.label, row.second, row.word});
            if (!row.id.empty()) {
                targets.push_back({row.id, row.label, row.enabled, row.why_not, false});
            }
        }
    }
    void operator()(const GridBody& body) {
        say({body.heading, body.remark});
        for (const Tile& tile : body.tiles) target(tile);
    }
    void operator()(const SheetBody& body) {
        say({body.call, body.title, body.first});
        say(body.act);
        say(body.never_label);
        say(body.never);
        say({body.tell_label, body.tell});
    }
    void operator()(const MessageBody& body) {
        say(body.heading);
        say(body.lines);
    }
    void operator()(const ProgressBody& body) {
        say({body.heading, body.word});
        say(body.lines);
    }
    void operator()(const TagBody& body) {
        say({body.heading, body.plate, body.code_label, body.code, body.reason});
        say(body.lines);
        say({body.hint, body.remark});
        target(body.print);
    }
    void operator()(const PaperBody& body) { say(body.remark); }
    void operator()(const EstimateBody& body) {
        for (const Dial& dial : body.dials) {
            say({dial.label, dial.value});
            end_of("less:", dial, " \u2212", dial.less);
            targets.push_back({"value:" + dial.id, dial.label, true, "", false});
            end_of("more:", dial, " +", dial.more);
        }
        say(body.results);
        say({body.advice, body.caution, body.source});
    }
};

Collector collected(const Page& page) {
    Collector collector;
    collector.say({page.left, page.middle, page.right, page.example, page.countdown});
    std::visit(collector, page.body);
    collector.target(page.back);
    collector.target(page.help);
    collector.target(page.main, true);
    return collector;
}

}  // namespace

std::vector<std::string> texts_of(const Page& page) { return collected(page).texts; }
std::vector<PageTarget> targets_of(const Page& page) { return collected(page).targets; }

const PageTarget* find_target(const std::vector<PageTarget>& targets, const std::string& name) {
    for (const PageTarget& target : targets) {
        if (target.id == name) return &target;
    }
    const std::string label = plain_spaces(name);
    for (const PageTarget& target : targets) {
        if (plain_spaces(target.label) == label) return &target;
    }
    return nullptr;
}

std::string plain_spaces(std::string_view text) {
    constexpr std::array<std::string_view, 3> kSpaces{"\u00A0", "\u2009", "\u202F"};
    std::string plain(text);
    for (const auto space : kSpaces) {
        for (auto at = plain.find(space); at != plain.npos; at = plain.find(space, at)) {
            plain.replace(at, space.size(), " ");
        }
    }
    return plain;
}

bool is_shown(const std::vector<std::string>& texts, std::string_view wanted) {
    const std::string plain = plain_spaces(wanted);
    return std::any_of(texts.begin(), texts.end(), [&](const std::string& text) {
        return plain_spaces(text).find(plain) != std::string::npos;
    });
}

}  // namespace holdpin
