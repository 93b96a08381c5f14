// Checks a binder with nothing but the binder: sums and their signature, every entry's leaf and
// form, the root under each seal, seals and key, and that each row of a table names an entry that
// is there. Names the first thing wrong. Whose key it is, it knows only from what stands on paper.
#pragma once

#include <cstdint>
#include <string>

#include "binder/binder.hpp"
#include "binder/files.hpp"
#include "ledger/witness.hpp"

namespace holdpin {

struct CheckedBinder {
    std::uint64_t entries = 0;
    std::uint64_t purged = 0;
    std::uint64_t rows = 0;  // of tables
    std::size_t seals = 0;
    std::size_t stamps = 0;  // of time authorities, over seals
    std::size_t files = 0;
    std::string kiosk;  // id of the key
    std::string root;   // hex
};

// What was written down away from the kiosk, against which a binder is held.
struct BinderNoted {
    std::string kiosk;               // the kiosk's number, noted when it was set up; empty: none
    std::vector<Witness> witnesses;  // from the paper shift book, each with its size
};

// Error: damaged (what is wrong, and in which file), refused (`progress` said no).
Result<CheckedBinder> check_files(const BinderFiles& files, const BinderProgress& progress,
                                  const BinderNoted& noted = {});
// `path`: a folder, or a zip of one, which is unpacked into `temp_dir` and taken away again.
// Errors: those of check_files, absent (nothing is there), failed.
Result<CheckedBinder> check_binder(const std::string& path, const std::string& temp_dir,
                                   const BinderProgress& progress,
                                   const BinderNoted& noted = {});

}  // namespace holdpin
