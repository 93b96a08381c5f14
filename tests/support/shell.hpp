// A line of the shell, run as a stranger would run it, and what it said.
#pragma once

#include <sys/wait.h>

#include <cstdio>
#include <string>

namespace holdpin {

struct Ran {
    int code = -1;  // -1: it did not start, or ended by a signal
    std::string said;
};

// Only standard output is kept; end the line in ` 2>&1` to keep standard error too.
inline Ran run_shell(const std::string& line) {
    std::FILE* pipe = ::popen(line.c_str(), "r");
    if (pipe == nullptr) return {};
    Ran ran;
    char part[4096];
    while (const std::size_t size = std::fread(part, 1, sizeof part, pipe)) {
        ran.said.append(part, size);
    }
    const int status = ::pclose(pipe);
    ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return ran;
}

}  // namespace holdpin
