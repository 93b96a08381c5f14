#include "cli/tag_folder.hpp"

#include <algorithm>
#include <filesystem>

#include "base/text.hpp"
#include "binder/papers_tag.hpp"
#include "cli/output.hpp"
#include "devices/bounded_run.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

TagPaper paper_of(const TagCard& card) {
    TagPaper paper;
    paper.code = card.code;
    paper.machine = card.machine;
    paper.reason = card.reason;
    paper.reason_english = card.reason_english;
    paper.date = card.date;
    paper.by = card.by;
    paper.entry = card.entry;
    paper.at_ms = card.issued_ms;
    return paper;
}

bool may_stand_in_a_name(char letter) {
    return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z') ||
           (letter >= '0' && letter <= '9') || letter == '-' || letter == '_';
}

ErrorKind kind_of(const std::error_code& failed) {
    if (failed == std::errc::no_space_on_device) return ErrorKind::full;
    if (failed == std::errc::read_only_file_system) return ErrorKind::read_only;
    return ErrorKind::failed;
}

}  // namespace

std::string tag_file_of(const TagCard& card) {
    std::string name = card.machine + "-" + card.code;
    std::replace_if(name.begin(), name.end(), [](char c) { return !may_stand_in_a_name(c); }, '-');
    return name + ".pdf";
}

// A printer that fails leaves the file, and says so to whoever reads the log of the kiosk.
Result<TagOut> TagFolder::put_out(const TagCard& card) {
    std::error_code failed;
    fs::create_directories(parts_.folder, failed);
    if (failed) return Error{kind_of(failed), failed.message(), parts_.folder, ""};
    TagOut out;
    out.file = tag_file_of(card);
    const std::string path = (fs::absolute(parts_.folder) / out.file).string();
    TRY(write_file(path, TRY(tag_pdf(paper_of(card), content_))));
    if (!has_printer()) return out;
    BoundedRun run;
    run.words = parts_.printer;
    run.words.push_back(path);
    run.time_ms = parts_.time_ms;
    const auto printed = run_bounded(run);
    out.printed = printed.ok();
    if (!printed) complain(printed.error());
    return out;
}

}  // namespace holdpin
