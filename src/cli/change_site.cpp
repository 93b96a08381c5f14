// Taking over a changed pack or a changed site, on purpose.
#include <filesystem>

#include "base/new_dir.hpp"
#include "cli/new_site.hpp"
#include "cli/site_facts.hpp"
#include "records/privacy.hpp"
#include "records/records.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

bool is_pack(const std::string& dir) {
    std::error_code ignored;
    return fs::is_directory(dir + "/rulesets", ignored);
}

Result<bool> is_same(Database& db, const Person& person) {
    const auto known = TRY(person_with(db, person.id));
    if (!known) return false;
    return known->name == person.name && known->badge == person.badge &&
           known->language == person.language && known->duties == person.duties &&
           known->endorsements == person.endorsements && known->extension == person.extension &&
           known->competence == person.competence && known->listed_until == person.listed_until;
}

Result<bool> is_same(Database& db, const Machine& machine) {
    const auto known = TRY(machine_row(db, machine.plate));
    if (!known) return false;
    const MachineState state = TRY(machine_state(db, machine.plate));
    return known->machine_class == machine.machine_class && known->room == machine.room &&
           known->approved_as_truck == machine.approved_as_truck &&
           state.service_every_tenths == machine.service_every_tenths;
}

// Copies a pack without the sites that lie in it.
Result<void> copy_pack(const std::string& from, const std::string& to) {
    std::error_code failed;
    for (const auto& item : fs::directory_iterator(from, failed)) {
        if (!item.is_directory() || item.path().filename() == "sites") continue;
        fs::copy(item.path(), fs::path(to) / item.path().filename(),
                 fs::copy_options::recursive, failed);
        if (failed) break;
    }
    if (failed) return Error{ErrorKind::failed, failed.message(), from, ""};
    return {};
}

Result<void> refuse_other_site(const Site& now, const Site& next) {
    if (now.id == next.id) return {};
    return Error{ErrorKind::refused,
                 "this is the site \"" + next.id + "\", the data belong to \"" + now.id + "\"", "",
                 "a data directory is one site: make another with holdpin init"};
}

// Enters people and machines whose lines in the site's file changed.
Result<void> enter_changed(OpenSite& site, std::vector<std::string>& changes) {
    std::vector<Fact> facts;
    return site.db->transaction([&]() -> Result<void> {
        for (const Person& person : site.content.site.people) {
            // Whoever has left comes back by `people import`, on purpose.
            const auto left = TRY(gone(*site.db, person.id));
            if ((left && !left->erased) || TRY(is_same(*site.db, person))) continue;
            facts.push_back(TRY(person_fact(*site.db, site.random, person)));
            changes.push_back("person/" + person.id);
        }
        for (const Machine& machine : site.content.site.machines) {
            if (TRY(is_same(*site.db, machine))) continue;
            facts.push_back(machine_fact(machine));
            changes.push_back("machine/" + machine.plate);
        }
        if (!facts.empty()) TRY(site.book->enter(std::move(facts)));
        return {};
    });
}

}  // namespace

Result<std::vector<std::string>> adopt_dir(const std::string& dir, const std::string& from,
                                           const ContentDirs& dirs, Clock& clock,
                                           Random& random, const std::string& seal_copies,
                                           const std::vector<std::string>& renamed) {
    const bool pack = is_pack(from);
    ContentDirs next = dirs;
    if (pack) next.content = from;
    const std::string site_path = pack ? dir + "/site" : from;
    Loaded loaded = load_content(next.content, next.assets, site_path);
    TRY(refuse_faults(loaded.faults));
    {
        // Opening first proves that no kiosk is running on it, and that the ledger holds.
        const auto now =
            TRY(open_site(dir, dirs, clock, random, PinCost::interactive, seal_copies));
        TRY(refuse_other_site(now->content.site, loaded.content.site));
        TRY(refuse_taken_ids(*now->db, loaded.content.site.people, renamed));
    }
    const std::string place = dir + (pack ? "/content" : "/site");
    NewDir made = TRY(NewDir::beside(place));
    TRY(pack ? copy_pack(from, made.path()) : copy_site_files(from, made.path()));
    TRY(made.replace());
    if (pack) next.content = place;
    auto site = TRY(open_site(dir, next, clock, random, PinCost::interactive, seal_copies,
                              Change::asked));
    std::vector<std::string> changes = site->adopted;
    TRY(enter_changed(*site, changes));
    return changes;
}

}  // namespace holdpin
