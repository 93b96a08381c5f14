// A shift written down: timed acts with what they must lead to. The same file is rehearsed on paper
// or driven through the real screens; script/FORMAT.md says how it is written.
// Reading finds every fault of the file at once; nothing here knows a page or a site.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/local_time.hpp"
#include "content/fault.hpp"

namespace holdpin {

enum class Verb {
    tap,          // a label or an action id
    type,         // a text, into the page that is open
    pin,          // digits, into the page that is open
    badge,        // a badge, typed and sent
    sign_on,      // a badge: from the floor to being signed on
    sign,         // a badge: that person's PIN, typed and sent
    answer,       // points and their readings
    walk,         // the rest of a round
    guide,        // a guide, to its end
    quiz,         // "right" or "wrong", to its end
    expect,       // a text that must stand on the page
    expect_not,
    grey,         // a target that is there and cannot be touched
    expect_page,  // how the id of the page must begin
    ledger,       // a kind of entry that the last act must have made
    no_ledger,
    wait,         // hours:minutes pass
    clock,        // somebody sets the wall clock to a local time
    power_cut,
    picture,
};
std::string_view name_of(Verb verb);

struct Pair {
    std::string name;
    std::string value;
};

struct Act {
    int number = 0;  // from 1
    int line = 0;
    Verb verb = Verb::tap;
    std::string text;
    std::vector<Pair> pairs;            // of answer; of walk: the points that are not fine
    std::map<std::string, std::string> values;  // of walk: "hours", "fuel"
    int minutes = 0;                    // of wait
    Date date;                          // of clock
    int minute_of_day = 0;              // of clock
};

struct Script {
    std::string file;
    std::string site;      // a site's folder, relative to the script; empty: the example site
    std::string language;  // of the floor; empty: the site's own
    std::string units;     // "metric" or "us"; empty: the site's own
    Date date;
    int minute_of_day = 0;
    int width = 1280;
    int height = 800;
    std::vector<Act> acts;
};

// Meaningful only if no fault was added.
Script read_script(const std::string& file, std::string_view text, Faults& faults);

}  // namespace holdpin
