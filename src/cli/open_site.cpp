// Opening a site that is there, and adopting content that changed since.
#include <filesystem>

#include "cli/closing_mark.hpp"
#include "cli/new_site.hpp"
#include "cli/output.hpp"
#include "cli/sheet_folder.hpp"
#include "cli/site_facts.hpp"
#include "ledger/check.hpp"
#include "records/records.hpp"
#include "records/state_check.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

// People and machines of the site's file that the records do not know yet.
Result<std::vector<Fact>> newcomers(OpenSite& site) {
    std::vector<Fact> facts;
    for (const Person& person : site.content.site.people) {
        if (!TRY(person_with(*site.db, person.id))) {
            facts.push_back(TRY(person_fact(*site.db, site.random, person)));
            site.adopted.push_back("person/" + person.id);
        }
    }
    for (const Machine& machine : site.content.site.machines) {
        if (!TRY(machine_row(*site.db, machine.plate))) {
            facts.push_back(machine_fact(machine));
            site.adopted.push_back("machine/" + machine.plate);
        }
    }
    return facts;
}

using Digests = std::map<std::string, std::string>;

// What is new or different, and with an empty digest what is gone.
Digests difference(const Digests& before, const Digests& now) {
    Digests changed;
    for (const auto& [key, digest] : now) {
        const auto old = before.find(key);
        if (old == before.end() || old->second != digest) changed[key] = digest;
    }
    for (const auto& [key, digest] : before) {
        if (!now.contains(key)) changed[key] = "";
    }
    return changed;
}

// New people and machines count as a change, whatever else is the same.
Result<void> adopt_content(OpenSite& site, bool unasked) {
    const Digests& now = site.content.pack.digests;
    const Digests changed = difference(TRY(last_adopted(*site.db)), now);
    return site.db->transaction([&]() -> Result<void> {
        std::vector<Fact> facts = TRY(newcomers(site));
        if (!changed.empty() || !facts.empty()) {
            facts.insert(facts.begin(), adopted_fact(changed, site.content.site.id, unasked));
            TRY(keep_frozen(*site.db, site.frozen));
            TRY(set_last_adopted(*site.db, now));
        }
        if (!facts.empty()) TRY(site.book->enter(std::move(facts)));
        for (const auto& [key, digest] : changed) site.adopted.push_back(key);
        return {};
    });
}

// Before anything is entered: an entry more would make an old file look younger.
Result<void> look_for_doubt(OpenSite& site, const std::string& outside, bool as_left) {
    const StartFinding finding =
        TRY(look_at_start(*site.db, *site.ledger, site.sealer->key(), outside));
    const std::string state = TRY(noted_state_doubt(*site.db));
    if (!finding.doubt.empty()) {
        site.put_in_doubt({ErrorKind::damaged, finding.doubt, "ledger", finding.mend});
    } else if (!state.empty()) {
        site.put_in_doubt({ErrorKind::damaged, state, kPresentState, kStateMend});
    } else if (!as_left) {
        TRY(site.check_state());
    }
    return {};
}

}  // namespace

OpenSite::~OpenSite() {
    if (!was_looked_at) return;
    const KioskKey key = sealer->key();
    pins.reset();
    book.reset();
    sealer.reset();
    ledger.reset();
    db.reset();
    if (!ledger_doubt.empty()) return;
    if (const auto kept = keep_closing_mark(data_dir, key); !kept) complain(kept.error());
}

World OpenSite::world() {
    World world{content, *book, *pins, clock, random, zone, ledger_doubt.empty(), nullptr,
                [this] { return ledger_doubt; }, binder, data_sheets.get(),
                about_printer, tags.get()};
    if (data_dir.empty()) return world;
    const auto floor = static_cast<std::uintmax_t>(content.site.policy.disk_floor_mb) * 1'000'000;
    world.disk_ok = [dir = data_dir, floor]() {
        std::error_code failed;
        const auto space = fs::space(dir, failed);
        return !failed && space.available >= floor;
    };
    return world;
}

void OpenSite::put_in_doubt(const Error& why) {
    ledger_doubt = why.what;
    book->seal_with(nullptr);
    if (why.where == kPresentState) {
        if (const auto noted = note_state_doubt(*db, why.what); !noted) complain(noted.error());
    }
    complain({why.kind, why.what, why.where, "no machine is handed over; " + why.mend});
}

Result<void> OpenSite::check_state() {
    const auto differing = state_differences(*db);
    if (!differing) {
        if (differing.error().kind != ErrorKind::damaged) return differing.error();
        put_in_doubt(differing.error());
    } else if (!differing.value().empty()) {
        put_in_doubt(
            {ErrorKind::damaged, state_doubt(differing.value()), kPresentState, kStateMend});
    }
    return {};
}

Result<std::unique_ptr<OpenSite>> assemble(Loaded loaded, SiteParts parts, Clock& clock,
                                           Random& random) {
    const std::string site_id = loaded.content.site.id;
    Zone zone = TRY(Zone::load(loaded.content.site.zone));
    auto site = std::make_unique<OpenSite>(clock, random, zone);
    site->content = std::move(loaded.content);
    site->frozen = std::move(loaded.frozen);
    site->db = TRY(Database::open(parts.database, {.vfs = parts.vfs, .read_only = false}));
    site->ledger =
        TRY(Ledger::open(*site->db, clock, random, {site_id, parts.key.kiosk_id(), zone}));
    site->sealer = std::make_unique<Sealer>(
        *site->db, *site->ledger, clock,
        Sealer::Parts{parts.key, parts.seal_copy, [](const Error& error) { complain(error); }});
    site->book = TRY(Book::open(*site->db, *site->ledger, random));
    site->book->seal_with(site->sealer.get());
    site->pins = std::make_unique<PinBook>(*site->db, random, std::move(parts.pepper), parts.cost);
    return site;
}

Result<std::unique_ptr<OpenSite>> open_site(const std::string& dir, const ContentDirs& dirs,
                                            Clock& clock, Random& random, PinCost cost,
                                            const std::string& seal_copies, Change change) {
    std::error_code failed;
    const bool there = fs::exists(dir + "/holdpin.db", failed);
    if (failed) {
        return Error{ErrorKind::failed, "cannot look into this folder: " + failed.message(), dir,
                     "let the kiosk read and write it"};
    }
    if (!there) {
        return Error{ErrorKind::absent, "there is no site here", dir,
                     "make one: holdpin init --data DIR --site SITE"};
    }
    Loaded loaded = load_content(dirs.content, dirs.assets, dir + "/site");
    TRY(refuse_faults(loaded.faults));
    const KioskKey key = TRY(load_kiosk_key(dir + "/kiosk.key"));
    const std::string outside = seal_copy_path(seal_copies, key.kiosk_id());
    const bool as_left = is_as_left(dir, key);
    SiteParts parts{dir + "/holdpin.db", key, TRY(load_pepper(dir + "/pepper")), cost,
                    outside};
    auto site = TRY(assemble(std::move(loaded), std::move(parts), clock, random));
    site->data_dir = dir;
    site->data_sheets = std::make_unique<SheetFolder>(dir + "/" + kSheetFolder);
    TRY(look_for_doubt(*site, outside, as_left && !site->db->was_unclean()));
    TRY(adopt_content(*site, change == Change::unasked));
    if (site->ledger_doubt.empty()) site->sealer->keep_copy();
    site->was_looked_at = true;
    return site;
}

}  // namespace holdpin
