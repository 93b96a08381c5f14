#include "flows/degraded.hpp"

namespace holdpin {
namespace {

const char* key_of(ErrorKind kind) {
    switch (kind) {
        case ErrorKind::full: return "degraded.full";
        case ErrorKind::read_only: return "degraded.read-only";
        case ErrorKind::damaged: return "degraded.damaged";
        case ErrorKind::failed: return "degraded.failed";
        default: return nullptr;
    }
}

}  // namespace

std::vector<std::string> degraded_lines(const Say& say, const Error& error) {
    const char* key = key_of(error.kind);
    if (key == nullptr) return {error.sentence()};
    std::vector<std::string> lines{say(key), say("degraded.paper")};
    // The program's own words are English, and a page has one language.
    if (say.language() == "en") {
        lines.push_back(say("degraded.reason", {{"reason", error.sentence()}}));
    }
    return lines;
}

}  // namespace holdpin
