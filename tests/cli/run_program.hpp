// The program as it is called, with its state in a folder that goes away with the tests.
#pragma once

#include <doctest/doctest.h>
#include <sys/wait.h>

#include <cstdio>
#include <string>

#include "temp_dir.hpp"

namespace holdpin {

struct Ran {
    int code = -1;
    std::string said;  // standard output; standard error too where `both`
};

inline Ran run(const std::string& words, bool both = false) {
    static const TempDir state;
    const std::string line = "XDG_STATE_HOME=" + (state / "state") + " " + HOLDPIN_PROGRAM + " " +
                             words + (both ? " 2>&1" : " 2>/dev/null");
    std::FILE* pipe = ::popen(line.c_str(), "r");
    REQUIRE(pipe != nullptr);
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
