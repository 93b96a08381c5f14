#include "flows/say.hpp"

#include <algorithm>

namespace holdpin {

std::string fill(std::string_view pattern, const Args& args) {
    std::string out;
    while (!pattern.empty()) {
        const auto open = pattern.find('{');
        out += pattern.substr(0, open);
        if (open == std::string_view::npos) break;
        const auto close = pattern.find('}', open);
        if (close == std::string_view::npos) {
            out += pattern.substr(open);
            break;
        }
        const auto name = pattern.substr(open + 1, close - open - 1);
        const auto at = std::find_if(args.begin(), args.end(),
                                     [&](const auto& arg) { return arg.first == name; });
        out += at == args.end() ? std::string(pattern.substr(open, close - open + 1)) : at->second;
        pattern.remove_prefix(close + 1);
    }
    return out;
}

std::string Say::operator()(std::string_view key, const Args& args) const {
    const auto at = pack_.strings.find(std::string(key));
    return at == pack_.strings.end() ? std::string(key) : fill(at->second.in(language_), args);
}

std::string Say::duty(Duty duty) const {
    for (const DutyRule& rule : pack_.duties) {
        if (rule.duty == duty) return rule.name.in(language_);
    }
    return std::string(name_of(duty));
}

std::string Say::hazard(Hazard hazard) const {
    return (*this)("hazard." + std::string(name_of(hazard)));
}

std::string Say::footing(std::string_view id, bool is_truck) const {
    const Footing* footing = pack_.footing(id);
    if (footing == nullptr) return "";
    const std::string kind = "footing." + std::string(name_of(footing->kind_for(is_truck)));
    return (*this)(kind) + " · " + footing->citation.in(language_);
}

WarningView Say::warning(const Warning& warning) const {
    WarningView view;
    const SignalWord word = signal_word(warning.severity, warning.probability);
    view.signal = static_cast<Signal>(word);
    view.word = (*this)("signal." + std::string(name_of(word)));
    view.text = warning.hazard.in(language_) + " " + warning.consequence.in(language_) + " " +
                warning.avoid.in(language_);
    return view;
}

std::vector<WarningView> Say::warnings(const std::vector<Warning>& all) const {
    std::vector<WarningView> views;
    for (const Warning& one : all) views.push_back(warning(one));
    return views;
}

PictureView Say::picture(const Picture& picture) const {
    PictureView view;
    view.file = picture.file;
    for (const std::string& id : picture.parts) {
        for (const MachineClass& machine_class : pack_.classes) {
            const auto at = std::find_if(machine_class.parts.begin(), machine_class.parts.end(),
                                         [&](const Part& part) { return part.id == id; });
            if (at == machine_class.parts.end()) continue;
            view.parts.push_back({id, at->name.in(language_)});
            break;
        }
    }
    return view;
}

static_assert(static_cast<int>(Signal::danger) == static_cast<int>(SignalWord::danger));
static_assert(static_cast<int>(Signal::notice) == static_cast<int>(SignalWord::notice));

}  // namespace holdpin
