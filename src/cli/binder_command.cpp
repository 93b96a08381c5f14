#include <fmt/format.h>
#include <signal.h>
#include <unistd.h>

#include <filesystem>

#include "binder/check.hpp"
#include "binder/papers.hpp"
#include "cli/binding.hpp"
#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/stored_records.hpp"

namespace holdpin {
namespace {

volatile sig_atomic_t stop_asked = 0;

// Ctrl-C ends the work between two entries, and what was begun is taken away.
void stop_on_signals() {
    struct sigaction action {};
    action.sa_handler = [](int) { stop_asked = 1; };
    sigaction(SIGINT, &action, nullptr);
    sigaction(SIGTERM, &action, nullptr);
}

// Percent on standard error where somebody is looking.
BinderProgress spoken_progress() {
    return [last = -1](int done, int total) mutable {
        const int percent = done * 100 / total;
        if (::isatty(STDERR_FILENO) != 0 && percent != last) {
            fmt::print(stderr, "\r{} %{}", percent, percent == 100 ? "\n" : "");
            last = percent;
        }
        return stop_asked == 0;
    };
}

Result<BinderScope> scope_of(const BinderAsked& asked) {
    BinderScope scope{std::nullopt, std::nullopt, asked.person, asked.machine};
    if (!asked.from.empty()) scope.from = TRY(parse_date(asked.from));
    if (!asked.to.empty()) scope.to = TRY(parse_date(asked.to));
    return scope;
}

// Records come out also where the content has a fault; then rows have no footing.
Content content_of(const Common& common) {
    const ContentDirs dirs = resolved(common.asked, common.data);
    Loaded loaded = load_content(dirs.content, dirs.assets, common.data + "/site");
    if (loaded.ok()) return std::move(loaded.content);
    complain({ErrorKind::invalid, "the content has a fault, so the tables are without footings",
              "", "run: holdpin proof"});
    return {};
}

Result<BinderSummary> made(const Common& common, const BinderAsked& asked) {
    const BinderScope scope = TRY(scope_of(asked));
    const auto records = TRY(open_records(common.data));
    const auto sealed = seal_now(*records, common.data, common.seal_copies);
    if (!sealed) complain(sealed.error());
    const KioskKey key = TRY(load_kiosk_key(common.data + "/kiosk.key"));
    const Content content = content_of(common);
    stop_on_signals();
    const BinderSources sources{*records->db,
                                *records->ledger,
                                content,
                                records->ledger->place().zone,
                                key,
                                records->clock.now_ms(),
                                binder_writers()};
    return make_binder(sources, scope, asked.path, spoken_progress());
}

// A code without its number could be of any size, and would be found by chance before long.
Result<BinderNoted> noted_in(const BinderCheckAsked& asked) {
    BinderNoted noted{asked.kiosk, {}};
    constexpr std::size_t kIdDigits = 16;
    const bool is_id = asked.kiosk.size() == kIdDigits &&
                       asked.kiosk.find_first_not_of("0123456789abcdef") == std::string::npos;
    if (!asked.kiosk.empty() && !is_id) {
        return Error{ErrorKind::invalid, "this is no number of a kiosk", asked.kiosk,
                     "give the 16 digits that were noted, a to f small"};
    }
    for (const std::string& typed : asked.witnesses) {
        const Witness witness = TRY(witness_from(typed));
        if (!witness.size) {
            return Error{ErrorKind::invalid, "the number of entries is missing", typed,
                         "give the code as the shift book has it: CODE@SIZE"};
        }
        noted.witnesses.push_back(witness);
    }
    return noted;
}

}  // namespace

std::vector<BinderWriter> binder_writers() { return {papers}; }

Result<BinderSummary> bind_site(OpenSite& site, const BinderScope& scope, const std::string& out,
                                const BinderProgress& progress) {
    if (site.ledger_doubt.empty()) TRY(site.sealer->seal());
    const BinderSources sources{*site.db,  *site.ledger,       site.content,
                                site.zone, site.sealer->key(), site.clock.now_ms(),
                                binder_writers()};
    return make_binder(sources, scope, out, progress);
}

int run_binder_make(const Common& common, const BinderAsked& asked) {
    const auto summary = made(common, asked);
    if (!summary) {
        complain(summary.error());
        return summary.error().kind == ErrorKind::invalid ? kExitWrongUse : kExitWanting;
    }
    const BinderSummary& all = summary.value();
    say(fmt::format("{} entries are in {} ({} files). Root: {}", all.entries, asked.path,
                    all.files, all.root));
    for (const DamagedText& text : all.damaged) {
        complain({ErrorKind::damaged, damaged_sentence(text), "", kTextMend});
    }
    if (all.sealed != all.entries) {
        say(fmt::format("The newest seal covers {} of them, so a check will find it wanting.",
                        all.sealed));
    }
    return kExitFine;
}

int run_binder_check(const BinderCheckAsked& asked) {
    const auto noted = noted_in(asked);
    if (!noted) {
        complain(noted.error());
        return kExitWrongUse;
    }
    stop_on_signals();
    std::error_code ignored;
    const std::string temp = std::filesystem::temp_directory_path(ignored).string();
    const auto checked = check_binder(asked.path, temp, spoken_progress(), noted.value());
    if (!checked) return complain(checked.error());
    const CheckedBinder& all = checked.value();
    say(fmt::format("All agree: entries {}, seals {}, rows of tables {}, files {}.", all.entries,
                    all.seals, all.rows, all.files));
    if (all.stamps > 0) {
        say(fmt::format("Time stamps over seals: {}. Whose, openssl says; see HOW-TO-CHECK.md.",
                        all.stamps));
    }
    if (all.purged > 0) say(fmt::format("Of {} entries only the leaf is left.", all.purged));
    say(fmt::format("Root: {}", all.root));
    if (asked.kiosk.empty()) {
        say(fmt::format("Signed by kiosk {}. Compare this with what was noted when it was set up.",
                        all.kiosk));
    } else {
        say(fmt::format("Signed by kiosk {}, as noted.", all.kiosk));
    }
    for (const Witness& witness : noted.value().witnesses) {
        say(fmt::format("The witness code {} is that of the first {} entries.", witness.code,
                        *witness.size));
    }
    return kExitFine;
}

}  // namespace holdpin
