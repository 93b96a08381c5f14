// What an author has to mend, and where: one fault a line, written so that it can be mended
// without asking. Does not decide anything; the loader uses nothing while one fault stands.
#pragma once

#include <string>
#include <vector>

namespace holdpin {

struct Fault {
    std::string file;
    int line = 0;  // from 1; 0 where the whole file is meant
    int column = 0;
    std::string what;
    std::string mend;

    // "file:line:column: what; mend", leaving out what is not known.
    std::string sentence() const;
};

using Faults = std::vector<Fault>;

// By file, line and column; a fault that was found twice is kept once.
void put_in_order(Faults& faults);

}  // namespace holdpin
