#include "binder/export.hpp"

#include <map>

#include "base/new_dir.hpp"
#include "base/sha256.hpp"
#include "base/text.hpp"
#include "binder/tables.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kReadMe =
    "Records of the site \"{site}\", kiosk {kiosk}: entries 1 to {size}.\n"
    "\n"
    "entries.csv    every entry: when, what, by whom\n"
    "rounds.csv     signed rounds; readings.csv has each of their readings\n"
    "findings.csv   findings, and what was decided, repaired and checked\n"
    "releases.csv   machines handed over and given back, overrides\n"
    "training.csv   guides, quizzes, practice, evaluations, authorisations\n"
    "people.csv     who is enrolled, with names; an erased name leaves its cell empty\n"
    "entries.jsonl  one entry a line, exactly the bytes that were hashed\n"
    "SHA256SUMS     the sums of these files\n"
    "\n"
    "To check the files:    sha256sum --check SHA256SUMS\n"
    "To check the entries:  the leaf of a line is SHA-256 of the byte 00 and the line without\n"
    "its line feed; the leaves make the Merkle tree of RFC 6962, section 2.1. Its root is\n"
    "{root}\n"
    "\n"
    "Tables are RFC 4180, UTF-8. A cell that a spreadsheet would take for a formula begins\n"
    "with an apostrophe; entries.jsonl has it as it was. Times are UTC; \"local\" is what the\n"
    "site's clock showed. The tables are drawn from the entries and prove nothing by themselves.\n";

std::string filled(std::string_view pattern,
                   const std::map<std::string_view, std::string>& values) {
    std::string text(pattern);
    for (const auto& [name, value] : values) {
        const std::string braced = "{" + std::string(name) + "}";
        const auto at = text.find(braced);
        if (at != text.npos) text.replace(at, braced.size(), value);
    }
    return text;
}

std::string sums_of(const std::map<std::string, std::string>& files) {
    std::string sums;
    for (const auto& [name, bytes] : files) sums += hex(sha256(bytes)) + "  " + name + "\n";
    return sums;
}

}  // namespace

Result<ExportReport> export_records(Database& db, Ledger& ledger, const std::string& out_dir) {
    RecordTables tables(db);
    std::string bodies;
    const auto size = static_cast<std::int64_t>(ledger.size());
    TRY(ledger.each(1, size, [&](const Entry& entry) -> Result<void> {
        bodies += TRY(entry_body(entry)) + "\n";
        return tables.add(entry);
    }));
    ExportReport report{ledger.size(), hex(ledger.root()), {}};
    auto files = tables.files();
    files["entries.jsonl"] = std::move(bodies);
    files["README.txt"] = filled(kReadMe, {{"site", ledger.place().site},
                                           {"kiosk", ledger.place().kiosk},
                                           {"size", std::to_string(size)},
                                           {"root", report.root}});
    files["SHA256SUMS"] = sums_of(files);

    NewDir folder = TRY(NewDir::beside(out_dir));
    for (const auto& [name, bytes] : files) {
        TRY(write_file(folder.path() + "/" + name, bytes));
        report.files.push_back(name);
    }
    TRY(folder.take_place());
    return report;
}

}  // namespace holdpin
