// The program as it is called, with its state in a folder that goes away with the tests.
#pragma once

#include <string>

#include "support/shell.hpp"
#include "support/temp_dir.hpp"

namespace holdpin {

inline Ran run(const std::string& words, bool both = false) {
    static const TempDir state;
    const std::string line = "XDG_STATE_HOME=" + (state / "state") + " " + HOLDPIN_PROGRAM + " " +
                             words + (both ? " 2>&1" : " 2>/dev/null");
    return run_shell(line);
}

}  // namespace holdpin
