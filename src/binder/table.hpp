// The tables of a binder: their columns, and how a cell comes out of an entry. This is the one
// place that CSV, workbook and JSON lines are written from, so that they cannot disagree.
// `entry` is always the first column, `footing` and `footing_source` are the last two.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "binder/lookup.hpp"

namespace holdpin {

enum class CellKind {
    whole,  // a whole number, or empty
    text,   // anything else, numbers with decimals and times too
};

// What a cell is made of. `part` is the data of the entry, or one element of a list in it.
struct RowSource {
    const Entry& entry;
    const nlohmann::json& part;
    Lookup& lookup;
};

struct Column {
    std::string_view name;
    CellKind kind;
    std::string (*cell)(const RowSource& row, const char* key);
    const char* key;
};

struct TableForm {
    std::string_view name;   // of file and sheet
    std::string_view about;  // one sentence
    std::vector<std::string_view> kinds;  // of entries; with "*" at the end: all that begin so
    std::vector<Column> columns;
    const char* rows_of = nullptr;  // the list in the data that gives a row each; null: one row
    bool in_workbook = true;

    bool takes(std::string_view kind) const;
};

// In the order in which they stand in the workbook. `currency` is not made from single entries
// and has its rows from elsewhere.
const std::vector<TableForm>& table_forms();
const TableForm& currency_form();

using Cells = std::vector<std::string>;  // one for each column

// What each row of a table goes to.
class TableSink {
  public:
    virtual ~TableSink() = default;
    virtual Result<void> begin(const TableForm& form) = 0;
    virtual Result<void> row(const TableForm& form, const Cells& cells) = 0;
    virtual Result<void> finish() = 0;
};

// What the site's clock showed, from what the entry itself says: the site may have moved since.
LocalTime local_time(const Entry& entry, std::int64_t ms);
Date local_date(const Entry& entry);

bool is_in_period(const Entry& entry, const BinderScope& scope);
// Whether an entry belongs to what was asked for.
bool is_in_scope(const Entry& entry, const BinderScope& scope);

// Entries in order into rows of every table.
class Tables {
  public:
    Tables(Lookup& lookup, const BinderScope& scope, std::vector<TableSink*> sinks)
        : lookup_(lookup), scope_(scope), sinks_(std::move(sinks)) {}

    Result<void> begin();
    Result<void> add(const Entry& entry);
    Result<void> row(const TableForm& form, const Cells& cells);
    Result<void> finish();

  private:
    bool wants(const Entry& entry);
    Result<void> add_rows(const TableForm& form, const Entry& entry);
    Lookup& lookup_;
    const BinderScope& scope_;
    std::vector<TableSink*> sinks_;
};

}  // namespace holdpin
