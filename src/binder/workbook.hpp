// The tables once more as one XLSX workbook, a sheet each, row by row; memory stays flat.
// Cells are texts and whole numbers, never formulas. A table with more rows than a sheet holds
// ends there, and the sheet "about" says so.
#pragma once

#include <map>
#include <string>

#include "binder/table.hpp"

struct lxw_workbook;
struct lxw_worksheet;
struct lxw_format;

namespace holdpin {

class Workbook final : public TableSink {
  public:
    struct Place {
        std::string path;        // of the file
        std::string temp_dir;    // for what is put together before
        std::int64_t now_ms = 0; // what stands in its properties
    };
    static Result<std::unique_ptr<Workbook>> open(const Place& place);
    Workbook(const Workbook&) = delete;
    Workbook& operator=(const Workbook&) = delete;
    ~Workbook() override;

    // A line of the sheet "about".
    void tell(const std::string& what, const std::string& value);

    Result<void> begin(const TableForm& form) override;
    Result<void> row(const TableForm& form, const Cells& cells) override;
    Result<void> finish() override;

  private:
    struct Sheet {
        lxw_worksheet* sheet = nullptr;
        std::uint32_t rows = 0;
        bool cut = false;
    };
    explicit Workbook(const Place& place);
    Result<void> write(Sheet& sheet, std::size_t column, const std::string& cell, bool whole);

    Place place_;
    lxw_workbook* book_ = nullptr;
    lxw_format* bold_ = nullptr;
    lxw_worksheet* about_ = nullptr;
    std::uint32_t about_rows_ = 0;
    std::map<std::string_view, Sheet> sheets_;
};

}  // namespace holdpin
