// The tables of the binder as CSV, for a whole ledger, against the sqlite3 shell that dumps the
// same columns of the tables that have rows. Each is a process of its own, from start to end:
//   ours   one pass over the entries: each leaf checked, each body read as JSON, every table
//          written as the binder writes it, with footings and the SHA-256 of each file, synced
//   shell  dump_tables.sql: `.mode csv`, json_extract of the same keys, names joined, no footings
//          (they come from content), no sums, one query a table
#pragma once

#include <string>

namespace holdpin::bench {

// What the process of its own does.
int write_tables(const std::string& data, const std::string& out);
// A whole binder of a copy, with workbook, JSON lines and papers.
int write_binder(const std::string& data, const std::string& out);

// The whole binder of a tenth and of all: the most memory, and the time by papers.
void compare_binder(const std::string& tenth, const std::string& full, const std::string& out);

struct ExportPlaces {
    std::string full;
    std::string tenth;  // to see that memory does not grow with the ledger
    std::string out;    // a folder to write in, gone afterwards
};
void compare_export(const ExportPlaces& places);

}  // namespace holdpin::bench
