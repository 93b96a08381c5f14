#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/restore.hpp"
#include "cli/two_signers.hpp"

namespace holdpin {

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
