// Making a binder while the kiosk goes on: asked for by a flow, done elsewhere, looked at as often
// as a page is made. One at a time. A flow knows neither threads nor disks.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/local_time.hpp"
#include "base/result.hpp"

namespace holdpin {

// A folder the site allows, or a stick that is plugged in.
struct BinderPlace {
    std::string path;
    bool stick = false;
};

struct BinderOrder {
    std::optional<Date> from;  // days of the site; empty: all
    std::optional<Date> to;
    std::string folder;
};

enum class BinderPhase { idle, running, done, cancelled, failed };

struct BinderState {
    BinderPhase phase = BinderPhase::idle;
    int done = 0;
    int total = 0;
    bool cancelling = false;   // it was cancelled and is about to end
    std::string path;          // of what was made
    std::uint64_t sealed = 0;  // entries under the seal
    std::string witness;       // code of that seal
    std::string what;          // why it failed
};

class BinderWork {
  public:
    virtual ~BinderWork() = default;
    virtual std::vector<BinderPlace> places() = 0;
    // Seals, copies and begins. Errors: refused (one is running), full, failed.
    virtual Result<void> start(const BinderOrder& order) = 0;
    virtual BinderState state() = 0;
    virtual void cancel() = 0;  // nothing is left behind
    virtual void forget() = 0;  // the result was seen
};

}  // namespace holdpin
