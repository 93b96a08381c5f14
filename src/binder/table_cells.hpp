// How single cells come out of an entry, for the columns in table_forms.cpp. `key` names what is
// looked up in the data; functions that need none leave it out of sight.
#pragma once

#include <string>

#include "binder/table.hpp"

namespace holdpin::cells {

std::string number(const RowSource& row, const char* key);
std::string utc(const RowSource& row, const char* key);
std::string local(const RowSource& row, const char* key);
std::string kind(const RowSource& row, const char* key);
std::string by(const RowSource& row, const char* key);
std::string signer(const RowSource& row, const char* key);
std::string meaning(const RowSource& row, const char* key);
std::string about(const RowSource& row, const char* key);
std::string content(const RowSource& row, const char* key);
std::string zone(const RowSource& row, const char* key);
std::string boot(const RowSource& row, const char* key);
std::string all_data(const RowSource& row, const char* key);

// A value of the part as it stands, lists joined by spaces; `whole` of the entry in place of it.
std::string field(const RowSource& row, const char* key);
std::string whole_field(const RowSource& row, const char* key);
std::string instant(const RowSource& row, const char* key);  // milliseconds as UTC
std::string words(const RowSource& row, const char* key);    // behind a hash
std::string name(const RowSource& row, const char* key);     // of the person whose id stands there
std::string percent_right(const RowSource& row, const char* key);
// When the second of two signed: as noted under `key` in older entries, else with the entry.
std::string second_signed(const RowSource& row, const char* key);

// Footings. `key` is the id of a footing that the whole table has, for the machine or class of the
// row, or a hint: "point" that of the point, "topic" of the first topic, "air", "cylinders" of the
// site's policies.
std::string footing(const RowSource& row, const char* key);
std::string footing_source(const RowSource& row, const char* key);

// What the wall clock of the site showed, from what the entry itself says.
std::string local_text_of(std::int64_t at_ms, int offset_min);

}  // namespace holdpin::cells
