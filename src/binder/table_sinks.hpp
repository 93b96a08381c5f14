// Where rows go: one CSV and one file of JSON lines for each table, written as they come.
#pragma once

#include <map>
#include <memory>
#include <string>

#include "binder/folder.hpp"
#include "binder/table.hpp"

namespace holdpin {

// tables/<name>.csv: RFC 4180, a header row.
class CsvTables final : public TableSink {
  public:
    explicit CsvTables(BinderFolder& folder) : folder_(folder) {}
    Result<void> begin(const TableForm& form) override;
    Result<void> row(const TableForm& form, const Cells& cells) override;
    Result<void> finish() override;

  private:
    BinderFolder& folder_;
    std::map<std::string_view, OutFile> files_;
    std::string line_;
};

// tables/<name>.jsonl: an object a line; whole numbers as numbers, what is empty as null.
class JsonTables final : public TableSink {
  public:
    explicit JsonTables(BinderFolder& folder) : folder_(folder) {}
    Result<void> begin(const TableForm& form) override;
    Result<void> row(const TableForm& form, const Cells& cells) override;
    Result<void> finish() override;

  private:
    BinderFolder& folder_;
    std::map<std::string_view, OutFile> files_;
    std::string line_;
};

// Whether a cell of a `whole` column is a number; older entries may have something else there.
bool is_whole_number(std::string_view cell);

}  // namespace holdpin
