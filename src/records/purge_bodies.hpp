// Which entries may lose their body: those whose time is over, of kinds of which it is known what
// the present state keeps of them, and that nothing that stays still names. What hangs together
// goes together: a finding with all that was done about it, once it is closed; the training of a
// person who has left; rounds and releases of a machine from the oldest up to the first that
// stays. What says how a machine stands today (its last meter, its last return) stays. Exposure
// never goes.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "content_types/content.hpp"
#include "ledger/purged.hpp"

namespace holdpin {

struct PurgeBodies {
    std::vector<EntryRange> ranges;              // numbers of the entries, in order
    std::map<std::string, std::size_t> classes;  // class of records -> how many of them
    std::set<std::string> people;                // whose training goes

    std::size_t count() const;
    bool empty() const { return ranges.empty(); }
};

// How an entry of a kind that may go hangs together with others.
enum class GoesWith { nothing, thread, track, person, successor };

// To be shown every entry that still has its body, in order; then asked.
class BodySweep {
  public:
    // `over`: its time is over and nothing holds it.
    void take(const Entry& entry, const RetentionClass* one, bool over);
    // The kind of an entry that was taken and may go at all; empty: of no such.
    std::string_view kind_of(std::int64_t n) const;
    Result<PurgeBodies> plan(Database& db);

  private:
    struct Item {
        std::int64_t n = 0;
        std::size_t unit = 0;  // another item of the same unit, or itself
        std::string_view kind;
        const RetentionClass* one = nullptr;
        bool stays = false;  // asked of the unit's first item only
        std::string person;  // whose training it is
    };
    void hang_together(std::size_t item, const Entry& entry, GoesWith how);
    void join_thread(std::size_t item, const Entry& entry);
    void join_track(std::size_t item, const Entry& entry);
    void join(std::size_t item, const std::string& key);
    void unite(std::size_t one, std::size_t other);
    std::size_t unit_of(std::size_t item);
    std::optional<std::size_t> item_of(std::int64_t n) const;
    bool stay(std::size_t item);  // true: it was to go until now
    Result<void> keep_what_stands(Database& db);
    void settle();
    bool keep_named();
    bool keep_tracks();

    std::vector<Item> items_;
    std::vector<std::pair<std::size_t, std::int64_t>> named_;   // item -> entry that it names
    std::vector<std::int64_t> needed_;                          // by entries that stay anyhow
    std::map<std::string, std::size_t> last_;                   // the last of its sort stays
    std::map<std::string, std::vector<std::size_t>> tracks_;    // machine -> rounds and releases
    std::map<std::string, std::size_t> joined_;                 // what makes one unit of several
    std::map<std::string, std::string> tags_;                   // machine -> tag that stands
};

// Takes the bodies out, within a transaction and below the newest seal. Leaves stay.
Result<void> take_bodies_out(Database& db, const std::vector<EntryRange>& ranges);
// Drops from the present state what is known of these entries alone. What is left has to be what
// folding the remaining bodies gives.
Result<void> drop_rows_of(Database& db, const PurgeBodies& bodies);

}  // namespace holdpin
