// Setting a site up: its first entries, its first PINs, its folder.
#include "cli/new_site.hpp"

#include <algorithm>
#include <filesystem>

#include "base/new_dir.hpp"
#include "cli/sheet_folder.hpp"
#include "cli/site_facts.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

Result<void> enter_people(OpenSite& site, std::vector<Fact>& facts) {
    for (const Person& person : site.content.site.people) {
        facts.push_back(TRY(person_fact(*site.db, site.random, person)));
    }
    for (const Machine& machine : site.content.site.machines) {
        facts.push_back(machine_fact(machine));
    }
    for (const Room& room : site.content.site.rooms) {
        if (room.closed) facts.push_back(closed_room_fact(room));
    }
    return {};
}

Result<void> issue_pin(OpenSite& site, const Person& person, const std::string& pin,
                       bool must_change, std::vector<Fact>& facts) {
    TRY(site.pins->set(person.id, pin, must_change));
    facts.push_back({"pin-issued", {}, "", 0, {{"person", person.id}}});
    return {};
}

Result<void> example_pins(OpenSite& site, std::vector<Fact>& facts) {
    for (const Person& person : site.content.site.people) {
        if (!person.example_pin.empty()) {
            TRY(issue_pin(site, person, person.example_pin, false, facts));
        }
    }
    return {};
}

// Somebody has to be let in first: the first supervisor of the list.
Result<void> first_pin(OpenSite& site, InitReport& report, std::vector<Fact>& facts) {
    for (const Person& person : site.content.site.people) {
        const auto& duties = person.duties;
        if (std::find(duties.begin(), duties.end(), Duty::supervising) == duties.end()) continue;
        report.first_name = person.name;
        report.first_badge = person.badge;
        report.first_pin = site.pins->draw(site.content.site.policy.pin_digits, person.badge);
        return issue_pin(site, person, report.first_pin, true, facts);
    }
    return Error{ErrorKind::invalid, "the site names no supervisor, so nobody could be let in",
                 site.content.site.id, "give one person the duty \"supervisor\""};
}

}  // namespace

Result<InitReport> enter_new_site(OpenSite& site, const KioskKey& key) {
    const Site& config = site.content.site;
    InitReport report{config.id, config.name.in(config.language), config.example,
                      config.people.size(), config.machines.size(), 0, "", "", ""};
    const auto& digests = site.content.pack.digests;
    TRY(site.db->transaction([&]() -> Result<void> {
        std::vector<Fact> facts{
            {"ledger-opened", {}, "", 0, {{"format", 1}, {"public_key", hex(key.public_key)}}},
            adopted_fact(digests, config.id)};
        TRY(enter_people(site, facts));
        const Date today = site.zone.local(site.clock.now_ms()).date;
        for (const ExampleRecord& record : config.records) {
            for (Fact& fact : brought_along(site.content, record, today)) {
                facts.push_back(std::move(fact));
            }
        }
        for (const ExampleTailpipe& test : config.tailpipes) {
            facts.push_back(tailpipe_fact(test, today));
        }
        for (const ExampleStatement& accepted : config.statements) {
            for (const std::string& language : accepted.languages) {
                facts.push_back(statement_fact(site.content, accepted.person, language));
            }
        }
        TRY(config.example ? example_pins(site, facts) : first_pin(site, report, facts));
        TRY(keep_frozen(*site.db, site.frozen));
        TRY(set_last_adopted(*site.db, digests));
        TRY(site.book->enter(std::move(facts)));
        return site.sealer->seal();
    }));
    report.entries = site.ledger->size();
    return report;
}

Result<void> refuse_faults(const Faults& faults) {
    if (faults.empty()) return {};
    std::string lines;
    for (const Fault& fault : faults) lines += "\n" + fault.sentence();
    const std::string count = faults.size() == 1
                                  ? "there is 1 fault"
                                  : "there are " + std::to_string(faults.size()) + " faults";
    return Error{ErrorKind::invalid, count + lines, "", ""};
}

Result<void> copy_site_files(const std::string& from, const std::string& to) {
    std::error_code failed;
    fs::create_directories(to, failed);
    if (!fs::is_directory(from, failed)) {
        return write_file(to + "/site.toml", TRY(read_file(from)));
    }
    for (const auto& item : fs::directory_iterator(from, failed)) {
        if (item.path().extension() != ".toml") continue;
        const std::string name = item.path().filename().string();
        TRY(write_file(to + "/" + name, TRY(read_file(item.path().string()))));
    }
    if (failed) return Error{ErrorKind::failed, failed.message(), from, ""};
    return {};
}

Result<InitReport> init_site(const std::string& dir, const std::string& site_path,
                             const ContentDirs& dirs, Clock& clock, Random& random,
                             PinCost cost) {
    Loaded loaded = load_content(dirs.content, dirs.assets, site_path);
    TRY(refuse_faults(loaded.faults));
    NewDir made = TRY(NewDir::beside(dir));
    const KioskKey key = TRY(make_kiosk_key(made.path() + "/kiosk.key", random));
    TRY(copy_site_files(site_path, made.path() + "/site"));
    TRY(copy_sheets(site_path, made.path()));
    InitReport report;
    {
        SiteParts parts{made.path() + "/holdpin.db", key,
                        TRY(make_pepper(made.path() + "/pepper", random)), cost};
        auto site = TRY(assemble(std::move(loaded), parts, clock, random));
        report = TRY(enter_new_site(*site, key));
        // The database is closed before its folder gets its name.
    }
    TRY(made.take_place());
    return report;
}

Result<std::unique_ptr<OpenSite>> in_memory_site(Loaded loaded, Clock& clock, Random& random) {
    constexpr std::size_t kSecretSize = 32;
    Bytes seed(kSecretSize);
    random.fill(seed);
    const KioskKey key = TRY(kiosk_key_of(std::move(seed)));
    Bytes pepper(kSecretSize);
    random.fill(pepper);
    SiteParts parts{":memory:", key, std::move(pepper), PinCost::least};
    auto site = TRY(assemble(std::move(loaded), parts, clock, random));
    TRY(enter_new_site(*site, key));
    return site;
}

}  // namespace holdpin
