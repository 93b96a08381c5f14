#include "kiosk/imgui_compat.hpp"

#include <cstring>


namespace holdpin::imgui {

namespace {


#if IMGUI_VERSION_NUM >= 18700
ImGuiKey native(Key key) {
    return key == Key::enter ? ImGuiKey_Enter : ImGuiKey_Backspace;
}
bool keypad_enter_pressed() {
    return ImGui::IsKeyPressed(ImGuiKey_KeypadEnter, false);
}
bool went_down(Key key) {
    return ImGui::IsKeyPressed(native(key), key == Key::backspace);
}
#else
// Before 1.87 a driver writes the state itself, at indices it maps itself; the window's backend
// has filled the map in before.
int native(Key key) {
    const int name = key == Key::enter ? ImGuiKey_Enter : ImGuiKey_Backspace;
    int& index = ImGui::GetIO().KeyMap[name];
    if (index < 0) {
        index = name;
    }
    return index;
}
bool keypad_enter_pressed() {
    const int index = ImGui::GetIO().KeyMap[ImGuiKey_KeyPadEnter];
    return index >= 0 && ImGui::IsKeyPressed(index, false);
}
bool went_down(Key key) {
    return ImGui::IsKeyPressed(native(key), key == Key::backspace);
}
#endif

static_assert(IMGUI_VERSION_NUM >= 18600, "Dear ImGui 1.86 or later");

// FNV-1a over words: a picture is a few hundred kilobytes of vertices and is hashed every frame.
std::uint64_t mix(std::uint64_t hash, const void* bytes, std::size_t size) {
    const auto* from = static_cast<const char*>(bytes);
    std::uint64_t word = 0;
    for (std::size_t at = 0; at + sizeof word <= size; at += sizeof word) {
        std::memcpy(&word, from + at, sizeof word);
        hash = (hash ^ word) * 0x100000001B3ULL;
        hash ^= hash >> 29;
    }
    for (std::size_t at = size - size % sizeof word; at < size; ++at) {
        hash = (hash ^ static_cast<unsigned char>(from[at])) * 0x100000001B3ULL;
    }
    return hash;
}

}  // namespace

void pointer_to(float x, float y) {
#if IMGUI_VERSION_NUM >= 18700
    ImGui::GetIO().AddMousePosEvent(x, y);
#else
    ImGui::GetIO().MousePos = ImVec2(x, y);
#endif
}

void pointer_down(bool down) {
#if IMGUI_VERSION_NUM >= 18700
    ImGui::GetIO().AddMouseButtonEvent(0, down);
#else
    ImGui::GetIO().MouseDown[0] = down;
#endif
}

void key_down(Key key, bool down) {
#if IMGUI_VERSION_NUM >= 18700
    ImGui::GetIO().AddKeyEvent(native(key), down);
#else
    ImGui::GetIO().KeysDown[native(key)] = down;
#endif
}

bool key_pressed(Key key) {
    return went_down(key) || (key == Key::enter && keypad_enter_pressed());
}

ImTextureID texture_id(std::uintptr_t id) {
#if IMGUI_VERSION_NUM >= 19140
    return static_cast<ImTextureID>(id);
#else
    return reinterpret_cast<ImTextureID>(id);  // ImTextureID is a void pointer that is never read
#endif
}

void set_up_context() {
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.LogFilename = nullptr;
    io.ConfigInputTextCursorBlink = false;
    io.ConfigWindowsMoveFromTitleBarOnly = true;
    ImGuiStyle& style = ImGui::GetStyle();
    style.WindowPadding = ImVec2(0, 0);
    style.WindowBorderSize = 0;
    style.WindowRounding = 0;
}

ImDrawList* begin_root(float width, float height) {
    ImGui::SetNextWindowPos(ImVec2(0, 0));
    ImGui::SetNextWindowSize(ImVec2(width, height));
    ImGui::Begin("kiosk", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBackground |
                     ImGuiWindowFlags_NoNav | ImGuiWindowFlags_NoBringToFrontOnFocus);
    return ImGui::GetWindowDrawList();
}

std::uint64_t picture_hash() {
    std::uint64_t hash = 0xCBF29CE484222325ULL;
    const ImDrawData* data = ImGui::GetDrawData();
    if (data == nullptr) {
        return hash;
    }
    for (int i = 0; i < data->CmdListsCount; ++i) {
        const ImDrawList* list = data->CmdLists[i];
        hash = mix(hash, list->VtxBuffer.Data,
                   static_cast<std::size_t>(list->VtxBuffer.Size) * sizeof(ImDrawVert));
        for (const ImDrawCmd& command : list->CmdBuffer) {
            const ImTextureID texture = command.GetTexID();
            hash = mix(hash, &texture, sizeof texture);
            hash = mix(hash, &command.ClipRect, sizeof command.ClipRect);
        }
    }
    return hash;
}

}  // namespace holdpin::imgui
