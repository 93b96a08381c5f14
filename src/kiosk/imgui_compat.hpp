// The differences between Dear ImGui 1.86 (Debian 12) and 1.90.1 (Debian 13), in one place. The kit
// uses ImGui for its fonts, its draw lists and its input, so the list is short. Nothing outside
// this file asks for a version of ImGui.
#pragma once

#include <cstdint>

#include <imgui.h>

namespace holdpin::imgui {

enum class Key { enter, backspace };

// Input given by a driver instead of a window. Each call is one event: draw a frame after it.
void pointer_to(float x, float y);
void pointer_down(bool down);
void key_down(Key key, bool down);

// Went down in this frame, or repeats; either Enter key counts as Enter.
bool key_pressed(Key key);

ImTextureID texture_id(std::uintptr_t id);

// Settings every context of the kiosk has: no files written, no cursor that blinks.
void set_up_context();

// A root window over the whole display, into which the kit draws. End with ImGui::End().
ImDrawList* begin_root(float width, float height);

// Changes whenever the picture does.
std::uint64_t picture_hash();

}  // namespace holdpin::imgui
