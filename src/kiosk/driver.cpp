#include "kiosk/driver.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "kiosk/audit.hpp"
#include "kiosk/imgui_compat.hpp"
#include "picture/png.hpp"

namespace holdpin {

namespace {

constexpr std::int64_t kFrameMs = 16;
constexpr int kMostFrames = 600;  // a picture that has not settled by then never will
constexpr int kMostPages = 60;

// Spaces of every width become plain ones.
std::string with_plain_spaces(std::string_view text) {
    std::string plain(text);
    for (const std::string_view space : {"\u00A0", "\u2009", "\u202F", "\n"}) {
        for (std::size_t at = plain.find(space); at != std::string::npos;
             at = plain.find(space, at)) {
            plain.replace(at, space.size(), " ");
        }
    }
    return plain;
}

bool is_shown(const Recorder& recorder, std::string_view text) {
    const std::string wanted = with_plain_spaces(text);
    return std::any_of(recorder.drawn.begin(), recorder.drawn.end(), [&](const Drawn& drawn) {
        return !drawn.visible.is_empty() && !drawn.target &&
               with_plain_spaces(drawn.text).find(wanted) != std::string::npos;
    });
}

std::string visible_texts(const Recorder& recorder) {
    std::string list;
    for (const Drawn& drawn : recorder.drawn) {
        if (!drawn.target && !drawn.visible.is_empty()) {
            list += (list.empty() ? "\"" : ", \"") + drawn.text + "\"";
        }
    }
    return list;
}

// A sliver at the edge of a list is no place for a finger.
bool is_in_sight(const Drawn& drawn) {
    return drawn.visible.h >= drawn.rect.h * 0.6F && drawn.visible.w > 0;
}

// Top of what a list shows first.
float first_in_sight(const Recorder& recorder) {
    const auto first = std::find_if(
        recorder.drawn.begin(), recorder.drawn.end(),
        [](const Drawn& drawn) { return drawn.scrolls && !drawn.visible.is_empty(); });
    return first == recorder.drawn.end() ? 0 : first->rect.y;
}

}  // namespace

Driver::Driver(Glass& glass, Stage& stage, HandClock& clock, SoundOut out)
    : glass_(glass), clock_(clock), show_(stage, clock, glass.fonts(), glass.textures()) {
    show_.sound_with(std::move(out));
    settle();
}

void Driver::frame() {
    glass_.begin();
    show_.frame(glass_.width(), glass_.height());
    glass_.end();
    clock_.pass(kFrameMs);
}

void Driver::settle() {
    int same = 0;
    std::uint64_t before = 0;
    for (int i = 0; i < kMostFrames && same < 2; ++i) {
        frame();
        const std::uint64_t now = glass_.picture_hash();
        same = now == before && !show_.wants_frame() ? same + 1 : 0;
        before = now;
    }
}

void Driver::wait(std::int64_t ms) {
    clock_.pass(ms);
    settle();
}

void Driver::ask_again() {
    show_.ask_again();
    settle();
}

// Two frames for each event: a queue of events may give out only one of them a frame.
void Driver::finger_to(Dot at) {
    imgui::pointer_to(at.x, at.y);
    frame();
    frame();
}

void Driver::finger_down() {
    imgui::pointer_down(true);
    frame();
    frame();
}

void Driver::finger_up() {
    imgui::pointer_down(false);
    frame();
    settle();
}

void Driver::tap_at(Dot at) {
    finger_to(at);
    finger_down();
    finger_up();
}

const Drawn* Driver::find(std::string_view name) const {
    const std::vector<Drawn>& all = recorder().drawn;
    for (const bool by_id : {true, false}) {
        for (const Drawn& drawn : all) {
            if (drawn.target && (by_id ? drawn.id : drawn.label) == name) {
                return &drawn;
            }
        }
    }
    return nullptr;
}

std::string Driver::visible_targets() const {
    std::string list;
    for (const Drawn& drawn : recorder().drawn) {
        if (drawn.target && !drawn.visible.is_empty()) {
            list += (list.empty() ? "\"" : ", \"") + drawn.label + "\" (" + drawn.id + ")";
        }
    }
    return list.empty() ? "nothing" : list;
}

Result<void> Driver::bring_into_sight(std::string_view name) {
    for (int i = 0; i < kMostPages; ++i) {
        const Drawn* wanted = find(name);
        if (wanted == nullptr) {
            break;
        }
        if (is_in_sight(*wanted)) {
            return {};
        }
        const Drawn* up = find("page-up");
        const Drawn* down = find("page-down");
        if (up == nullptr || down == nullptr) {
            break;
        }
        const bool above = wanted->rect.y < first_in_sight(recorder());
        const Drawn& page_button = above ? *up : *down;
        if (!page_button.enabled) {
            break;
        }
        tap_at(page_button.visible.middle());
    }
    return Error{ErrorKind::absent,
                 "there is no \"" + std::string(name) + "\" to touch on " + page().id +
                     "; visible: " + visible_targets(),
                 "", ""};
}

Result<void> Driver::tap(std::string_view name) {
    TRY(bring_into_sight(name));
    tap_at(find(name)->visible.middle());
    return {};
}

Result<void> Driver::type_letter(const std::string& letter) {
    const std::string key = "key:" + letter;
    for (const char* layer : {"", "key:capitals", "key:digits", "key:digits", "key:capitals"}) {
        if (*layer != '\0' && find(layer) != nullptr) {
            TRY(tap(layer));
        }
        if (find(key) != nullptr) {
            return tap(key);
        }
    }
    return Error{ErrorKind::absent,
                 "there is no key for \"" + letter + "\"; visible: " + visible_targets(), "", ""};
}

Result<void> Driver::type(std::string_view text) {
    for (const std::string& letter : letters_of(text)) {
        TRY(type_letter(letter));
    }
    return {};
}

void Driver::physical(std::string_view text, bool enter) {
    ImGui::GetIO().AddInputCharactersUTF8(std::string(text).c_str());
    frame();
    frame();
    if (enter) {
        imgui::key_down(imgui::Key::enter, true);
        frame();
        frame();
        imgui::key_down(imgui::Key::enter, false);
    }
    settle();
}

Result<void> Driver::expect(std::string_view text) {
    if (is_shown(recorder(), text)) {
        return {};
    }
    return Error{ErrorKind::absent,
                 "\"" + std::string(text) + "\" is not shown on " + page().id +
                     "; shown: " + visible_texts(recorder()),
                 "", ""};
}

Result<void> Driver::refuse(std::string_view text) {
    if (!is_shown(recorder(), text)) {
        return {};
    }
    return Error{ErrorKind::invalid,
                 "\"" + std::string(text) + "\" is shown on " + page().id + " and must not be",
                 "", ""};
}

Result<void> Driver::picture(const std::string& path) {
    return write_png(path, TRY(glass_.pixels()));
}

std::vector<std::string> Driver::audit() const {
    return holdpin::audit(recorder(), glass_.fonts().scale());
}

}  // namespace holdpin
