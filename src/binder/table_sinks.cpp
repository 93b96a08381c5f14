#include "binder/table_sinks.hpp"

#include <nlohmann/json.hpp>

#include "binder/csv.hpp"

namespace holdpin {
namespace {

std::string name_in(const TableForm& form, const char* ending) {
    return "tables/" + std::string(form.name) + ending;
}

bool needs_no_escape(std::string_view text) {
    for (const char c : text) {
        if (static_cast<unsigned char>(c) < 0x20 || c == '"' || c == '\\' || c == '\x7f') {
            return false;
        }
    }
    return true;
}

void add_json_text(std::string& line, std::string_view text) {
    if (needs_no_escape(text)) {
        line += '"';
        line += text;
        line += '"';
    } else {
        line += nlohmann::json(text).dump(-1, ' ', false,
                                          nlohmann::json::error_handler_t::replace);
    }
}

}  // namespace

bool is_whole_number(std::string_view cell) {
    if (cell.starts_with('-')) cell.remove_prefix(1);
    constexpr std::size_t kMostDigits = 15;  // a spreadsheet keeps no more
    const bool digits = cell.find_first_not_of("0123456789") == cell.npos;
    return digits && !cell.empty() && cell.size() <= kMostDigits &&
           (cell.size() == 1 || cell.front() != '0');
}

Result<void> CsvTables::begin(const TableForm& form) {
    files_.emplace(form.name, TRY(folder_.open(name_in(form, ".csv"))));
    Cells header;
    for (const Column& column : form.columns) header.emplace_back(column.name);
    return row(form, header);
}

Result<void> CsvTables::row(const TableForm& form, const Cells& cells) {
    line_.clear();
    add_csv_row(line_, cells);
    return files_.at(form.name).write(line_);
}

Result<void> CsvTables::finish() {
    for (auto& [name, file] : files_) {
        TRY(folder_.close("tables/" + std::string(name) + ".csv", file));
    }
    return {};
}

Result<void> JsonTables::begin(const TableForm& form) {
    files_.emplace(form.name, TRY(folder_.open(name_in(form, ".jsonl"))));
    return {};
}

Result<void> JsonTables::row(const TableForm& form, const Cells& cells) {
    line_ = "{";
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (i > 0) line_ += ',';
        line_ += '"';
        line_ += form.columns[i].name;
        line_ += "\":";
        if (cells[i].empty()) {
            line_ += "null";
        } else if (form.columns[i].kind == CellKind::whole && is_whole_number(cells[i])) {
            line_ += cells[i];
        } else {
            add_json_text(line_, cells[i]);
        }
    }
    line_ += "}\n";
    return files_.at(form.name).write(line_);
}

Result<void> JsonTables::finish() {
    for (auto& [name, file] : files_) {
        TRY(folder_.close("tables/" + std::string(name) + ".jsonl", file));
    }
    return {};
}

}  // namespace holdpin
