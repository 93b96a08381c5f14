// A list of people as a table. Columns by their header, in any order:
// id, name, badge, language, duties, endorsements, extension, competence, listed_until.
// The first five must be there; several duties or endorsements stand in one cell, with spaces.
#pragma once

#include <string_view>
#include <vector>

#include "content/fault.hpp"
#include "content_types/content.hpp"

namespace holdpin {

// Meaningful only if no fault was added.
std::vector<Person> people_of_csv(const std::string& file, std::string_view text, Faults& faults);

}  // namespace holdpin
