// Breaks a text into lines that fit a width. Pure: how wide a piece of text is comes in as a
// function, so the same code runs without fonts in a test. Breaks at spaces and line feeds only;
// no-break and thin spaces hold a number and its unit together. Only the name of a file or a path,
// longer than any word, breaks behind its dashes, slashes and low lines when it must.
#pragma once

#include <functional>
#include <string_view>
#include <vector>

namespace holdpin {

using MeasureText = std::function<float(std::string_view)>;

struct Wrapped {
    std::vector<std::string_view> lines;  // pieces of the text given
    bool broke_a_word = false;            // a single word was wider than the width
};

Wrapped wrap(std::string_view text, float width, const MeasureText& measure);

}  // namespace holdpin
