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

// The name of a file or a path, which may go on in the next line behind one of its marks.
constexpr std::size_t kLongName = 24;

struct Breaks {
    bool in_name = false;  // the line before ended within the name of a file
    bool broke_a_word = false;
};

std::size_t marks_that_fit(std::string_view word, float width, const MeasureText& measure) {
    std::size_t fits = 0;
    for (std::size_t at = 0; (at = word.find_first_of("-/_", at)) != std::string_view::npos;) {
        if (measure(word.substr(0, ++at)) > width) break;
        fits = at;
    }
    return fits;
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
                           Breaks& breaks) {
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
        if (breaks.in_name || word.size() > kLongName) fits = marks_that_fit(word, width, measure);
        breaks.in_name = fits > 0;
        if (fits == 0) {
            fits = letters_that_fit(word, width, measure);
            breaks.broke_a_word = true;
        }
    } else {
        breaks.in_name = false;
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
    Breaks breaks;
    while (true) {
        const std::size_t feed = text.find('\n');
        std::string_view rest = text.substr(0, feed);
        do {
            wrapped.lines.push_back(take_line(rest, width, measure, breaks));
        } while (!rest.empty());
        if (feed == std::string_view::npos) {
            wrapped.broke_a_word = breaks.broke_a_word;
            return wrapped;
        }
        text.remove_prefix(feed + 1);
    }
}

}  // namespace holdpin
