// From the start of the process to the first frame on the display: the kiosk on the example site,
// against an empty window. Both are this program, so both load the same libraries:
//   empty  GLFW, a full-screen window, OpenGL 3, Dear ImGui with its built-in font and both of its
//          backends, one frame without content. No typefaces, no content, no database.
//   kiosk  what `holdpin kiosk` does: content read and checked, the ledger opened, the typefaces
//          laid out, the window opened, and the floor drawn up to the swap of its first frame.
// Files are in the cache of the system; the first turn, which puts them there, does not count.
#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdint>
#include <cstring>

#include "bench.hpp"
#include "support/temp_dir.hpp"
#include "flows/app.hpp"
#include "kiosk/illustrations.hpp"
#include "kiosk/show.hpp"
#include "kiosk/window.hpp"

extern char** environ;

namespace holdpin::bench {
namespace {

// When each part was done, on the clock that all processes share.
struct Marks {
    std::int64_t site_ns = 0;
    std::int64_t window_ns = 0;
    std::int64_t shown_ns = 0;
};

std::int64_t now_ns() { return std::chrono::steady_clock::now().time_since_epoch().count(); }

int hand_over(const Marks& marks) {
    return ::write(STDOUT_FILENO, &marks, sizeof marks) == sizeof marks ? 0 : 1;
}

int show_empty() {
    if (glfwInit() == GLFW_FALSE) return 1;
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 0);
    GLFWmonitor* monitor = glfwGetPrimaryMonitor();
    const GLFWvidmode* mode = glfwGetVideoMode(monitor);
    GLFWwindow* window = glfwCreateWindow(mode->width, mode->height, "empty", monitor, nullptr);
    if (window == nullptr) return 1;
    glfwMakeContextCurrent(window);
    glfwSwapInterval(1);
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    ImGui_ImplGlfw_InitForOpenGL(window, true);
    ImGui_ImplOpenGL3_Init("#version 130");
    Marks marks;
    marks.window_ns = now_ns();
    glfwWaitEventsTimeout(1.0 / 60);
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplGlfw_NewFrame();
    ImGui::NewFrame();
    ImGui::Render();
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    glfwSwapBuffers(window);
    marks.shown_ns = now_ns();
    return hand_over(marks);
}

int show_kiosk(const std::string& data) {
    RealClock clock;
    SystemRandom random;
    const ContentDirs dirs = resolved({}, data);
    WindowOptions options;
    options.full_screen = true;
    options.show_pointer = false;
    options.paint = illustration_paint(dirs.assets + "/illustrations");
    const auto site = need(open_site(data, dirs, clock, random, PinCost::interactive));
    App app(site->world());
    Marks marks;
    marks.site_ns = now_ns();
    const auto glass = need(WindowGlass::open(options));
    marks.window_ns = now_ns();
    Show show(app, clock, glass->fonts(), glass->textures());
    glass->wait_events(1.0 / 60);
    glass->begin();
    show.frame(glass->width(), glass->height());
    glass->end();
    marks.shown_ns = now_ns();
    return hand_over(marks);
}

// Milliseconds after the start of the process.
struct Timed {
    double site = 0;
    double window = 0;
    double shown = 0;
};

Timed run_as(std::vector<std::string> words) {
    std::array<int, 2> pipe{};
    if (::pipe(pipe.data()) != 0) std::exit(1);
    std::string program = "/proc/self/exe";
    std::vector<char*> arguments{program.data()};
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, pipe[1], STDOUT_FILENO);
    pid_t child = 0;
    const std::int64_t start = now_ns();
    const int failed = ::posix_spawn(&child, program.c_str(), &actions, nullptr, arguments.data(),
                                     environ);
    posix_spawn_file_actions_destroy(&actions);
    ::close(pipe[1]);
    Marks marks;
    const bool told = failed == 0 && ::read(pipe[0], &marks, sizeof marks) == sizeof marks;
    ::close(pipe[0]);
    if (failed == 0) ::waitpid(child, nullptr, 0);
    if (!told) {
        fmt::print(stderr, "the bench cannot run: no frame was shown; is there a display?\n");
        std::exit(1);
    }
    const auto ms = [start](std::int64_t ns) { return static_cast<double>(ns - start) / 1e6; };
    return {ms(marks.site_ns), ms(marks.window_ns), ms(marks.shown_ns)};
}

void compare() {
    constexpr int kTurns = 9;
    const TempDir temp;
    const std::string data = temp / "data";
    RealClock clock;
    SystemRandom random;
    make_example_site(data, clock, random);
    std::vector<double> site;
    std::vector<double> window;
    std::vector<double> frame;
    const std::vector<double> middle = medians(kTurns, {
        [&] { return run_as({"empty"}).shown; },
        [&] {
            const Timed timed = run_as({"kiosk", data});
            site.push_back(timed.site);
            window.push_back(timed.window - timed.site);
            frame.push_back(timed.shown - timed.window);
            return timed.shown;
        },
    });
    fmt::print("start: process start to the first frame, median of {}, taking turns\n", kTurns);
    fmt::print("  empty window            {:8.1f} ms\n", middle[0]);
    fmt::print("  kiosk, example site     {:8.1f} ms\n", middle[1]);
    fmt::print("    content and records   {:8.1f} ms\n", median(site));
    fmt::print("    typefaces and window  {:8.1f} ms\n", median(window));
    fmt::print("    the floor             {:8.1f} ms\n", median(frame));
    fmt::print("  ratio {:.2f}\n", middle[1] / middle[0]);
}

}  // namespace
}  // namespace holdpin::bench

int main(int count, char** words) {
    using namespace holdpin::bench;
    if (count == 2 && std::strcmp(words[1], "empty") == 0) return show_empty();
    if (count == 3 && std::strcmp(words[1], "kiosk") == 0) return show_kiosk(words[2]);
    compare();
    return 0;
}
