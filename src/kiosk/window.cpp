#include "kiosk/window.hpp"

#include <algorithm>
#include <cstdio>
#include <cstring>
#include <utility>

#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>

#include "kiosk/gl_textures.hpp"
#include "kiosk/imgui_compat.hpp"
#include "kiosk/show.hpp"

namespace holdpin {

namespace {

Error glfw_error(const std::string& what) {
    const char* reason = nullptr;
    glfwGetError(&reason);
    return Error{ErrorKind::failed,
                 reason == nullptr ? what : what + ": " + reason, "",
                 "an X display with OpenGL 3.0 is needed"};
}

void hint_window(const WindowOptions& options) {
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 0);
    glfwWindowHint(GLFW_VISIBLE, options.hidden ? GLFW_FALSE : GLFW_TRUE);
    glfwWindowHint(GLFW_AUTO_ICONIFY, GLFW_FALSE);
}

}  // namespace

WindowGlass::WindowGlass(const WindowOptions& options) : options_(options) {}

Result<std::unique_ptr<WindowGlass>> WindowGlass::open(const WindowOptions& options) {
    std::unique_ptr<WindowGlass> glass(new WindowGlass(options));
    TRY(glass->open_window());
    TRY(glass->start_drawing());
    return glass;
}

Result<void> WindowGlass::open_window() {
#if GLFW_VERSION_MAJOR > 3 || GLFW_VERSION_MINOR >= 4
    glfwInitHint(GLFW_PLATFORM, GLFW_PLATFORM_X11);  // touch reaches GLFW only through X11
#endif
    if (glfwInit() == GLFW_FALSE) {
        return glfw_error("the display cannot be opened");
    }
    hint_window(options_);
    GLFWmonitor* monitor = options_.full_screen ? glfwGetPrimaryMonitor() : nullptr;
    if (monitor != nullptr) {
        const GLFWvidmode* mode = glfwGetVideoMode(monitor);
        options_.width = mode->width;
        options_.height = mode->height;
    }
    window_ = glfwCreateWindow(options_.width, options_.height, options_.title.c_str(), monitor,
                               nullptr);
    if (window_ == nullptr) {
        return glfw_error("the window cannot be opened");
    }
    if (!options_.show_pointer) {
        glfwSetInputMode(window_, GLFW_CURSOR, GLFW_CURSOR_HIDDEN);
    }
    if (!options_.hidden) {
        glfwFocusWindow(window_);  // where no window manager does
    }
    glfwMakeContextCurrent(window_);
    glfwSwapInterval(options_.hidden ? 0 : 1);
    return {};
}

// Before the backend of ImGui installs its own callbacks: it goes on calling these.
void WindowGlass::watch_input() {
    static constexpr auto kSeen = [](GLFWwindow* window) {
        static_cast<WindowGlass*>(glfwGetWindowUserPointer(window))->input_seen_ = true;
    };
    glfwSetWindowUserPointer(window_, this);
    glfwSetMouseButtonCallback(window_, [](GLFWwindow* w, int, int, int) { kSeen(w); });
    glfwSetCursorPosCallback(window_, [](GLFWwindow* w, double, double) { kSeen(w); });
    glfwSetKeyCallback(window_, [](GLFWwindow* w, int, int, int, int) { kSeen(w); });
    glfwSetCharCallback(window_, [](GLFWwindow* w, unsigned) { kSeen(w); });
    glfwSetWindowRefreshCallback(window_, [](GLFWwindow* window) {
        auto* glass = static_cast<WindowGlass*>(glfwGetWindowUserPointer(window));
        glass->input_seen_ = true;
        glass->must_show_ = true;
    });
}

Result<void> WindowGlass::start_drawing() {
    Scale scale = usual_scale(options_.width, options_.height);
    if (options_.px_per_mm > 0) {
        scale.px_per_mm = options_.px_per_mm;
    }
    fonts_ = TRY(Fonts::load(scale));
    context_ = ImGui::CreateContext(fonts_->atlas());
    ImGui::SetCurrentContext(context_);
    imgui::set_up_context();
    ImGui::GetIO().ConfigFlags |= ImGuiConfigFlags_NoMouseCursorChange;
    textures_ = std::make_unique<GlTextures>(options_.paint);
    if (!options_.hidden) {
        watch_input();
        if (!ImGui_ImplGlfw_InitForOpenGL(window_, true)) {
            return Error{ErrorKind::failed, "input of the window cannot be read", "", ""};
        }
    }
    if (!ImGui_ImplOpenGL3_Init("#version 130")) {
        return Error{ErrorKind::failed, "OpenGL cannot be started", "", ""};
    }
    glfwGetFramebufferSize(window_, &width_, &height_);
    return {};
}

WindowGlass::~WindowGlass() {
    textures_.reset();
    if (context_ != nullptr) {
        ImGui::SetCurrentContext(context_);
        if (ImGui::GetIO().BackendRendererUserData != nullptr) {
            ImGui_ImplOpenGL3_Shutdown();
        }
        if (ImGui::GetIO().BackendPlatformUserData != nullptr) {
            ImGui_ImplGlfw_Shutdown();
        }
        ImGui::DestroyContext(context_);
    }
    if (window_ != nullptr) {
        glfwDestroyWindow(window_);
    }
    glfwTerminate();
}

TextureSource& WindowGlass::textures() {
    return *textures_;
}

bool WindowGlass::should_close() const {
    return glfwWindowShouldClose(window_) != 0;
}

bool WindowGlass::wait_events(double seconds) {
    input_seen_ = false;
    glfwWaitEventsTimeout(std::max(0.001, seconds));
    return input_seen_;
}

void WindowGlass::begin() {
    ImGui::SetCurrentContext(context_);
    int width = 0;
    int height = 0;
    glfwGetFramebufferSize(window_, &width, &height);
    must_show_ = must_show_ || width != width_ || height != height_;
    width_ = width;
    height_ = height;
    textures_->tidy();
    ImGui_ImplOpenGL3_NewFrame();
    if (options_.hidden) {
        ImGui::GetIO().DisplaySize = ImVec2(this->width(), this->height());
        ImGui::GetIO().DeltaTime = 1.0F / 60;
    } else {
        ImGui_ImplGlfw_NewFrame();
    }
    ImGui::NewFrame();
}

void WindowGlass::end() {
    ImGui::Render();
    ++frames_drawn_;
    const std::uint64_t hash = imgui::picture_hash();
    if (hash == hash_ && !must_show_) {
        return;
    }
    hash_ = hash;
    must_show_ = false;
    glViewport(0, 0, width_, height_);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    ++frames_shown_;
    if (!options_.hidden) {
        glfwSwapBuffers(window_);
    }
}

// A hidden window is never swapped: what was drawn last is still in the back buffer.
Result<Raster> WindowGlass::pixels() {
    Raster raster;
    raster.width = width_;
    raster.height = height_;
    const std::size_t row = static_cast<std::size_t>(width_) * 4;
    raster.rgba.resize(row * static_cast<std::size_t>(height_));
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadBuffer(options_.hidden ? GL_BACK : GL_FRONT);
    glReadPixels(0, 0, width_, height_, GL_RGBA, GL_UNSIGNED_BYTE, raster.rgba.data());
    if (glGetError() != GL_NO_ERROR) {
        return Error{ErrorKind::failed, "the picture cannot be read back", "", ""};
    }
    for (std::size_t top = 0, bottom = static_cast<std::size_t>(height_); top + 1 < bottom;) {
        --bottom;
        std::swap_ranges(raster.rgba.begin() + static_cast<std::ptrdiff_t>(top * row),
                         raster.rgba.begin() + static_cast<std::ptrdiff_t>((top + 1) * row),
                         raster.rgba.begin() + static_cast<std::ptrdiff_t>(bottom * row));
        ++top;
    }
    for (std::size_t at = 3; at < raster.rgba.size(); at += 4) {
        raster.rgba[at] = 255;  // the window itself is not transparent
    }
    return raster;
}

void show_in(WindowGlass& glass, Stage& stage, const Clock& clock,
             const std::function<Beat()>& beat, const SoundOut& sound) {
    constexpr int kQuietFrames = 3;
    constexpr double kFrame = 1.0 / 60;
    constexpr std::int64_t kHeartbeatMs = 1000;
    Show show(stage, clock, glass.fonts(), glass.textures());
    show.sound_with(sound);
    int quiet = 0;
    Beat last = Beat::nothing;
    while (!glass.should_close()) {
        const bool settled = quiet >= kQuietFrames && !show.wants_frame();
        const double rest = static_cast<double>(show.wait_ms(kHeartbeatMs)) / 1000;
        const bool input = glass.wait_events(settled && last != Beat::soon ? rest : kFrame);
        const Beat now = beat ? beat() : Beat::nothing;
        last = now;
        if (now == Beat::stop) {
            return;
        }
        if (now == Beat::ask_again) {
            show.ask_again();
        }
        const bool due = show.wait_ms(kHeartbeatMs) == 0;
        if (settled && !input && !due && now != Beat::ask_again) {
            continue;
        }
        const std::uint64_t before = glass.picture_hash();
        glass.begin();
        show.frame(glass.width(), glass.height());
        glass.end();
        quiet = input || due || glass.picture_hash() != before ? 0 : quiet + 1;
    }
}

int run_window(Stage& stage, const Clock& clock, const WindowOptions& options,
               std::unique_ptr<WindowGlass> glass) {
    if (!glass) {
        auto opened = WindowGlass::open(options);
        if (!opened) {
            std::fprintf(stderr, "%s\n", opened.error().sentence().c_str());
            return 1;
        }
        glass = std::move(opened).value();
    }
    show_in(*glass, stage, clock, options.beat, options.sound);
    return 0;
}

}  // namespace holdpin
