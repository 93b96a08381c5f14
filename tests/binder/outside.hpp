// Programs that are not ours, as a stranger would run them on a binder.
#pragma once

#include <sys/wait.h>

#include <cstdio>
#include <string>

namespace holdpin {

struct Outside {
    int code = -1;
    std::string said;  // with standard error
};

inline Outside outside(const std::string& line) {
    std::FILE* pipe = ::popen((line + " 2>&1").c_str(), "r");
    if (pipe == nullptr) return {};
    Outside ran;
    char part[4096];
    while (const std::size_t size = std::fread(part, 1, sizeof part, pipe)) {
        ran.said.append(part, size);
    }
    const int status = ::pclose(pipe);
    ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return ran;
}

// Debian's own, which has the modules that tools/packages installs.
inline Outside python(const std::string& script, const std::string& words) {
    return outside("/usr/bin/python3 " + std::string(HOLDPIN_TEST_SOURCE_DIR) +
                   "/tests/binder/" + script + " " + words);
}

}  // namespace holdpin
