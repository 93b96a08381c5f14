// Purging, and what is stored about one person: both need the content for their classes of records.
#include <fmt/format.h>

#include "base/new_dir.hpp"
#include "cli/about_writer.hpp"
#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/site_data.hpp"
#include "cli/two_signers.hpp"
#include "flows/about_words.hpp"

namespace holdpin {
namespace {

void tell(const PurgePlan& plan, bool done) {
    const char* verb = done ? "Purged" : "Would be purged";
    say(fmt::format("{} as of {}: {} entries down to their hash, {} texts, the names of {} people.",
                    verb, iso_date(plan.as_of), plan.bodies.count(), plan.text_count(),
                    plan.names.size()));
    for (const auto& [one, count] : plan.bodies.classes) {
        say(fmt::format("  {}: {} entries", one, count));
    }
    for (const auto& [one, hashes] : plan.texts) {
        say(fmt::format("  {}: {} texts", one, hashes.size()));
    }
    if (plan.held == 0) return;
    say(fmt::format("Under a legal hold and left alone: {} entries.", plan.held));
}

Result<Date> date_asked(const PurgeOptions& options, Date today) {
    if (options.as_of.empty()) return today;
    const Date as_of = TRY(parse_date(options.as_of));
    if (options.yes && today < as_of) {
        return Error{ErrorKind::invalid, "nothing is purged as of a day to come", options.as_of,
                     "leave --yes out to see what would be"};
    }
    return as_of;
}

Result<void> purge_site(OpenSite& site, const PurgeOptions& options) {
    if (!site.ledger_doubt.empty()) {
        return Error{ErrorKind::refused, "nothing is purged while the records are in doubt", "",
                     "run: holdpin ledger check"};
    }
    const Date today = site.zone.local(site.clock.now_ms()).date;
    const Date as_of = TRY(date_asked(options, today));
    const PurgePlan plan =
        TRY(plan_purge(*site.book, site.content.pack, site.zone, as_of));
    tell(plan, false);
    if (plan.empty()) return {};
    if (!options.yes) {
        say("Nothing was purged. Two people do it: --yes --by BADGE --by BADGE.");
        return {};
    }
    Fact signers;
    const AskPin ask = ask_pin;
    const CheckPin check = [&](const std::string& person,
                               const std::string& pin) -> Result<PinCheck> {
        const PinCheck found = TRY(site.pins->check(person, pin, site.clock.now_ms()));
        if (found.answer != PinAnswer::right) {
            TRY(site.book->enter(refused_fact(person, found)));
        }
        return found;
    };
    TRY(sign_by_two({*site.db, check, ask}, options.badges, "purge", signers));
    const Entry entry = TRY(purge(*site.book, plan, signers));
    tell(plan, true);
    say(fmt::format("Entry {} says so. It is sealed.", entry.n));
    say("Backups, and copies of an older version beside the data (holdpin.db.version-N), still "
        "hold what was purged: drop them where it has to be gone.");
    return {};
}

Result<void> write_about(OpenSite& site, const AboutOptions& options) {
    const auto person = TRY(person_with(*site.db, options.person));
    if (!person) {
        return Error{ErrorKind::absent, "this person is not enrolled", options.person, ""};
    }
    const Say words(site.content.pack, person->language);
    const AboutPerson about =
        TRY(about_person(*site.db, site.content, site.zone, *person, words));
    NewDir made = TRY(NewDir::beside(options.out));
    TRY(write_file(made.path() + "/about-me.txt", about.text));
    TRY(write_file(made.path() + "/about-me.json", about.json));
    TRY(write_file(made.path() + "/about-me.pdf", TRY(about_pdf(site, *person))));
    TRY(made.take_place());
    say(fmt::format("What is stored about {} is in {}.", options.person, options.out));
    return {};
}

int with_site(const Common& common, const std::function<Result<void>(OpenSite&)>& work) {
    RealClock clock;
    SystemRandom random;
    const auto site = open_site(common.data, resolved(common.asked, common.data), clock, random,
                                PinCost::interactive, common.seal_copies);
    if (!site) return complain(site.error());
    const auto done = work(*site.value());
    if (done) return kExitFine;
    complain(done.error());
    return done.error().kind == ErrorKind::invalid ? kExitWrongUse : kExitWanting;
}

}  // namespace

int run_ledger_purge(const Common& common, const PurgeOptions& options) {
    return with_site(common, [&](OpenSite& site) { return purge_site(site, options); });
}

int run_about_me(const Common& common, const AboutOptions& options) {
    return with_site(common, [&](OpenSite& site) { return write_about(site, options); });
}

}  // namespace holdpin
