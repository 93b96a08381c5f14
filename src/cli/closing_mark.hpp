// How the data file was left when it was last closed. Whoever changes the file without the kiosk's
// key cannot make the mark that fits it, so that a start knows, at the cost of one look at the
// file system, that another hand was at it, and then folds all entries again.
// The mark is one line, in the file `closed` of the data folder: inode, size, and the times of the
// last change of content and of the file itself in nanoseconds, with the kiosk's signature. The
// last of them nobody sets but the system's clock. A copied, restored or upgraded data file has no
// fitting mark either; it is looked at once and has one from then on.
#pragma once

#include <string>

#include "base/result.hpp"
#include "ledger/ledger.hpp"

namespace holdpin {

inline constexpr const char* kClosingMark = "closed";

// To be called when the data file of the folder `data` is closed.
Result<void> keep_closing_mark(const std::string& data, const KioskKey& key);
// To be asked before it is opened. False, too, where there is no mark.
bool is_as_left(const std::string& data, const KioskKey& key);

}  // namespace holdpin
