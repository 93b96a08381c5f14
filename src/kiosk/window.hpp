// The window: GLFW on X11 and OpenGL 3. Draws until the picture stops changing, then sleeps until
// somebody touches something or the page's own time comes; an unused kiosk draws nothing.
// Also a hidden window that takes no input of its own, for driven pictures. One at a time: closing
// it ends GLFW.
#pragma once

#include <functional>
#include <memory>
#include <string>

#include "base/clock.hpp"
#include "base/result.hpp"
#include "flows/page.hpp"
#include "kiosk/glass.hpp"
#include "kiosk/show.hpp"

struct GLFWwindow;

namespace holdpin {

// soon: there is work to go on with after the next frame, and nothing new to show.
enum class Beat { nothing, soon, ask_again, stop };

struct WindowOptions {
    int width = 1280;
    int height = 800;
    bool full_screen = false;  // the primary display in its present size; width and height unused
    bool hidden = false;       // for pictures: not shown, and input comes from a driver
    float px_per_mm = 0;       // 0: the usual one of the size
    bool show_pointer = true;  // a mouse pointer; touch screens want none
    std::string title = "Holdpin";
    Paint paint;               // empty: no pictures
    // Called about once a second and after every wake-up: watchdog, results of workers, signals.
    std::function<Beat()> beat;
    SoundOut sound;  // empty: nothing sounds, and the glass says so
};

class GlTextures;

class WindowGlass final : public Glass {
  public:
    static Result<std::unique_ptr<WindowGlass>> open(const WindowOptions& options);
    ~WindowGlass() override;

    void begin() override;
    void end() override;
    Result<Raster> pixels() override;
    float width() const override { return static_cast<float>(width_); }
    float height() const override { return static_cast<float>(height_); }
    const Fonts& fonts() const override { return *fonts_; }
    TextureSource& textures() override;
    std::uint64_t picture_hash() const override { return hash_; }

    bool should_close() const;
    // Waits until something happens, at most so long. True when somebody did something.
    bool wait_events(double seconds);
    // Frames laid out, and those of them that were new and put on the display.
    std::uint64_t frames_drawn() const { return frames_drawn_; }
    std::uint64_t frames_shown() const { return frames_shown_; }

  private:
    explicit WindowGlass(const WindowOptions& options);
    Result<void> open_window();
    Result<void> start_drawing();
    void watch_input();

    WindowOptions options_;
    GLFWwindow* window_ = nullptr;
    ImGuiContext* context_ = nullptr;
    std::unique_ptr<Fonts> fonts_;
    std::unique_ptr<GlTextures> textures_;
    int width_ = 0;
    int height_ = 0;
    std::uint64_t hash_ = 0;
    std::uint64_t frames_drawn_ = 0;
    std::uint64_t frames_shown_ = 0;
    bool input_seen_ = false;
    bool must_show_ = true;  // exposed or resized: show the frame though it is the same
};

// Shows a stage on an open window until it is closed or a beat says stop.
void show_in(WindowGlass& glass, Stage& stage, const Clock& clock,
             const std::function<Beat()>& beat, const SoundOut& sound = nullptr);

// Shows a stage on a window that stands already, or opens one. 0, or 1 when it could not be opened:
// the reason is written to standard error.
int run_window(Stage& stage, const Clock& clock, const WindowOptions& options,
               std::unique_ptr<WindowGlass> glass = nullptr);

}  // namespace holdpin
