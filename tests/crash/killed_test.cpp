// The real program, killed at random moments of a driven shift: what it had said is stored, and the
// ledger holds. 10 times in the ordinary run; 200 where HOLDPIN_LONG is set in the environment.
#include <doctest/doctest.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>

#include "cli/example_site.hpp"
#include "crash/faulty_shift.hpp"
#include "cli/run_program.hpp"
#include "cli/stored_records.hpp"
#include "support/extent.hpp"

extern char** environ;

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

constexpr int kOrdinaryKills = 10;
constexpr int kLongKills = 200;
constexpr std::uint32_t kActs = 56;         // of the script
constexpr std::uint32_t kLongestUs = 60'000;  // after the line that is waited for

// The program, driving the shift on a data folder; its lines come through a pipe.
class DrivenShift {
  public:
    DrivenShift(const std::string& data, const std::string& copies) {
        std::array<int, 2> pipe{};
        REQUIRE(::pipe2(pipe.data(), O_CLOEXEC) == 0);
        posix_spawn_file_actions_t actions;
        posix_spawn_file_actions_init(&actions);
        posix_spawn_file_actions_adddup2(&actions, pipe[1], STDOUT_FILENO);
        std::vector<std::string> words{HOLDPIN_PROGRAM, "drive",
                                       std::string(HOLDPIN_TEST_SOURCE_DIR) +
                                           "/tests/crash/shift.toml",
                                       "--without-display", "--tell", "--data", data,
                                       "--seal-copy", copies};
        std::vector<char*> arguments;
        for (std::string& word : words) arguments.push_back(word.data());
        arguments.push_back(nullptr);
        REQUIRE(::posix_spawn(&child_, words[0].c_str(), &actions, nullptr, arguments.data(),
                              environ) == 0);
        posix_spawn_file_actions_destroy(&actions);
        ::close(pipe[1]);
        lines_ = ::fdopen(pipe[0], "r");
    }
    ~DrivenShift() { std::fclose(lines_); }
    DrivenShift(const DrivenShift&) = delete;
    DrivenShift& operator=(const DrivenShift&) = delete;

    // The next line that it says; empty at its end.
    std::string line() {
        std::array<char, 4096> part{};
        if (std::fgets(part.data(), static_cast<int>(part.size()), lines_) == nullptr) return {};
        return std::string(trimmed(part.data()));
    }
    void kill() {
        ::kill(child_, SIGKILL);
        int status = 0;
        ::waitpid(child_, &status, 0);
    }

  private:
    pid_t child_ = 0;
    std::FILE* lines_ = nullptr;
};

struct Acknowledged {
    std::uint64_t size = 0;
    std::string root;
};

// "act 7: 125 entries 9f…".
void note(const std::string& line, Acknowledged& last) {
    const auto words = split(line, ' ');
    if (words.size() != 5 || words[0] != "act") return;
    last.size = std::stoull(words[2]);
    last.root = words[4];
}

Acknowledged drive_and_kill(const std::string& data, const std::string& copies, Random& random) {
    DrivenShift shift(data, copies);
    Acknowledged last;
    const std::uint32_t acts = random.below(kActs);
    for (std::uint32_t act = 0; act < acts; ++act) note(shift.line(), last);
    ::usleep(random.below(kLongestUs));
    shift.kill();
    // What it had said before it was killed may still be in the pipe.
    for (std::string line = shift.line(); !line.empty(); line = shift.line()) note(line, last);
    return last;
}

}  // namespace

TEST_CASE("the program killed at any moment of a shift has stored what it said") {
    ExampleSite example;
    example.clock.set_wall(kExampleStart - 86'400'000);
    REQUIRE(example.init().ok());
    SeededRandom random(20);
    const int kills = goes_all_the_way() ? kLongKills : kOrdinaryKills;
    int unclean = 0;
    int beyond = 0;
    int released = 0;
    for (int i = 0; i < kills; ++i) {
        CAPTURE(i);
        const std::string data = example.temp / "killed";
        const std::string copies = example.temp / "copies";
        fs::copy(example.data, data, fs::copy_options::recursive);
        const Acknowledged last = drive_and_kill(data, copies, random);
        unclean += fs::exists(data + "/holdpin.db-wal") ? 1 : 0;
        const Ran checked = run("ledger check --data " + data + " --seal-copy " + copies, true);
        CHECK_MESSAGE(checked.code == 0, checked.said);
        {
            const auto records = open_records(data);
            REQUIRE(records.ok());
            Ledger& ledger = *records.value()->ledger;
            CHECK(ledger.size() >= last.size);
            if (last.size > 0) CHECK(hex(ledger.root_at(last.size).value()) == last.root);
            released += check_releases(entries_of(ledger));
            beyond += ledger.size() > last.size ? 1 : 0;
        }
        const Ran rebuilt = run("ledger rebuild --data " + data);
        CHECK(rebuilt.said.find("it is as it was before") != std::string::npos);
        fs::remove_all(data);
        fs::remove_all(copies);
    }
    MESSAGE(kills << " kills: " << unclean << " left an open log, after " << beyond
                  << " more was stored than had been said; " << released << " releases");
    CHECK(unclean > 0);
    CHECK(released > 0);
}
