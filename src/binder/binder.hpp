// The binder: everything that was recorded, as files that need no program of ours to read or check.
// A folder, or a zip of it, comes into being as a whole or not at all; no record is changed.
// Entries and seals are always complete, since proofs need them; a scope narrows tables and papers.
// It does not seal: who hands the records in seals them first. FORMAT.md describes each file.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/local_time.hpp"
#include "content_types/content.hpp"
#include "ledger/ledger.hpp"
#include "records/damaged_texts.hpp"
#include "store/database.hpp"

namespace holdpin {

// What tables and papers are about; empty: all. Days are those of the site, both included.
struct BinderScope {
    std::optional<Date> from;
    std::optional<Date> to;
    std::string person;
    std::string machine;
};

// Where what was shown stands: `content/<SHA-256 of the file>.json`, or `.txt`.
inline constexpr std::string_view kShownFolder = "content/";

struct BinderFile {
    std::string path;  // inside the binder, with "/" between ASCII names: "papers/round-512.pdf"
    std::string bytes;
};

// How far it is; false: cancel, and nothing is left behind.
using BinderProgress = std::function<bool(int done, int total)>;

// What a writer of further files may look at.
struct BinderMaterial {
    Database& db;    // a copy, or the site's own while nothing else has it open
    Ledger& ledger;  // on `db`; only read
    const Content& content;
    const Zone& zone;
    const KioskKey& key;
    const BinderScope& scope;
    std::int64_t now_ms = 0;
    BinderProgress progress = nullptr;  // of this writer; to be asked now and then
};
// Takes each file as it is made, so that no more than one is in memory.
using BinderSink = std::function<Result<void>(const BinderFile& file)>;
using BinderWriter = std::function<Result<void>(const BinderMaterial&, const BinderSink&)>;

struct BinderSources {
    Database& db;
    Ledger& ledger;
    const Content& content;
    const Zone& zone;
    const KioskKey& key;  // signs the list of sums
    std::int64_t now_ms = 0;
    std::vector<BinderWriter> writers;  // called in order, each once
};

struct BinderSummary {
    std::uint64_t entries = 0;
    std::uint64_t purged = 0;  // entries of which only the leaf is left
    std::string root;          // hex, over all entries
    std::uint64_t sealed = 0;  // entries under the newest seal; should be all
    std::size_t files = 0;
    std::vector<DamagedText> damaged = {};  // shown as erased; damaged-texts.txt names them, too
};

// `out`: a folder that does not exist or is empty, or a file that does not exist and whose name
// ends in ".zip". Errors: refused (`out` is there, or `progress` said no), damaged, full, failed.
Result<BinderSummary> make_binder(const BinderSources& sources, const BinderScope& scope,
                                  const std::string& out, const BinderProgress& progress);

}  // namespace holdpin
