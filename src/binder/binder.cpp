#include "binder/binder.hpp"

#include <filesystem>
#include <map>
#include <set>

#include "base/new_dir.hpp"
#include "base/text.hpp"
#include "base_json/values.hpp"
#include "binder/calendar.hpp"
#include "binder/currency.hpp"
#include "binder/folder.hpp"
#include "binder/how_to_check.hpp"
#include "binder/statements.hpp"
#include "binder/table_sinks.hpp"
#include "binder/workbook.hpp"
#include "binder/zip.hpp"
#include "ledger/base64.hpp"
#include "ledger/seal.hpp"
#include "ledger/time_stamp.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

constexpr int kAll = 1000;          // of progress: thousandths
constexpr int kEntriesDone = 300;   // printing takes longer than all else
constexpr int kPapersDone = 900;
constexpr std::int64_t kAskEvery = 256;  // entries between two questions whether to go on

// The zip while it grows; gone unless it was put in its place.
struct GrowingFile {
    std::string path;
    ~GrowingFile() {
        std::error_code ignored;
        fs::remove(path, ignored);
    }
};

Result<void> refuse_what_is_there(const std::string& out, bool zip) {
    std::error_code failed;
    if (!fs::exists(out, failed)) return {};
    if (!zip && fs::is_directory(out, failed) && fs::is_empty(out, failed)) return {};
    return Error{ErrorKind::refused, "there is something here already", out,
                 "name something that does not exist yet"};
}

// Whatever is named by how many entries it covers.
std::string sized_name(const char* folder, std::uint64_t size, const std::string& ending) {
    const std::string digits = std::to_string(size);
    return folder + std::string(digits.size() < 10 ? 10 - digits.size() : 0, '0') + digits + ending;
}

std::string words_for(const BinderScope& scope) {
    std::string words = "Tables and papers are about ";
    words += scope.person.empty() && scope.machine.empty() ? "everything" : "";
    if (!scope.person.empty()) words += "the person " + scope.person;
    if (!scope.machine.empty()) {
        words += (scope.person.empty() ? "the machine " : " and the machine ") + scope.machine;
    }
    if (scope.from) words += ", from " + iso_date(*scope.from);
    if (scope.to) words += ", to " + iso_date(*scope.to);
    return words + ".";
}

class Maker {
  public:
    Maker(const BinderSources& sources, const BinderScope& scope, const BinderProgress& progress,
          const std::string& path)
        : sources_(sources),
          scope_(scope),
          progress_(progress),
          folder_(path),
          lookup_(sources.db, sources.content),
          csv_(folder_),
          json_(folder_),
          currency_(lookup_, scope_,
                    scope.to.value_or(sources.zone.local(sources.now_ms).date)) {}

    Result<BinderSummary> make() {
        summary_.sealed = TRY(newest_sealed_size(sources_.db));
        TRY(write_entries());
        TRY(write_dates());
        TRY(write_seals());
        TRY(write_damaged());
        TRY(write_shown());
        TRY(write_papers());
        TRY(write_sums());
        summary_.files = folder_.size() + 2;
        return summary_;
    }

    bool go_on(int done) const { return progress_ == nullptr || progress_(done, kAll); }

  private:
    Result<void> write_entries();
    Result<void> take_in(const StoredEntry& row);
    Result<void> write_tables_end();
    Result<void> write_dates();
    Result<void> write_seals();
    Result<void> write_damaged();
    void note_shown(const Entry& entry);
    void note_stamp(const Entry& entry);
    Result<void> write_shown();
    Result<void> write_papers();
    Result<void> write_sums();
    Result<void> refuse_strangers();
    Result<std::string> sealed_words();

    const BinderSources& sources_;
    const BinderScope& scope_;
    const BinderProgress& progress_;
    BinderFolder folder_;
    Lookup lookup_;
    CsvTables csv_;
    JsonTables json_;
    std::unique_ptr<Workbook> workbook_;
    std::unique_ptr<Tables> tables_;
    Currency currency_;
    Frontier tree_;
    std::optional<OutFile> entries_;
    std::optional<OutFile> training_;
    bool any_training_ = false;
    std::set<std::string> shown_;  // digests of what was on the screen
    std::map<std::uint64_t, std::vector<std::string>> stamps_;  // replies, by size of the seal
    BinderSummary summary_;
};

Result<void> Maker::write_entries() {
    workbook_ = TRY(Workbook::open(
        {folder_.path() + "/records.xlsx", folder_.path(), sources_.now_ms}));
    tables_ = std::make_unique<Tables>(
        lookup_, scope_, std::vector<TableSink*>{&csv_, &json_, workbook_.get()});
    TRY(tables_->begin());
    entries_.emplace(TRY(folder_.open("entries.jsonl")));
    training_.emplace(TRY(folder_.open("training.xapi.json")));
    TRY(training_->write("["));
    TRY(each_stored(sources_.db, [this](const StoredEntry& row) { return take_in(row); }));
    TRY(refuse_strangers());
    TRY(training_->write("\n]\n"));
    TRY(folder_.close("training.xapi.json", *training_));
    TRY(folder_.close("entries.jsonl", *entries_));
    return write_tables_end();
}

Result<void> Maker::take_in(const StoredEntry& row) {
    if (row.n % kAskEvery == 0) {
        const auto size = static_cast<std::int64_t>(sources_.ledger.size());
        if (!go_on(static_cast<int>(row.n * kEntriesDone / std::max(size, row.n)))) {
            return cancelled();
        }
    }
    tree_.append(row.leaf);
    if (row.body.empty()) {
        ++summary_.purged;
        return entries_->write("{\"n\":" + std::to_string(row.n) + ",\"leaf\":\"" + hex(row.leaf) +
                               "\"}\n");
    }
    TRY(entries_->write(row.body));
    TRY(entries_->write("\n"));
    const Entry entry = TRY(entry_of_trusted(row.body));
    TRY(tables_->add(entry));
    currency_.learn(entry);
    note_stamp(entry);
    if (!is_in_scope(entry, scope_)) return {};
    note_shown(entry);
    const auto statement = statement_of(entry, row.leaf, sources_.content.pack);
    if (!statement) return {};
    TRY(training_->write(std::exchange(any_training_, true) ? ",\n" : "\n"));
    return training_->write(*statement);
}

// A slip of the finger in an id would give a binder that says: nothing was recorded.
Result<void> Maker::refuse_strangers() {
    if (!scope_.person.empty() && !lookup_.knows_person(scope_.person)) {
        return Error{ErrorKind::absent, "nobody with this id was ever enrolled", scope_.person,
                     "give the id as it stands in tables/people.csv"};
    }
    if (!scope_.machine.empty() && !lookup_.knows_machine(scope_.machine)) {
        return Error{ErrorKind::absent, "no machine with this plate was ever enrolled",
                     scope_.machine, "give the plate as it stands on the machine"};
    }
    return {};
}

Result<void> Maker::write_tables_end() {
    TRY(currency_.write_rows(*tables_));
    summary_.entries = tree_.size();
    summary_.root = hex(tree_.root());
    workbook_->tell("site", sources_.content.site.id);
    workbook_->tell("kiosk", sources_.key.kiosk_id());
    workbook_->tell("entries", std::to_string(summary_.entries));
    workbook_->tell("root", summary_.root);
    workbook_->tell("made", utc_text(sources_.now_ms));
    workbook_->tell("about", words_for(scope_));
    TRY(tables_->finish());
    return folder_.note("records.xlsx");
}

Result<void> Maker::write_dates() {
    const CalendarPlace place{sources_.key.kiosk_id(), sources_.now_ms};
    return folder_.put({"due.ics", calendar_text(currency_.due_dates(), place)});
}

void Maker::note_stamp(const Entry& entry) {
    if (entry.kind != "seal-stamped") return;
    const auto reply = from_base64(text_of(entry.data, "reply"));
    if (!reply) return;
    stamps_[static_cast<std::uint64_t>(number_of(entry.data, "size"))].emplace_back(
        reply->begin(), reply->end());
}

// The last of each day (UTC), those that were stamped, and the newest: a seal covers all before it.
Result<void> Maker::write_seals() {
    std::optional<Seal> held;
    const auto put = [&](const Seal& seal) {
        return folder_.put({sized_name("seals/", seal.size, ".json"), seal_body(seal) + "\n"});
    };
    TRY(each_seal(sources_.db, [&](const Seal& seal) -> Result<void> {
        const bool day_over = held && held->time.substr(0, 10) != seal.time.substr(0, 10);
        if (held && (day_over || stamps_.contains(held->size))) TRY(put(*held));
        held = seal;
        return {};
    }));
    if (held) TRY(put(*held));
    for (const auto& [size, replies] : stamps_) {
        if (!TRY(seal_over(sources_.db, size))) continue;
        for (std::size_t i = 0; i < replies.size(); ++i) {
            const std::string ending = i == 0 ? ".tsr" : "-" + std::to_string(i + 1) + ".tsr";
            TRY(folder_.put({sized_name("stamps/", size, ending), replies[i]}));
        }
    }
    return folder_.put({"key.pem", public_key_pem(sources_.key.public_key)});
}

// Whoever reads "erased" in a table or a paper can look here whether it was.
Result<void> Maker::write_damaged() {
    summary_.damaged = TRY(damaged_texts(sources_.db));
    if (summary_.damaged.empty()) return {};
    std::string lines = "Shown as erased in tables and papers, and not erased by anybody:\n";
    for (const DamagedText& text : summary_.damaged) {
        lines += text.hash + ": " + damaged_sentence(text) + "\n";
    }
    return folder_.put({"damaged-texts.txt", lines});
}

// A binder about everything has the history of the content too, shown or not.
void Maker::note_shown(const Entry& entry) {
    if (!entry.content.empty()) shown_.insert(entry.content);
    const auto items = entry.data.find("items");
    if (entry.kind != "content-adopted" || items == entry.data.end()) return;
    for (const auto& [item, digest] : items->items()) {
        if (digest.is_string() && digest != "") shown_.insert(digest.get<std::string>());
    }
}

// What was on the screen, in its own words and years later too: the sum of a file is its name, and
// entries name it. What was never kept, or was damaged since, is not there.
Result<void> Maker::write_shown() {
    for (const std::string& digest : shown_) {
        const auto kept = content_of(sources_.db, digest);
        if (!kept.ok() && kept.error().kind != ErrorKind::damaged) return kept.error();
        if (!kept.ok() || !kept.value()) continue;
        const bool statement = !kept.value()->starts_with('{');
        TRY(folder_.put({std::string(kShownFolder) + digest + (statement ? ".txt" : ".json"),
                         *kept.value()}));
    }
    return {};
}

Result<void> Maker::write_papers() {
    const int each = (kPapersDone - kEntriesDone) /
                     std::max(static_cast<int>(sources_.writers.size()), 1);
    int from = kEntriesDone;
    const BinderProgress progress = [&](int done, int total) {
        return go_on(from + each * done / std::max(total, 1));
    };
    const BinderMaterial material{sources_.db,  sources_.ledger, sources_.content, sources_.zone,
                                  sources_.key, scope_,          sources_.now_ms,  progress};
    const BinderSink sink = [this](const BinderFile& file) { return folder_.put(file); };
    for (const BinderWriter& writer : sources_.writers) {
        if (!go_on(from)) return cancelled();
        TRY(writer(material, sink));
        from += each;
    }
    return go_on(kPapersDone) ? Result<void>{} : cancelled();
}

Result<std::string> Maker::sealed_words() {
    const auto newest = TRY(newest_seal(sources_.db));
    if (!newest) return std::string("there is none");
    return newest->time + ", over " + std::to_string(newest->size) + " entries";
}

Result<void> Maker::write_sums() {
    const HowToFacts facts{sources_.ledger.place().site,
                           sources_.key.kiosk_id(),
                           std::to_string(summary_.entries),
                           std::to_string(summary_.purged),
                           summary_.root,
                           TRY(sealed_words()),
                           utc_text(sources_.now_ms),
                           words_for(scope_)};
    TRY(folder_.put({"HOW-TO-CHECK.md", how_to_check(facts)}));
    TRY(folder_.put({"CUSTODY.md", custody_page(facts)}));
    const std::string sums = folder_.sums();
    const Bytes signature = sign(sources_.key, Bytes(sums.begin(), sums.end()));
    TRY(write_file(folder_.path() + "/SHA256SUMS", sums));
    return write_file(folder_.path() + "/SHA256SUMS.sig",
                      std::string(signature.begin(), signature.end()));
}

Result<void> put_zip(const std::string& dir, const std::string& out, std::int64_t now_ms,
                     const std::function<bool()>& go_on) {
    const GrowingFile zip{dir + ".zip"};
    TRY(zip_folder(dir, zip.path, now_ms, go_on));
    TRY(refuse_what_is_there(out, true));
    std::error_code failed;
    fs::rename(zip.path, out, failed);
    if (failed) return Error{ErrorKind::failed, failed.message(), out, ""};
    return {};
}

}  // namespace

Result<BinderSummary> make_binder(const BinderSources& sources, const BinderScope& scope,
                                  const std::string& out, const BinderProgress& progress) {
    const bool zip = out.ends_with(".zip");
    if (scope.from && scope.to && *scope.to < *scope.from) {
        return Error{ErrorKind::invalid, "the last day is before the first", iso_date(*scope.to),
                     ""};
    }
    TRY(refuse_what_is_there(out, zip));
    NewDir folder = TRY(NewDir::beside(out));
    Maker maker(sources, scope, progress, folder.path());
    const BinderSummary summary = TRY(maker.make());
    if (zip) {
        TRY(put_zip(folder.path(), out, sources.now_ms,
                    [&] { return maker.go_on(kPapersDone); }));
    } else {
        TRY(folder.take_place());
    }
    maker.go_on(kAll);
    return summary;
}

}  // namespace holdpin
