#include "flows/degraded.hpp"

namespace holdpin {
namespace {

const char* name_of(ErrorKind kind) {
    switch (kind) {
        case ErrorKind::full: return "full";
        case ErrorKind::read_only: return "read-only";
        case ErrorKind::damaged: return "damaged";
        case ErrorKind::failed: return "failed";
        default: return nullptr;
    }
}

bool says_more_than_the_heading(ErrorKind kind) {
    return kind == ErrorKind::damaged || kind == ErrorKind::failed;
}

}  // namespace

std::optional<MessageBody> degraded_body(const Say& say, const Error& error) {
    const char* name = name_of(error.kind);
    if (name == nullptr) return {};
    MessageBody body;
    body.mark = LugState::held;
    body.heading = say(std::string("degraded.title-") + name);
    body.lines = {say(std::string("degraded.") + name), say("degraded.paper")};
    if (says_more_than_the_heading(error.kind) && say.language() == "en") {
        body.lines.push_back(say("degraded.reason", {{"reason", error.sentence()}}));
    }
    return body;
}

}  // namespace holdpin
