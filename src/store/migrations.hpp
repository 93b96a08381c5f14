// The tables of store/ and how an older file comes to have them. Version k is reached by step k,
// in one transaction with the number that says so. Steps that were released are never edited;
// a change is a new step at the end. Tables that records/ folds are its own and stand elsewhere.
#pragma once

#include <cstdint>

#include "base/result.hpp"
#include "store/database.hpp"

namespace holdpin {

inline constexpr std::int64_t kApplicationId = 0x486f6c64;  // in the file's head; do not change
inline constexpr std::int64_t kSchemaVersion = 5;

// Brings an empty file or one of ours, at `version`, to kSchemaVersion.
Result<void> migrate(Database& db, std::int64_t version);

}  // namespace holdpin
