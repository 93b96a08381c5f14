#include "kiosk/wrap.hpp"

#include <algorithm>

namespace holdpin {

namespace {

std::size_t end_of_letter(std::string_view text, std::size_t at) {
    ++at;
    while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) {
        ++at;
    }
    return at;
}

// As many letters as fit; at least one, so that there is an end.
std::size_t letters_that_fit(std::string_view word, float width, const MeasureText& measure) {
    std::size_t fits = end_of_letter(word, 0);
    while (fits < word.size()) {
        const std::size_t next = end_of_letter(word, fits);
        if (measure(word.substr(0, next)) > width) {
            break;
        }
        fits = next;
    }
    return fits;
}

// Takes one line off a paragraph that has no line feed in it.
std::string_view take_line(std::string_view& rest, float width, const MeasureText& measure,
                           bool& broke_a_word) {
    std::size_t fits = 0;  // end of the words that fit
    for (std::size_t at = 0; at <= rest.size();) {
        const std::size_t end = std::min(rest.find(' ', at), rest.size());
        if (measure(rest.substr(0, end)) > width) {
            break;
        }
        fits = end;
        at = end + 1;
    }
    if (fits == 0 && !rest.empty() && rest.front() != ' ') {
        const std::string_view word = rest.substr(0, std::min(rest.find(' '), rest.size()));
        fits = letters_that_fit(word, width, measure);
        broke_a_word = true;
    }
    const std::string_view line = rest.substr(0, fits);
    rest.remove_prefix(std::min(fits, rest.size()));
    const std::size_t next = rest.find_first_not_of(' ');
    rest.remove_prefix(std::min(next, rest.size()));
    return line;
}

}  // namespace

Wrapped wrap(std::string_view text, float width, const MeasureText& measure) {
    Wrapped wrapped;
    while (true) {
        const std::size_t feed = text.find('\n');
        std::string_view rest = text.substr(0, feed);
        do {
            wrapped.lines.push_back(take_line(rest, width, measure, wrapped.broke_a_word));
        } while (!rest.empty());
        if (feed == std::string_view::npos) {
            return wrapped;
        }
        text.remove_prefix(feed + 1);
    }
}

}  // namespace holdpin
