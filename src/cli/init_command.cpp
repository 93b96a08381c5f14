#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/site_data.hpp"

namespace holdpin {

int run_init(const Common& common, const std::string& site) {
    RealClock clock;
    SystemRandom random;
    const auto made = init_site(common.data, site, resolved(common.asked), clock, random,
                                PinCost::interactive);
    if (!made) return complain(made.error());
    const InitReport& report = made.value();
    say(fmt::format("The site {} is set up in {}: {} people, {} machines, {} entries.",
                    report.name, common.data, report.people, report.machines, report.entries));
    if (report.example) {
        say("It is example data. Its badges and PINs are listed in the README.md beside its "
            "site.toml.");
    } else {
        say(fmt::format("First PIN of {}, badge {}: {}", report.first_name, report.first_badge,
                        report.first_pin));
        say("It is shown this once and opens the desk once; the kiosk then gives a new one. "
            "Hand it over in person.");
    }
    return kExitFine;
}

}  // namespace holdpin
