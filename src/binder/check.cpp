#include "binder/check.hpp"

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <map>
#include <set>

#include "base/new_dir.hpp"
#include "base/text.hpp"
#include "binder/folder.hpp"
#include "binder/row_numbers.hpp"
#include "binder/zip.hpp"
#include "ledger/purged.hpp"
#include "ledger/seal.hpp"
#include "ledger/time_stamp.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kStamps = "stamps/";
constexpr const char* kSums = "SHA256SUMS";
constexpr const char* kSignature = "SHA256SUMS.sig";
constexpr std::size_t kDigits = 64;
constexpr std::int64_t kAskWhileChecking = 256;

Error wrong(const std::string& file, std::string what) {
    return {ErrorKind::damaged, std::move(what), file, ""};
}

std::string entry_word(std::int64_t n) { return "entry " + std::to_string(n); }

// Of "stamps/0000012084.tsr", or "stamps/0000012084-2.tsr"; 0 for any other name.
std::uint64_t size_in(std::string_view name) {
    constexpr std::size_t kSizeDigits = 10;
    name.remove_prefix(kStamps.size());
    const auto end = std::min(name.find_first_not_of("0123456789"), name.size());
    std::uint64_t size = 0;
    const auto read = std::from_chars(name.data(), name.data() + end, size);
    const std::string_view rest = name.substr(end);
    const bool further = rest.size() > 5 && rest[0] == '-' && rest.ends_with(".tsr") &&
                         rest.find_first_not_of("0123456789", 1) == rest.size() - 4;
    const bool padded = end == kSizeDigits || (end > kSizeDigits && name[0] != '0');
    const bool formed = padded && read.ec == std::errc() &&
                        (rest == ".tsr" || further);
    return formed ? size : 0;
}

class Checker {
  public:
    Checker(const BinderFiles& files, const BinderProgress& progress, const BinderNoted& noted)
        : files_(files), progress_(progress), noted_(noted) {}

    Result<CheckedBinder> check() {
        TRY(read_key());
        TRY(check_sums());
        TRY(refuse_unlisted());
        TRY(read_seals());
        TRY(check_stamps());
        TRY(check_entries());
        TRY(check_rows());
        return found_;
    }

  private:
    Result<std::unique_ptr<std::istream>> opened(const std::string& name) const {
        auto file = files_.open(name);
        if (file == nullptr) return wrong(name, "is missing");
        if (!*file) return wrong(name, "cannot be read");
        return file;
    }
    Result<std::string> text_of(const std::string& name) const {
        auto text = whole_text(*TRY(opened(name)));
        if (!text) return wrong(name, text.error().what);
        return text;
    }
    Result<void> ask(int done) const {
        if (progress_ == nullptr || progress_(done, 100)) return {};
        return Error{ErrorKind::refused, "the check was cancelled", "", ""};
    }

    Result<void> read_key();
    Result<void> check_sums();
    Result<void> check_sum(const std::string& line);
    Result<void> refuse_unlisted();
    Result<void> read_seals();
    Result<void> check_stamps();
    // Streamed, since it may be long. Stops at the first error of `take`.
    Result<void> each_line(const std::string& name,
                           const std::function<Result<void>(const std::string& line)>& take) const;
    Result<void> check_entries();
    Result<void> take_entry(const std::string& line);
    Result<Hash> leaf_of(const std::string& line, std::int64_t n);
    Result<void> check_witnesses() const;
    Result<void> note_purged(const Entry& entry);
    Result<void> check_rows();
    Result<void> check_number(const std::string& name, std::int64_t n) const;

    const BinderFiles& files_;
    const BinderProgress& progress_;
    const BinderNoted& noted_;
    Bytes key_;
    std::set<std::string> listed_;
    std::map<std::uint64_t, Seal> seals_;
    Frontier tree_;
    std::vector<bool> purged_;   // by number - 1
    std::vector<bool> unsaid_;   // purged, and no entry has said so yet
    CheckedBinder found_;
};

Result<void> Checker::read_key() {
    auto key = public_key_from_pem(TRY(text_of("key.pem")));
    if (!key) return wrong("key.pem", key.error().what);
    key_ = std::move(key).value();
    KioskKey as_key;
    as_key.public_key = key_;
    found_.kiosk = as_key.kiosk_id();
    if (noted_.kiosk.empty() || noted_.kiosk == found_.kiosk) return {};
    return wrong("key.pem", "is the key of kiosk " + found_.kiosk + ", and the number that was "
                            "noted is " + noted_.kiosk);
}

Result<void> Checker::check_sums() {
    const std::string sums = TRY(text_of(kSums));
    const std::string signature = TRY(text_of(kSignature));
    if (!signature_holds(key_, Bytes(sums.begin(), sums.end()),
                         Bytes(signature.begin(), signature.end()))) {
        return wrong(kSums, "is not signed with key.pem");
    }
    for (const auto& line : split(sums, '\n')) {
        if (!line.empty()) TRY(check_sum(line));
    }
    found_.files = listed_.size() + 2;
    return {};
}

Result<void> Checker::check_sum(const std::string& line) {
    const bool formed = line.size() > kDigits + 2 && line.substr(kDigits, 2) == "  ";
    const std::string name = formed ? line.substr(kDigits + 2) : "";
    if (!is_binder_name(name)) return wrong(kSums, "holds a line that is no sum of a file");
    TRY(ask(0));
    const auto sum = sum_of(*TRY(opened(name)));
    if (!sum) return wrong(name, "cannot be read");
    if (sum.value() != line.substr(0, kDigits)) return wrong(name, "was changed");
    const bool shown = name.starts_with(kShownFolder);
    if (shown && !name.starts_with(std::string(kShownFolder) + sum.value() + ".")) {
        return wrong(name, "is not what its name says that was shown");
    }
    listed_.insert(name);
    return {};
}

Result<void> Checker::refuse_unlisted() {
    for (const auto& name : files_.names) {
        if (name != kSums && name != kSignature && !listed_.contains(name)) {
            return wrong(name, "does not belong here: SHA256SUMS does not list it");
        }
    }
    for (const char* name : {"entries.jsonl", "key.pem", "HOW-TO-CHECK.md"}) {
        if (!listed_.contains(name)) return wrong(kSums, std::string("does not list ") + name);
    }
    return {};
}

Result<void> Checker::read_seals() {
    for (const auto& name : listed_) {
        if (!name.starts_with("seals/")) continue;
        auto seal = seal_from(trimmed(TRY(text_of(name))));
        if (!seal) return wrong(name, seal.error().what);
        if (seal.value().kiosk != found_.kiosk || !seal_holds(seal.value(), key_)) {
            return wrong(name, "is not signed with key.pem");
        }
        seals_.emplace(seal.value().size, seal.value());
    }
    found_.seals = seals_.size();
    return {};
}

// Who stamped is for openssl and the authority's certificate; here, that it was this very seal.
Result<void> Checker::check_stamps() {
    for (const auto& name : listed_) {
        if (!name.starts_with(kStamps)) continue;
        TRY(ask(40));
        const auto seal = seals_.find(size_in(name));
        const auto stamp = stamp_from(TRY(text_of(name)));
        if (!stamp) return wrong(name, stamp.error().what);
        if (seal == seals_.end() || stamped_digest(seal->second) != stamp.value().digest) {
            return wrong(name, "is not over the seal that its name says");
        }
        ++found_.stamps;
    }
    return {};
}

Result<Hash> Checker::leaf_of(const std::string& line, std::int64_t n) {
    const auto stub = nlohmann::json::parse(line, nullptr, false);
    const bool is_stub = stub.is_object() && stub.size() == 2 && stub.contains("leaf");
    purged_.push_back(is_stub);
    unsaid_.push_back(is_stub);
    if (!is_stub) {
        const auto entry = entry_from(line);
        if (!entry) return wrong("entries.jsonl", entry_word(n) + ": " + entry.error().what);
        if (entry.value().n != n) return wrong("entries.jsonl", entry_word(n) + " is missing");
        if (entry.value().kiosk != found_.kiosk) {
            return wrong("entries.jsonl", entry_word(n) + " was entered by kiosk " +
                                              entry.value().kiosk + ", and the key is of " +
                                              found_.kiosk);
        }
        if (!signature_is_bound(entry.value(), line)) {
            return wrong("entries.jsonl", "the signature in " + entry_word(n) +
                                              " was made for another record");
        }
        TRY(note_purged(entry.value()));
        return leaf_hash(Bytes(line.begin(), line.end()));
    }
    ++found_.purged;
    const auto& leaf = stub["leaf"];
    const auto bytes = leaf.is_string() ? unhex(leaf.get<std::string>()) : Result<Bytes>(Bytes());
    Hash hash{};
    if (!bytes || bytes.value().size() != hash.size() || stub.value("n", nlohmann::json()) != n) {
        return wrong("entries.jsonl", entry_word(n) + " is neither an entry nor its leaf");
    }
    std::copy(bytes.value().begin(), bytes.value().end(), hash.begin());
    return hash;
}

// A kiosk names each body once. To accept more would let a binder be made that is never read to
// its end.
Result<void> Checker::note_purged(const Entry& entry) {
    for (const auto& [first, last] : purged_by(entry, key_)) {
        for (auto n = std::max<std::int64_t>(first, 1); n <= last; ++n) {
            const auto at = static_cast<std::size_t>(n) - 1;
            if (!unsaid_[at]) {
                return wrong("entries.jsonl", entry_word(entry.n) + " says that " +
                                                  entry_word(n) + " was purged, which stands " +
                                                  "or was named before");
            }
            unsaid_[at] = false;
        }
    }
    return {};
}

Result<void> Checker::take_entry(const std::string& line) {
    const auto n = static_cast<std::int64_t>(tree_.size()) + 1;
    if (n % kAskWhileChecking == 0) TRY(ask(50));
    tree_.append(TRY(leaf_of(line, n)));
    TRY(check_witnesses());
    const auto seal = seals_.find(tree_.size());
    if (seal != seals_.end() && seal->second.root != tree_.root()) {
        return wrong("entries.jsonl", "entries 1 to " + std::to_string(n) +
                                          " are not those that the seal of " + seal->second.time +
                                          " covers");
    }
    return {};
}

// Of those for as many entries as were read up to now.
Result<void> Checker::check_witnesses() const {
    for (const Witness& noted : noted_.witnesses) {
        if (noted.size != tree_.size()) continue;
        const std::string code = witness_code(tree_.size(), tree_.root());
        if (code == noted.code) continue;
        return wrong("entries.jsonl", "the first " + std::to_string(tree_.size()) +
                                          " entries give the witness code " + code +
                                          ", and the shift book has " + noted.code);
    }
    return {};
}

Result<void> Checker::each_line(
    const std::string& name,
    const std::function<Result<void>(const std::string& line)>& take) const {
    const auto file = TRY(opened(name));
    std::string line;
    for (;;) {
        const auto more = next_line(*file, line);
        if (!more) return wrong(name, more.error().what);
        if (!more.value()) return {};
        TRY(take(line));
    }
}

Result<void> Checker::check_entries() {
    TRY(each_line("entries.jsonl", [&](const std::string& line) { return take_entry(line); }));
    found_.entries = tree_.size();
    found_.root = hex(tree_.root());
    for (const Witness& noted : noted_.witnesses) {
        if (noted.size >= 1 && noted.size <= tree_.size()) continue;
        return wrong("entries.jsonl", "there are " + std::to_string(tree_.size()) +
                                          " entries, and the witness code " + noted.code +
                                          " is of " + std::to_string(noted.size.value_or(0)));
    }
    const auto unsaid = std::find(unsaid_.begin(), unsaid_.end(), true);
    if (unsaid != unsaid_.end()) {
        return wrong("entries.jsonl", entry_word(unsaid - unsaid_.begin() + 1) +
                                          " has no body, and no entry says that it was purged");
    }
    const std::uint64_t newest = seals_.empty() ? 0 : seals_.rbegin()->first;
    if (newest == tree_.size()) return {};
    return wrong("seals", "the newest covers " + std::to_string(newest) +
                              " entries, and there are " + std::to_string(tree_.size()));
}

Result<void> Checker::check_number(const std::string& name, std::int64_t n) const {
    const bool there = n >= 1 && static_cast<std::uint64_t>(n) <= tree_.size();
    if (!there) return wrong(name, "a row names " + entry_word(n) + ", which is not there");
    if (purged_[static_cast<std::size_t>(n) - 1]) {
        return wrong(name, "a row names " + entry_word(n) + ", which was purged");
    }
    return {};
}

Result<void> Checker::check_rows() {
    for (const auto& name : listed_) {
        if (!name.starts_with("tables/")) continue;
        TRY(ask(90));
        RowNumbers numbers(name.ends_with(".jsonl"));
        TRY(each_line(name, [&](const std::string& line) -> Result<void> {
            const auto row = numbers.take(line);
            if (!row) return {};
            ++found_.rows;
            // What somebody has still to learn is a row of `currency` that comes from no entry.
            if (!row->entry && name.starts_with("tables/currency.")) return {};
            return check_number(name, row->entry.value_or(0));
        }));
    }
    return {};
}

}  // namespace

Result<CheckedBinder> check_files(const BinderFiles& files, const BinderProgress& progress,
                                  const BinderNoted& noted) {
    return Checker(files, progress, noted).check();
}

Result<CheckedBinder> check_binder(const std::string& path, const std::string& temp_dir,
                                   const BinderProgress& progress, const BinderNoted& noted) {
    std::error_code failed;
    if (fs::is_directory(path, failed)) {
        return check_files(TRY(files_in(path)), progress, noted);
    }
    if (!fs::is_regular_file(path, failed)) {
        return Error{ErrorKind::absent, "there is no binder here", path, ""};
    }
    const NewDir unpacked = TRY(NewDir::beside(temp_dir + "/binder"));
    TRY(unzip_into(path, unpacked.path()));
    return check_files(TRY(files_in(unpacked.path())), progress, noted);
}

}  // namespace holdpin
