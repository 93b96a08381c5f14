#include "rules/tags.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kLineHead = "HPTAG:";

// Between the last two colons; what is no line of a tag stays as it is.
std::string_view code_in(std::string_view typed) {
    if (!typed.starts_with(kLineHead)) return typed;
    const std::size_t end = typed.rfind(':');
    const std::size_t begin = typed.rfind(':', end - 1);
    if (begin == typed.npos || begin < kLineHead.size()) return typed;
    return typed.substr(begin + 1, end - begin - 1);
}

}  // namespace

std::string tag_code(std::uint32_t number) {
    std::string code;
    for (std::size_t i = 0; i < kTagLength; ++i) {
        code += kTagLetters[number % kTagLetters.size()];
        number /= static_cast<std::uint32_t>(kTagLetters.size());
    }
    return code;
}

std::string typed_code(std::string_view typed) {
    std::string code;
    for (const char c : code_in(typed)) {
        if (c == ' ' || c == '-') continue;
        code += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    return code;
}

std::string tag_line(std::string_view machine, std::string_view code, std::int64_t finding) {
    std::string line(kLineHead);
    line.append(machine).append(":").append(code).append(":");
    return line + std::to_string(finding);
}

bool is_asked_for(const Tag& tag, std::string_view person) {
    return tag.put_up && tag.put_up_by != person && tag.read_by != person;
}

}  // namespace holdpin
