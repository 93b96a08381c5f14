#include <fmt/format.h>

#include "base/text.hpp"
#include "cli/commands.hpp"
#include "cli/new_site.hpp"
#include "cli/output.hpp"
#include "cli/people_csv.hpp"
#include "cli/site_facts.hpp"
#include "records/records.hpp"

namespace holdpin {
namespace {

// A badge opens one person's work: nobody gets one that another has.
Result<void> refuse_taken_badges(OpenSite& site, const std::vector<Person>& people) {
    for (const Person& person : people) {
        const auto owner = TRY(person_with_badge(*site.db, person.badge));
        if (owner && owner->id != person.id) {
            return Error{ErrorKind::refused,
                         "the badge " + person.badge + " of " + person.id + " belongs to " +
                             owner->id,
                         "", "nobody was enrolled; give another badge"};
        }
    }
    return {};
}

Result<std::size_t> enrol(OpenSite& site, const std::vector<Person>& people,
                          const std::vector<std::string>& renamed) {
    TRY(refuse_taken_ids(*site.db, people, renamed));
    TRY(refuse_taken_badges(site, people));
    TRY(site.db->transaction([&]() -> Result<void> {
        std::vector<Fact> facts;
        for (const Person& person : people) {
            facts.push_back(TRY(person_fact(*site.db, site.random, person)));
        }
        TRY(site.book->enter(std::move(facts)));
        return {};
    }));
    return people.size();
}

}  // namespace

int run_people_import(const Common& common, const std::string& csv,
                      const std::vector<std::string>& renamed) {
    const auto text = read_file(csv);
    if (!text) {
        complain(text.error());
        return kExitWrongUse;
    }
    Faults faults;
    const auto people = people_of_csv(csv, text.value(), faults);
    for (const Fault& fault : faults) complain({ErrorKind::invalid, fault.sentence(), "", ""});
    if (!faults.empty()) return kExitWanting;

    RealClock clock;
    SystemRandom random;
    const auto site = open_site(common.data, resolved(common.asked, common.data), clock, random,
                                PinCost::interactive, common.seal_copies);
    if (!site) return complain(site.error());
    const auto done = enrol(*site.value(), people, renamed);
    if (!done) return complain(done.error());
    say(fmt::format("{} people are enrolled. A supervisor issues their PINs at the kiosk.",
                    done.value()));
    return kExitFine;
}

}  // namespace holdpin
