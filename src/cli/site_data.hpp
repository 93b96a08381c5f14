// A data directory is one site: holdpin.db, kiosk.key, pepper, site/ (the site's TOML), sds/ (its
// safety data sheets), closed (closing_mark.hpp) and, after `adopt`, content/ (a pack of its own).
// Made as a whole or not at all; opened by one program at a time. Content that differs from what
// was last adopted is adopted on opening, by an entry.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "cli/paths.hpp"
#include "content/content.hpp"
#include "flows/data_sheets.hpp"
#include "flows/tag_print.hpp"
#include "flows/world.hpp"

namespace holdpin {

// A site ready to work with. What it was opened with (clock, random source) must outlive it.
struct OpenSite {
    OpenSite(Clock& clock_in, Random& random_in, Zone zone_in)
        : clock(clock_in), random(random_in), zone(std::move(zone_in)) {}
    // Closes the records and marks how they were left. Not those that were not opened to the end,
    // or are in doubt.
    ~OpenSite();
    OpenSite(const OpenSite&) = delete;
    OpenSite& operator=(const OpenSite&) = delete;

    std::string data_dir;  // empty: in memory
    bool was_looked_at = false;  // opened from a folder, to the end: it may be marked as it is left
    Clock& clock;
    Random& random;
    Zone zone;
    Content content;
    FrozenItems frozen;
    std::unique_ptr<Database> db;
    std::unique_ptr<Ledger> ledger;
    std::unique_ptr<Sealer> sealer;
    std::unique_ptr<Book> book;
    std::unique_ptr<PinBook> pins;
    std::unique_ptr<DataSheets> data_sheets;  // null: this site keeps none
    std::unique_ptr<TagPrinter> tags;         // null: no tag is printed
    std::vector<std::string> adopted;  // what was adopted on opening: "guide/x", "person/y"
    // Why the entries are not those that were sealed; empty: they are. In doubt nothing is
    // released and nothing sealed, and the seal kept outside stays as it is.
    std::string ledger_doubt;
    BinderWork* binder = nullptr;  // makes binders at the screen; null: nobody does
    AboutPrinter* about_printer = nullptr;  // writes own records at the screen; null: nobody

    World world();
    // What was found while it is open: from now on nothing is released and nothing sealed. What
    // speaks against the folded state stands until it was folded again, also after a restart.
    void put_in_doubt(const Error& why);
    // Folds all entries again, and puts the site in doubt where the state is not what they say.
    // Takes seconds where there are very many. Error: what keeps it from being known.
    Result<void> check_state();
};

struct InitReport {
    std::string site;
    std::string name;
    bool example = false;
    std::size_t people = 0;
    std::size_t machines = 0;
    std::uint64_t entries = 0;
    // Of a real site, once and nowhere else: the first supervisor and the PIN to begin with.
    std::string first_name;
    std::string first_badge;
    std::string first_pin;
};

// Makes a data directory. Refuses one that exists and holds anything.
Result<InitReport> init_site(const std::string& dir, const std::string& site_path,
                             const ContentDirs& dirs, Clock& clock, Random& random, PinCost cost);

// What it means where the content files differ from those that were adopted last. Unasked, they
// hold every machine until somebody entitled has looked at the change.
enum class Change { unasked, asked };
// `seal_copies`: the folder for the seal kept outside; empty: none is kept or looked at.
Result<std::unique_ptr<OpenSite>> open_site(const std::string& dir, const ContentDirs& dirs,
                                            Clock& clock, Random& random, PinCost cost,
                                            const std::string& seal_copies = "",
                                            Change change = Change::unasked);

// The same site as `init` and opening would give, without a trace on the disk.
Result<std::unique_ptr<OpenSite>> in_memory_site(Loaded loaded, Clock& clock, Random& random);

// Takes over `from`, a pack (a folder with rulesets/) or the folder of this site, and enters what
// changed: "round/scrubber-before-use", "person/p-brandt". With one fault in it, nothing is.
// `renamed`: ids of people who stand there under a new name.
Result<std::vector<std::string>> adopt_dir(const std::string& dir, const std::string& from,
                                           const ContentDirs& dirs, Clock& clock, Random& random,
                                           const std::string& seal_copies = "",
                                           const std::vector<std::string>& renamed = {});

}  // namespace holdpin
