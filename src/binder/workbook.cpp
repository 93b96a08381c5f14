#include "binder/workbook.hpp"

#include <xlsxwriter.h>

#include <cerrno>
#include <charconv>
#include <cstring>

#include "binder/table_sinks.hpp"

namespace holdpin {
namespace {

constexpr std::uint32_t kMostRows = LXW_ROW_MAX;  // the header among them
constexpr std::size_t kMostText = 32'767;         // letters in a cell
constexpr double kColumnWidth = 18;

Error failure(lxw_error code, const std::string& path) {
    const bool full = errno == ENOSPC || errno == EDQUOT || errno == EFBIG;
    const std::string why = full ? std::strerror(errno) : lxw_strerror(code);
    return {full ? ErrorKind::full : ErrorKind::failed, "cannot write the workbook: " + why, path,
            full ? "make room there, or name another place" : ""};
}

std::time_t unix_time(std::int64_t at_ms) { return std::time_t{at_ms / 1000}; }

// At most `most` bytes, and no letter cut in two.
std::string shortened(const std::string& text, std::size_t most) {
    std::size_t end = most;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    return text.substr(0, end);
}

}  // namespace

Workbook::Workbook(const Place& place) : place_(place) {}

Result<std::unique_ptr<Workbook>> Workbook::open(const Place& place) {
    std::unique_ptr<Workbook> book(new Workbook(place));
    lxw_workbook_options options{};
    options.constant_memory = LXW_TRUE;
    options.tmpdir = book->place_.temp_dir.data();
    book->book_ = workbook_new_opt(book->place_.path.c_str(), &options);
    if (book->book_ == nullptr) return failure(LXW_ERROR_MEMORY_MALLOC_FAILED, place.path);
    lxw_doc_properties properties{};
    char title[] = "Records of a kiosk";
    properties.title = title;
    properties.created = unix_time(place.now_ms);
    workbook_set_properties(book->book_, &properties);
    book->bold_ = workbook_add_format(book->book_);
    format_set_bold(book->bold_);
    book->about_ = workbook_add_worksheet(book->book_, "about");
    if (book->about_ == nullptr) return failure(LXW_ERROR_CREATING_TMPFILE, place.path);
    worksheet_set_column(book->about_, 0, 1, 2 * kColumnWidth, nullptr);
    return book;
}

Workbook::~Workbook() {
    // Not closed: nothing of it is wanted.
    if (book_ != nullptr) lxw_workbook_free(book_);
}

void Workbook::tell(const std::string& what, const std::string& value) {
    worksheet_write_string(about_, about_rows_, 0, what.c_str(), bold_);
    worksheet_write_string(about_, about_rows_, 1, value.c_str(), nullptr);
    ++about_rows_;
}

Result<void> Workbook::begin(const TableForm& form) {
    if (!form.in_workbook) return {};
    Sheet made;
    made.sheet = workbook_add_worksheet(book_, std::string(form.name).c_str());
    if (made.sheet == nullptr) return failure(LXW_ERROR_CREATING_TMPFILE, place_.path);
    const auto last = static_cast<lxw_col_t>(form.columns.size() - 1);
    worksheet_set_column(made.sheet, 0, last, kColumnWidth, nullptr);
    worksheet_freeze_panes(made.sheet, 1, 1);
    for (std::size_t i = 0; i < form.columns.size(); ++i) {
        worksheet_write_string(made.sheet, 0, static_cast<lxw_col_t>(i),
                               std::string(form.columns[i].name).c_str(), bold_);
    }
    made.rows = 1;
    sheets_[form.name] = made;
    return {};
}

Result<void> Workbook::write(Sheet& sheet, std::size_t column, const std::string& cell,
                             bool whole) {
    const auto at = static_cast<lxw_col_t>(column);
    lxw_error code = LXW_NO_ERROR;
    if (whole && is_whole_number(cell)) {
        std::int64_t value = 0;
        std::from_chars(cell.data(), cell.data() + cell.size(), value);
        code = worksheet_write_number(sheet.sheet, sheet.rows, at, static_cast<double>(value),
                                      nullptr);
    } else if (cell.size() > kMostText) {
        code = worksheet_write_string(sheet.sheet, sheet.rows, at,
                                      shortened(cell, kMostText).c_str(), nullptr);
    } else if (!cell.empty()) {
        code = worksheet_write_string(sheet.sheet, sheet.rows, at, cell.c_str(), nullptr);
    }
    return code == LXW_NO_ERROR ? Result<void>{} : failure(code, place_.path);
}

Result<void> Workbook::row(const TableForm& form, const Cells& cells) {
    const auto known = sheets_.find(form.name);
    if (known == sheets_.end()) return {};
    Sheet& sheet = known->second;
    if (sheet.rows >= kMostRows) {
        sheet.cut = true;
        return {};
    }
    for (std::size_t i = 0; i < cells.size(); ++i) {
        TRY(write(sheet, i, cells[i], form.columns[i].kind == CellKind::whole));
    }
    ++sheet.rows;
    return {};
}

Result<void> Workbook::finish() {
    for (const auto& [name, sheet] : sheets_) {
        const std::string rows = std::to_string(sheet.rows - 1) + " rows";
        const char* more = sheet.cut ? "; a sheet holds no more, the CSV has all" : "";
        tell(std::string(name), rows + more);
    }
    errno = 0;
    const lxw_error code = workbook_close(std::exchange(book_, nullptr));
    return code == LXW_NO_ERROR ? Result<void>{} : failure(code, place_.path);
}

}  // namespace holdpin
