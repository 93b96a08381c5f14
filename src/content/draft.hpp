// Content as read and not yet proofread: the typed items, and for each of them the place where it
// stands. The vectors of Places run along those of Pack and Site, item by item.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "content/fault.hpp"
#include "content/node.hpp"
#include "content_types/content.hpp"

namespace holdpin {

struct Places {
    std::vector<Spot> footings, holds, duties, classes, guides, quizzes, rounds, sheets, works;
    std::map<std::string, Spot> strings;
    std::vector<Spot> site;  // site.toml, if it was read
    std::vector<Spot> shifts, rooms, meters, machines, drains, people, records, tailpipes,
        statements, retention, exchange_places;
};

struct ContentDraft {
    Content content;
    Places places;
};

// Readers of one file each: they append to the draft what the file holds. The name of the file
// without its ending must be the id of the item.
void read_footings(const Spot& file, ContentDraft& draft, Faults& faults);
void read_holds(const Spot& file, ContentDraft& draft, Faults& faults);
void read_duties(const Spot& file, ContentDraft& draft, Faults& faults);
void read_retention(const Spot& file, ContentDraft& draft, Faults& faults);
void read_strings(const Spot& file, ContentDraft& draft, Faults& faults);
void read_site_file(const Spot& file, bool is_head, ContentDraft& draft, Faults& faults);

MachineClass read_class(const Spot& file, Faults& faults);
Guide read_guide(const Spot& file, Faults& faults);
Quiz read_quiz(const Spot& file, Faults& faults);
Round read_round(const Spot& file, Faults& faults);
Sheet read_sheet(const Spot& file, Faults& faults);
Work read_work(const Spot& file, Faults& faults);

}  // namespace holdpin
