// Makes binders beside the running kiosk: seals, copies the data, and works on the copy in a thread
// of its own, so that the kiosk's only connection stays its own. The copy goes away afterwards.
// Whoever destroys it cancels what is running and waits for its end.
#pragma once

#include <atomic>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "base/new_dir.hpp"
#include "binder/binder.hpp"
#include "cli/site_data.hpp"
#include "flows/binder_work.hpp"

namespace holdpin {

using BinderMaker = std::function<Result<BinderSummary>(
    const BinderSources& sources, const BinderScope& scope, const std::string& out,
    const BinderProgress& progress)>;

struct BinderWorkerOptions {
    std::vector<std::string> folders;  // that the site allows
    bool sticks = true;                // and sticks that are plugged in
    // Of the site's clock that a binder seems to take, at least; then it is waited for. For
    // scripts, whose pages must not depend on how fast a machine is. 0: as it comes.
    std::int64_t least_ms = 0;
    BinderMaker make;
};

class BinderWorker final : public BinderWork {
  public:
    BinderWorker(OpenSite& site, BinderWorkerOptions options)
        : site_(site), options_(std::move(options)) {}
    ~BinderWorker() override;
    BinderWorker(const BinderWorker&) = delete;
    BinderWorker& operator=(const BinderWorker&) = delete;

    std::vector<BinderPlace> places() override;
    Result<void> start(const BinderOrder& order) override;
    BinderState state() override;
    void cancel() override;
    void forget() override;

  private:
    void run(const std::string& copy, const BinderScope& scope, const std::string& out);
    Result<BinderSummary> made(const std::string& copy, const BinderScope& scope,
                               const std::string& out);
    void join();
    bool is_waiting() const;

    OpenSite& site_;
    BinderWorkerOptions options_;
    std::optional<KioskKey> key_;
    std::int64_t started_ms_ = 0;
    std::optional<NewDir> copy_;
    std::thread thread_;
    std::atomic<bool> cancelled_ = false;
    std::atomic<bool> ended_ = false;
    std::mutex guard_;   // of what follows
    BinderState state_;
};

// Where removable drives are mounted, out of the text of /proc/self/mounts.
std::vector<std::string> mounted_sticks(std::string_view mounts);

}  // namespace holdpin
