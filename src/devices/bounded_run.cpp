#include "devices/bounded_run.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <optional>
#include <thread>

namespace holdpin {
namespace {

using Steady = std::chrono::steady_clock;

constexpr auto kPause = std::chrono::milliseconds(4);  // between two looks

// Spawn's two lists of wishes, freed when they were read.
class Wishes {
  public:
    Wishes() {
        posix_spawn_file_actions_init(&files);
        posix_spawnattr_init(&attributes);
    }
    ~Wishes() {
        posix_spawn_file_actions_destroy(&files);
        posix_spawnattr_destroy(&attributes);
    }
    Wishes(const Wishes&) = delete;
    Wishes& operator=(const Wishes&) = delete;

    posix_spawn_file_actions_t files{};
    posix_spawnattr_t attributes{};
};

// A group of its own, so that what it starts ends with it; no signal blocked, none ignored; no file
// of the kiosk open in it.
void set_wishes(Wishes& wishes, const std::string& output) {
    sigset_t all;
    sigset_t none;
    sigfillset(&all);
    sigemptyset(&none);
    posix_spawnattr_setsigdefault(&wishes.attributes, &all);
    posix_spawnattr_setsigmask(&wishes.attributes, &none);
    posix_spawnattr_setpgroup(&wishes.attributes, 0);
    posix_spawnattr_setflags(&wishes.attributes, POSIX_SPAWN_SETPGROUP | POSIX_SPAWN_SETSIGDEF |
                                                     POSIX_SPAWN_SETSIGMASK);
    const char* said = output.empty() ? "/dev/null" : output.c_str();
    constexpr mode_t kOwnerOnly = 0600;
    posix_spawn_file_actions_addopen(&wishes.files, 0, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&wishes.files, 1, said, O_WRONLY | O_CREAT | O_TRUNC,
                                     kOwnerOnly);
    posix_spawn_file_actions_addopen(&wishes.files, 2, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addclosefrom_np(&wishes.files, 3);
}

// Set from outside as soon as it is there: by then the program is hardly loaded, and each limit
// counts what it has used already.
void limit(pid_t child, const BoundedRun& run) {
    const auto set = [&](auto which, rlim_t most) {
        const rlimit both{most, most};
        prlimit(child, which, &both, nullptr);
    };
    constexpr std::int64_t kSecond = 1000;
    set(RLIMIT_AS, run.memory_bytes);
    set(RLIMIT_FSIZE, run.file_bytes);
    set(RLIMIT_CPU, static_cast<rlim_t>(run.time_ms / kSecond + 1));
    set(RLIMIT_CORE, 0);
}

// Its state when it has ended; absent where it had to be ended.
std::optional<int> wait_for(pid_t child, std::int64_t time_ms) {
    const auto end = Steady::now() + std::chrono::milliseconds(time_ms);
    int state = 0;
    for (;;) {
        const pid_t ended = waitpid(child, &state, WNOHANG);
        if (ended == child) return state;
        if ((ended < 0 && errno != EINTR) || Steady::now() >= end) break;
        std::this_thread::sleep_for(kPause);
    }
    kill(-child, SIGKILL);
    while (waitpid(child, &state, 0) < 0 && errno == EINTR) {
    }
    return std::nullopt;
}

Error failed(const BoundedRun& run, std::string what) {
    return {ErrorKind::failed, std::move(what), run.words.front(), ""};
}

Result<void> judged(const BoundedRun& run, const std::optional<int>& state) {
    if (!state) return failed(run, fmt::format("it took longer than {} ms", run.time_ms));
    if (WIFSIGNALED(*state)) {
        return failed(run, fmt::format("it was ended by signal {}", WTERMSIG(*state)));
    }
    const int code = WEXITSTATUS(*state);
    if (code == 0) return {};
    return failed(run, fmt::format("it ended with code {}", code));
}

}  // namespace

Result<void> run_bounded(const BoundedRun& run) {
    if (run.words.empty()) return Error{ErrorKind::invalid, "no program was named", "", ""};
    std::vector<std::string> words = run.words;
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    std::array<std::string, 2> settings{"PATH=/usr/local/bin:/usr/bin:/bin", "LANG=C.UTF-8"};
    std::array<char*, 3> environment{settings[0].data(), settings[1].data(), nullptr};
    Wishes wishes;
    set_wishes(wishes, run.output);
    pid_t child = 0;
    const int code = posix_spawnp(&child, arguments.front(), &wishes.files, &wishes.attributes,
                                  arguments.data(), environment.data());
    if (code != 0) {
        const auto kind = code == ENOENT ? ErrorKind::absent : ErrorKind::failed;
        return Error{kind, fmt::format("it cannot be started: {}", std::strerror(code)),
                     words.front(), "install it: tools/packages"};
    }
    limit(child, run);
    const auto state = wait_for(child, run.time_ms);
    kill(-child, SIGKILL);  // whatever it started and left behind
    return judged(run, state);
}

}  // namespace holdpin
