#include "cli/sheet_folder.hpp"

#include <fmt/format.h>
#include <stdlib.h>

#include <algorithm>
#include <filesystem>
#include <tuple>

#include "base/text.hpp"
#include "cli/jpeg_sheet.hpp"
#include "devices/bounded_run.hpp"
#include "picture/png.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostSheets = 500;
constexpr std::size_t kMostLetters = 60;  // of a name
constexpr std::uintmax_t kMostBytes = 32ULL << 20U;
constexpr int kMostPages = 500;
constexpr const char* kSide = "2000";  // pixels: read at the width of a tablet

std::string ending_of(const std::string& file) {
    std::string ending = fs::path(file).extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(), [](char letter) {
        return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    });
    return ending;
}

bool is_jpeg(std::string_view ending) { return ending == ".jpg" || ending == ".jpeg"; }

// How many bytes a code point has by its first one; 0: none begins so.
std::size_t length_by(unsigned char first) {
    if (first < 0x80) return 1;
    if (first < 0xC2) return 0;
    if (first < 0xE0) return 2;
    if (first < 0xF0) return 3;
    return first < 0xF5 ? 4 : 0;
}

// How many bytes the code point at the beginning has; 0: it is none.
std::size_t code_point_length(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const std::size_t length = length_by(byte(0));
    if (length > text.size()) return 0;
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xC0U) != 0x80U) return 0;
    }
    return length;
}

std::string can_be_shown(std::string_view text) {
    std::string shown;
    while (!text.empty() && code_points(shown) < kMostLetters) {
        const std::size_t length = code_point_length(text);
        const auto first = static_cast<unsigned char>(text.front());
        const bool control = first < 0x20 || first == 0x7F;
        if (text.front() == '_') {
            shown += ' ';
        } else if (length == 0 || control) {
            shown += '?';
        } else {
            shown += text.substr(0, length);
        }
        text.remove_prefix(std::max<std::size_t>(length, 1));
    }
    return shown;
}

Error not_drawn(const std::string& path, const std::string& what) {
    return {ErrorKind::invalid, what, path,
            "put a PDF, a JPEG or a PNG of at most 32 MB in its place"};
}

Result<DrawnSheet> as_it_is(const std::string& path) {
    const PngSize size = TRY(png_size(path));
    return DrawnSheet{path, size.width, size.height, 1, 1};
}

}  // namespace

DataSheet data_sheet_of(const std::string& file) {
    DataSheet sheet;
    sheet.id = file;
    std::string stem = fs::path(file).stem().string();
    const std::string language = fs::path(stem).extension().string();
    if (language == ".en" || language == ".es") {
        sheet.language = language.substr(1);
        stem.resize(stem.size() - language.size());
    }
    const std::size_t comma = stem.find(',');
    sheet.name = can_be_shown(std::string_view(stem).substr(0, comma));
    if (comma != std::string::npos) {
        sheet.kind = trimmed(can_be_shown(std::string_view(stem).substr(comma + 1)));
    }
    return sheet;
}

Result<void> copy_sheets(const std::string& site_path, const std::string& data_dir) {
    const fs::path to = fs::path(data_dir) / kSheetFolder;
    std::error_code failed;
    fs::create_directories(to, failed);
    const fs::path site(site_path);
    std::error_code no_matter;
    const fs::path from = (fs::is_directory(site, no_matter) ? site : site.parent_path()) /
                          kSheetFolder;
    for (const DataSheet& sheet : SheetFolder(from.string()).list()) {
        if (!failed) fs::copy_file(from / sheet.id, to / sheet.id, failed);
    }
    if (failed) return Error{ErrorKind::failed, failed.message(), to.string(), ""};
    return {};
}

SheetFolder::~SheetFolder() {
    std::error_code ignored;
    if (!place_.empty()) fs::remove_all(place_, ignored);
}

std::vector<DataSheet> SheetFolder::list() const {
    std::vector<DataSheet> sheets;
    std::error_code code;
    fs::directory_iterator at(folder_, code);
    for (const fs::directory_iterator end; !code && at != end && sheets.size() < kMostSheets;
         at.increment(code)) {
        std::error_code no_matter;
        const std::string file = at->path().filename().string();
        const std::string ending = ending_of(file);
        const bool regular = fs::is_regular_file(at->symlink_status(no_matter));
        const bool known = ending == ".pdf" || ending == ".png" || is_jpeg(ending);
        if (!regular || file.starts_with('.') || !known) continue;
        sheets.push_back(data_sheet_of(file));
    }
    std::sort(sheets.begin(), sheets.end(), [](const DataSheet& a, const DataSheet& b) {
        return std::tie(a.name, a.id) < std::tie(b.name, b.id);
    });
    return sheets;
}

Result<DrawnSheet> SheetFolder::draw(const std::string& id, int page) {
    const auto sheets = list();
    const bool listed = std::any_of(sheets.begin(), sheets.end(),
                                    [&](const DataSheet& sheet) { return sheet.id == id; });
    if (!listed) return Error{ErrorKind::absent, "there is no such data sheet", id, ""};
    const std::string path = (fs::absolute(folder_) / id).string();
    std::error_code failed;
    const auto size = fs::file_size(path, failed);
    if (failed || size > kMostBytes) return not_drawn(path, "the file is too large");
    if (ending_of(id) == ".png") return as_it_is(path);
    return is_jpeg(ending_of(id)) ? unpack_jpeg(path) : draw_pdf(path, page);
}

Result<void> SheetFolder::make_place() {
    if (!place_.empty()) return {};
    std::error_code failed;
    std::string name = (fs::temp_directory_path(failed) / "holdpin-sheet-XXXXXX").string();
    if (failed || ::mkdtemp(name.data()) == nullptr) {
        return Error{ErrorKind::failed, "no folder can be made for drawn pages", name, ""};
    }
    place_ = name;
    return {};
}

Result<int> SheetFolder::pages_of(const std::string& path) const {
    BoundedRun run;
    run.words = {programs_.info, path};
    run.output = place_ + "/info";
    run.time_ms = programs_.time_ms;
    TRY(run_bounded(run));
    for (const std::string& line : split(TRY(read_file(run.output)), '\n')) {
        constexpr std::string_view kPages = "Pages:";
        if (!line.starts_with(kPages)) continue;
        const auto pages = parse_decimal(trimmed(std::string_view(line).substr(kPages.size())));
        if (pages.ok() && pages.value() >= 1 && pages.value() <= kMostPages) {
            return static_cast<int>(pages.value());
        }
    }
    return not_drawn(path, "the number of its pages cannot be told");
}

void SheetFolder::drop_drawn() {
    std::error_code ignored;
    if (!drawn_.empty()) fs::remove(drawn_, ignored);
}

Result<DrawnSheet> SheetFolder::unpack_jpeg(const std::string& path) {
    TRY(make_place());
    drop_drawn();
    drawn_ = fmt::format("{}/page-{}.png", place_, ++count_);
    return draw_jpeg({programs_.unpack, path, place_ + "/unpacked", drawn_, programs_.time_ms});
}

Result<DrawnSheet> SheetFolder::draw_pdf(const std::string& path, int page) {
    TRY(make_place());
    drop_drawn();
    DrawnSheet drawn;
    drawn.pages = TRY(pages_of(path));
    drawn.page = std::clamp(page, 1, drawn.pages);
    const std::string number = std::to_string(drawn.page);
    const std::string picture = fmt::format("{}/page-{}", place_, ++count_);
    drawn_ = picture + ".png";
    BoundedRun run;
    run.words = {programs_.draw, "-png", "-singlefile", "-f", number, "-l", number,
                 "-scale-to", kSide, path, picture};
    run.time_ms = programs_.time_ms;
    TRY(run_bounded(run));
    const PngSize size = TRY(png_size(drawn_));
    drawn.png = drawn_;
    drawn.width = size.width;
    drawn.height = size.height;
    return drawn;
}

}  // namespace holdpin
