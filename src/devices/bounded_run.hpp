// Runs another program on a file that nobody here trusts: without a shell, with nothing open but
// what is said here, and with an end to its time, its memory and what it writes. When it is over
// nothing of it runs any more. It is not kept from reading files; give it only programs of the
// distribution.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace holdpin {

struct BoundedRun {
    std::vector<std::string> words;  // the program, found on the path, and what it is given
    std::string output;              // the file that takes what it says; empty: nowhere
    std::int64_t time_ms = 5'000;
    std::uint64_t memory_bytes = 768ULL << 20U;  // of address space
    std::uint64_t file_bytes = 32ULL << 20U;     // of any one file that it writes
};

// Waits for its end. Errors: absent (there is no such program), failed (it says so, or was ended).
Result<void> run_bounded(const BoundedRun& run);

}  // namespace holdpin
