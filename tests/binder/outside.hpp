// Programs that are not ours, as a stranger would run them on a binder.
#pragma once

#include <string>

#include "support/shell.hpp"

namespace holdpin {

inline Ran outside(const std::string& line) {
    return run_shell(line + " 2>&1");
}

// Debian's own, which has the modules that tools/packages installs.
inline Ran python(const std::string& script, const std::string& words) {
    return outside("/usr/bin/python3 " + std::string(HOLDPIN_TEST_SOURCE_DIR) +
                   "/tests/binder/" + script + " " + words);
}

}  // namespace holdpin
