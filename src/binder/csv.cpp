#include "binder/csv.hpp"

#include <algorithm>

namespace holdpin {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

bool is_formula(std::string_view cell) {
    // The characters that OWASP's page on CSV injection lists, from memory.
    constexpr std::string_view kBegin = "=+-@\t\r";
    return !cell.empty() && kBegin.find(cell.front()) != kBegin.npos;
}

// "-12.5" may stand as it is: a spreadsheet shows it as it is written.
bool is_plain_number(std::string_view cell) {
    if (cell.starts_with('-')) cell.remove_prefix(1);
    return !cell.empty() && cell.find_first_not_of("0123456789.") == cell.npos;
}

bool needs_quotes(char c) { return c == ',' || c == '"' || c == '\r' || c == '\n'; }

void add_cell(std::string& text, std::string_view cell) {
    const bool shielded = is_formula(cell) && !is_plain_number(cell);
    if (std::none_of(cell.begin(), cell.end(), needs_quotes)) {
        if (shielded) text += '\'';
        text += cell;
        return;
    }
    text += shielded ? "\"'" : "\"";
    for (const char c : cell) {
        if (c == '"') text += '"';
        text += c;
    }
    text += '"';
}

Error bad_csv(int line, std::string what) {
    return {ErrorKind::invalid, std::move(what), "line " + std::to_string(line),
            "write the table as RFC 4180 says"};
}

// Reads one cell after another; rows end where lines do, except inside quotes.
class CsvScanner {
  public:
    explicit CsvScanner(std::string_view text) : text_(text) {}

    bool at_end() const { return at_ == text_.size(); }

    Result<CsvRow> row() {
        CsvRow row{line_, {}};
        row.cells.push_back(TRY(cell()));
        while (!at_end() && text_[at_] == ',') {
            ++at_;
            row.cells.push_back(TRY(cell()));
        }
        if (!at_end() && text_[at_] == '\r') ++at_;
        if (!at_end() && text_[at_] != '\n') return bad_csv(line_, "a line ends in the wrong way");
        if (!at_end()) ++at_;
        ++line_;
        return row;
    }

  private:
    Result<std::string> cell() {
        if (!at_end() && text_[at_] == '"') return quoted();
        const std::size_t end = std::min(text_.find_first_of(",\r\n\"", at_), text_.size());
        if (end < text_.size() && text_[end] == '"') {
            return bad_csv(line_, "a quotation mark stands inside an unquoted cell");
        }
        std::string found(text_.substr(at_, end - at_));
        at_ = end;
        return found;
    }

    Result<std::string> quoted() {
        const int first_line = line_;
        std::string found;
        for (++at_; !at_end(); ++at_) {
            if (text_[at_] == '\n') ++line_;
            if (text_[at_] != '"') {
                found += text_[at_];
            } else if (text_.substr(at_, 2) == "\"\"") {
                found += text_[at_++];
            } else {
                ++at_;
                return found;
            }
        }
        return bad_csv(first_line, "a quotation mark is never closed");
    }

    std::string_view text_;
    std::size_t at_ = 0;
    int line_ = 1;
};

}  // namespace

void add_csv_row(std::string& text, const std::vector<std::string>& cells) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (i > 0) text += ',';
        add_cell(text, cells[i]);
    }
    text += "\r\n";
}

Result<std::vector<CsvRow>> read_csv(std::string_view text) {
    if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
    CsvScanner scanner(text);
    std::vector<CsvRow> rows;
    while (!scanner.at_end()) {
        CsvRow row = TRY(scanner.row());
        const bool blank = row.cells.size() == 1 && row.cells.front().empty();
        if (!blank) rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace holdpin
