#include "rules/tags.hpp"

namespace holdpin {

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
    for (const char c : typed) {
        if (c == ' ' || c == '-') continue;
        code += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    return code;
}

bool is_asked_for(const Tag& tag, std::string_view person) {
    return tag.put_up && tag.put_up_by != person && tag.read_by != person;
}

}  // namespace holdpin
