// Everything a flow needs from outside: the clock, the random source, the book that writes, the
// content in force. A test hands in a hand-moved clock, a seeded source and a database in memory,
// and can run a year or cut the power between any two writes.
#pragma once

#include <functional>
#include <string>

#include "base/clock.hpp"
#include "base/random.hpp"
#include "content_types/content.hpp"
#include "records/book.hpp"
#include "store/tables.hpp"

namespace holdpin {

class AboutPrinter;
class BinderWork;
class DataSheets;
class TagPrinter;

struct World {
    const Content& content;
    Book& book;
    PinBook& pins;
    Clock& clock;
    Random& random;
    const Zone& zone;
    bool ledger_ok = true;              // the check at start held
    std::function<bool()> disk_ok;      // enough room to go on; null: yes
    // What a check found since the start; empty, or null: nothing.
    std::function<std::string()> doubt_since = nullptr;
    BinderWork* binder = nullptr;       // null: no binder is made at this screen
    DataSheets* data_sheets = nullptr;  // null: this kiosk keeps none
    AboutPrinter* about_printer = nullptr;  // null: no own records are written at this screen
    TagPrinter* tags = nullptr;         // null: no tag is printed here

    bool ledger_holds() const { return ledger_ok && (!doubt_since || doubt_since().empty()); }
};

}  // namespace holdpin
