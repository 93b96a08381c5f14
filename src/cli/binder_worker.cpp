#include "cli/binder_worker.hpp"

#include <algorithm>
#include <filesystem>

#include "cli/binding.hpp"
#include "ledger/witness.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

// "holdpin-ash-lane-2026-11-25-054012.zip": by the site's clock, so that no two are alike.
std::string name_of(const OpenSite& site) {
    std::string at = local_text(site.zone.local(site.clock.now_ms())).substr(0, 19);
    at[10] = '-';
    at.erase(std::remove(at.begin(), at.end(), ':'), at.end());
    return "holdpin-" + site.content.site.id + "-" + at + ".zip";
}

// A blank in a mount point is written as \040.
std::string unescaped(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\\' && i + 3 < text.size()) {
            int value = 0;
            for (std::size_t k = 1; k <= 3; ++k) value = value * 8 + (text[i + k] - '0');
            out.push_back(static_cast<char>(value));
            i += 3;
        } else {
            out.push_back(text[i]);
        }
    }
    return out;
}

}  // namespace

std::vector<std::string> mounted_sticks(std::string_view mounts) {
    std::vector<std::string> found;
    for (const std::string& line : split(mounts, '\n')) {
        const auto parts = split(line, ' ');
        if (parts.size() < 4) continue;
        const bool writable = parts[3] == "rw" || parts[3].starts_with("rw,");
        const std::string path = unescaped(parts[1]);
        const bool removable = path.starts_with("/media/") || path.starts_with("/run/media/");
        if (writable && removable) found.push_back(path);
    }
    return found;
}

BinderWorker::~BinderWorker() {
    cancelled_ = true;
    join();
}

void BinderWorker::join() {
    if (thread_.joinable()) thread_.join();
    copy_.reset();
}

std::vector<BinderPlace> BinderWorker::places() {
    std::vector<BinderPlace> places;
    for (const std::string& folder : options_.folders) places.push_back({folder, false});
    if (!options_.sticks) return places;
    const auto mounts = read_file("/proc/self/mounts");
    if (!mounts) return places;
    for (const std::string& stick : mounted_sticks(mounts.value())) {
        const auto is_it = [&](const BinderPlace& place) { return place.path == stick; };
        if (std::none_of(places.begin(), places.end(), is_it)) places.push_back({stick, true});
    }
    return places;
}

Result<void> BinderWorker::start(const BinderOrder& order) {
    if (state().phase == BinderPhase::running) {
        return Error{ErrorKind::refused, "a binder is being made already", "", ""};
    }
    const auto allowed = places();
    const bool known = std::any_of(allowed.begin(), allowed.end(), [&](const BinderPlace& place) {
        return place.path == order.folder;
    });
    if (!known) return Error{ErrorKind::absent, "this place is gone", order.folder, ""};
    // Where a stick is not plugged in, its folder must not come into being on the kiosk's own disk.
    std::error_code unknown;
    if (!fs::is_directory(order.folder, unknown)) {
        return Error{ErrorKind::absent, "this folder is not there", order.folder,
                     "plug in the stick, or make the folder"};
    }
    join();
    Sealer* sealer = site_.book->sealer();
    if (sealer == nullptr) {
        return Error{ErrorKind::damaged, "the ledger is in doubt and cannot be sealed", "ledger",
                     "run: holdpin ledger check"};
    }
    TRY(sealer->seal());
    sealer->keep_copy();
    key_ = sealer->key();
    const std::string beside = site_.data_dir.empty()
                                   ? (fs::temp_directory_path() / "holdpin-copy").string()
                                   : site_.data_dir + "/copy";
    copy_.emplace(TRY(NewDir::beside(beside)));
    const std::string copy = copy_->path() + "/holdpin.db";
    TRY(site_.db->copy_to(copy));
    state_ = BinderState{};
    state_.phase = BinderPhase::running;
    state_.path = order.folder + "/" + name_of(site_);
    state_.sealed = site_.ledger->size();
    state_.witness = witness_code(site_.ledger->size(), site_.ledger->root());
    started_ms_ = site_.clock.now_ms();
    cancelled_ = false;
    ended_ = false;
    const BinderScope scope{order.from, order.to, "", ""};
    thread_ = std::thread([this, copy, scope, out = state_.path] { run(copy, scope, out); });
    return {};
}

Result<BinderSummary> BinderWorker::made(const std::string& copy, const BinderScope& scope,
                                         const std::string& out) {
    Database::Options options;
    options.read_only = true;
    const auto db = TRY(Database::open(copy, options));
    RealClock clock;
    SystemRandom random;
    const auto ledger = TRY(Ledger::open(
        *db, clock, random, {site_.content.site.id, key_->kiosk_id(), site_.zone}));
    const BinderSources sources{*db,   *ledger,     site_.content, site_.zone,
                                *key_, started_ms_, binder_writers()};
    return options_.make(sources, scope, out, [this](int done, int total) {
        const std::lock_guard lock(guard_);
        state_.done = done;
        state_.total = total;
        return !cancelled_;
    });
}

void BinderWorker::run(const std::string& copy, const BinderScope& scope, const std::string& out) {
    const auto summary = made(copy, scope, out);
    if (cancelled_ && summary.ok()) {
        std::error_code ignored;
        fs::remove(out, ignored);
    }
    const std::lock_guard lock(guard_);
    state_.phase = cancelled_     ? BinderPhase::cancelled
                   : summary.ok() ? BinderPhase::done
                                  : BinderPhase::failed;
    if (!summary) state_.what = summary.error().sentence();
    ended_ = true;
}

bool BinderWorker::is_waiting() const {
    return thread_.joinable() && !cancelled_ && options_.least_ms > 0 &&
           site_.clock.now_ms() - started_ms_ < options_.least_ms;
}

BinderState BinderWorker::state() {
    if (is_waiting()) {
        const std::lock_guard lock(guard_);
        BinderState shown = state_;
        shown.phase = BinderPhase::running;
        shown.done = static_cast<int>(site_.clock.now_ms() - started_ms_);
        shown.total = static_cast<int>(options_.least_ms);
        return shown;
    }
    if (ended_ || options_.least_ms > 0) join();
    const std::lock_guard lock(guard_);
    return state_;
}

void BinderWorker::cancel() {
    cancelled_ = true;
    const std::lock_guard lock(guard_);
    state_.cancelling = true;
    // The thread may have ended well just before it was told.
    if (state_.phase != BinderPhase::done) return;
    std::error_code ignored;
    fs::remove(state_.path, ignored);
    state_.phase = BinderPhase::cancelled;
}

void BinderWorker::forget() {
    join();
    const std::lock_guard lock(guard_);
    state_ = BinderState{};
}

}  // namespace holdpin
