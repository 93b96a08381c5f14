// Questions about what a site must look at by itself, apart from any machine.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/result.hpp"
#include "store/database.hpp"

namespace holdpin {

// The last time somebody let the eyewash run until it was clear; none: nobody has yet.
struct EyewashRun {
    std::int64_t at_ms = 0;
    std::string by;
};
Result<std::optional<EyewashRun>> last_eyewash_run(Database& db);

}  // namespace holdpin
