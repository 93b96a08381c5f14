// Puts a backup in the place of the records. Nothing is lost by it: the records that stood there
// are kept beside them under another name. One that does not verify is refused; one that is
// older than a known seal needs two people, one of them a supervisor. That it happened is an
// entry, `restored`.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "base/clock.hpp"
#include "base/random.hpp"
#include "base/result.hpp"

namespace holdpin {

struct RestoreAsked {
    std::string data;
    std::string backup;
    std::string seal_copies;           // folder of the seal kept outside; empty: none
    bool older = false;                // told so: an older one is meant
    std::vector<std::string> badges;   // of the two people
    std::function<Result<std::string>(const std::string& badge)> ask_pin;
};

struct RestoreDone {
    std::uint64_t entries = 0;     // in the backup
    std::uint64_t known = 0;       // entries under the newest seal that was known; 0: none
    bool older = false;
    std::string kept;              // where the records that stood there are now; empty: none did
};

Result<RestoreDone> restore_site(const RestoreAsked& asked, Clock& clock, Random& random);

}  // namespace holdpin
