#include <fmt/format.h>
#include <termios.h>
#include <unistd.h>

#include <cstdio>

#include "base/text.hpp"
#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/restore.hpp"

namespace holdpin {
namespace {

// What is typed at a terminal while this lives is not shown.
class Unseen {
  public:
    Unseen() : on_(::isatty(STDIN_FILENO) != 0 && ::tcgetattr(STDIN_FILENO, &before_) == 0) {
        termios unseen = before_;
        unseen.c_lflag &= ~static_cast<tcflag_t>(ECHO);
        if (on_) ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &unseen);
    }
    ~Unseen() {
        if (on_) ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &before_);
    }
    Unseen(const Unseen&) = delete;
    Unseen& operator=(const Unseen&) = delete;

  private:
    termios before_{};
    bool on_;
};

Result<std::string> ask_pin(const std::string& badge) {
    say("PIN of " + badge + ":");
    const Unseen unseen;
    std::string line;
    for (int c = std::getchar(); c != EOF && c != '\n'; c = std::getchar()) {
        line += static_cast<char>(c);
    }
    if (line.empty()) return Error{ErrorKind::refused, "no PIN was typed", badge, ""};
    return std::string(trimmed(line));
}

}  // namespace

int run_restore(const Common& common, const RestoreOptions& options) {
    RealClock clock;
    SystemRandom random;
    const auto done = restore_site({common.data, options.backup, common.seal_copies, options.older,
                                    options.badges, ask_pin},
                                   clock, random);
    if (!done) return complain(done.error());
    say(fmt::format("{} entries are restored from {}; the ledger goes on from there.",
                    done.value().entries, options.backup));
    if (done.value().older) {
        say(fmt::format("It is older than a seal that was known: up to entry {} is missing. Both "
                        "names are in the entry.", done.value().known));
    }
    if (!done.value().kept.empty()) {
        say("What stood there before is kept in " + done.value().kept);
    }
    return kExitFine;
}

}  // namespace holdpin
