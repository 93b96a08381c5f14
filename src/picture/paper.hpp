// A printed document as plain data, and its PDF: A4, black on white, set in B612 with Cairo and
// Pango, with title, author, outline and a footer that counts the pages. The same data give the
// same bytes; the date in the file is the one handed in. Blocks follow each other down the page and
// go on to the next one; a heading stays with what follows, the row of a table is not divided.
// Knows nothing of what is printed.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "base/chart.hpp"
#include "base/result.hpp"

namespace holdpin {

struct PaperHeading {
    std::string text;
    int level = 1;  // 1 the largest, 2, 3; those of 1 and 2 stand in the outline
};
struct PaperParagraph {
    std::string text;
    bool small = false;
    bool bold = false;
};
struct PaperField {
    std::string label;
    std::string value;
};
// Labels at the left, values at the right, a hair line under each.
struct PaperFields {
    std::vector<PaperField> rows;
};
// The header is repeated at the top of each page. `widths` are parts of the whole.
struct PaperTable {
    std::vector<double> widths;
    std::vector<std::string> header;
    std::vector<std::vector<std::string>> rows;
};
// A QR code at the left, what it is beside it.
struct PaperQr {
    std::string text;
    double size_mm = 60;  // with its quiet zone
    std::string caption;
};
struct PaperChart {
    ChartData chart;
    double height_mm = 70;
};
// One line of large letters across the page, by the height of its capitals; narrower letters where
// the line does not fit. In a black band the letters are white.
struct PaperLarge {
    std::string text;
    double capitals_mm = 10;
    bool band = false;
    bool mono = false;
};
// A ring that shows where a hole is to be made.
struct PaperHole {
    double size_mm = 8;
};
struct PaperGap {
    double mm = 4;
};

using PaperBlock = std::variant<PaperHeading, PaperParagraph, PaperFields, PaperTable, PaperQr,
                                PaperChart, PaperLarge, PaperHole, PaperGap>;

// Begins on a page of its own, in one language.
struct PaperPart {
    std::string language = "en";
    std::string footer;  // at the left
    std::string pages;   // "Page {page} of {pages}", at the right
    std::vector<PaperBlock> blocks;
};

struct Paper {
    std::string title;
    std::string author;
    std::string subject;
    std::int64_t at_ms = 0;  // UTC
    std::vector<PaperPart> parts;
};

// Prints one paper after the other; what they have in common, type and words that recur, is set up
// once. For one thread.
class PaperPrinter {
  public:
    PaperPrinter();
    ~PaperPrinter();
    // Errors: invalid (a chart or a QR code that cannot be drawn), failed (the library).
    Result<std::string> pdf(const Paper& paper);

  private:
    struct Setter;
    std::unique_ptr<Setter> setter_;
};

// A single one.
Result<std::string> paper_pdf(const Paper& paper);

}  // namespace holdpin
