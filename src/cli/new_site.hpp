// The steps that setting up, opening and changing a site share.
#pragma once

#include <memory>
#include <string>

#include "cli/site_data.hpp"

namespace holdpin {

struct SiteParts {
    std::string database;
    KioskKey key;
    Bytes pepper;
    PinCost cost = PinCost::interactive;
    std::string seal_copy = {};  // the file kept outside; empty: none
    std::string vfs = {};        // of a test; empty: the system's
};
// Opens the database and everything that stands on it. Enters nothing.
Result<std::unique_ptr<OpenSite>> assemble(Loaded loaded, SiteParts parts, Clock& clock,
                                           Random& random);
// The first entries of a site; either all of them or none.
Result<InitReport> enter_new_site(OpenSite& site, const KioskKey& key);

// All faults as one error, or nothing.
Result<void> refuse_faults(const Faults& faults);
// Copies a site's TOML, a folder's or one file's, into the folder `to`.
Result<void> copy_site_files(const std::string& from, const std::string& to);

}  // namespace holdpin
