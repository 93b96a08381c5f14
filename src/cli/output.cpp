#include "cli/output.hpp"

#include <cstdio>
#include <nlohmann/json.hpp>

#include "cli/commands.hpp"

namespace holdpin {
namespace {

void write_line(std::FILE* to, std::string_view line) {
    std::fwrite(line.data(), 1, line.size(), to);
    std::fputc('\n', to);
    std::fflush(to);
}

}  // namespace

void say(std::string_view line) { write_line(stdout, line); }

void say_json(const nlohmann::json& value) { say(value.dump(2)); }

int complain(const Error& error) {
    write_line(stderr, error.sentence());
    return kExitWanting;
}

}  // namespace holdpin
