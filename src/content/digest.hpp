// Freezes items: typed content to canonical JSON, with the keys its author wrote and the SHA-256
// of each drawing under "drawings". What a person signs carries the SHA-256 of these bytes.
// Guarantees: depends on nothing but the item and its drawings: no order, no comment, no path.
// A key that is added to the format later is written only where it differs from its default, so
// that a frozen item keeps its digest.
#pragma once

#include "content/content.hpp"

namespace holdpin {

// Every item of the pack by "kind/id".
FrozenItems frozen_pack(const Pack& pack, const Files& assets);
// The classes of records.
std::string frozen_retention(const Pack& pack);
// The site without names, badges, extensions, competence and PINs: those can be erased, frozen
// bytes cannot.
std::string frozen_site(const Site& site);

// Hexadecimal SHA-256 of each item's bytes.
std::map<std::string, std::string> digests_of(const FrozenItems& frozen);

}  // namespace holdpin
