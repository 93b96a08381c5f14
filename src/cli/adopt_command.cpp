#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/site_data.hpp"

namespace holdpin {

int run_adopt(const Common& common, const std::string& from,
              const std::vector<std::string>& renamed) {
    RealClock clock;
    SystemRandom random;
    const auto changes = adopt_dir(common.data, from, resolved(common.asked, common.data), clock,
                                   random, common.seal_copies, renamed);
    if (!changes) return complain(changes.error());
    for (const auto& item : changes.value()) say("changed: " + item);
    if (changes.value().empty()) say("Nothing changes.");
    return kExitFine;
}

}  // namespace holdpin
