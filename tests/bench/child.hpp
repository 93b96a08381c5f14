// A program run to its end by itself: how long it took, and the most memory it had. A peak is that
// of a whole process, so whatever is to be looked at for its memory gets one of its own; and never
// less than what its parent had when it was started, so the parent must not have grown before.
#pragma once

#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include "bench.hpp"

namespace holdpin::bench {

struct Child {
    double ms = 0;
    long memory_kb = 0;
};

// `words`: the program, as PATH finds it, and what it is told. "" as the program: this one.
inline Child run_child(std::vector<std::string> words) {
    if (words.front().empty()) words.front() = "/proc/self/exe";
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    Child child;
    int status = 1;
    child.ms = took_ms([&] {
        pid_t pid = 0;
        if (::posix_spawnp(&pid, arguments[0], nullptr, nullptr, arguments.data(), environ) != 0) {
            return;
        }
        rusage used{};
        ::wait4(pid, &status, 0, &used);
        child.memory_kb = used.ru_maxrss;
    });
    if (status != 0) {
        fmt::print(stderr, "the bench cannot run: {} {} failed\n", words[0], words[1]);
        std::exit(1);
    }
    return child;
}

}  // namespace holdpin::bench
