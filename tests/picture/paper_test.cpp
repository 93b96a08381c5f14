#include "picture/paper.hpp"

#include <doctest/doctest.h>

#include "picture/qr.hpp"

using namespace holdpin;

namespace {

int pages_of(const std::string& pdf) {
    int pages = 0;
    const std::string mark = "/Type /Page %";
    for (auto at = pdf.find(mark); at != pdf.npos; at = pdf.find(mark, at + 1)) ++pages;
    return pages;
}

Paper paper_of(std::vector<PaperBlock> blocks) {
    Paper paper{"A title", "Ash Lane", "", 1795606800000, {}};
    paper.parts.push_back({"en", "left", "Page {page} of {pages}", std::move(blocks)});
    return paper;
}

}  // namespace

TEST_CASE("long text and long tables go on to the next page") {
    std::string words;
    for (int i = 0; i < 3000; ++i) words += "machine ";
    const auto text = paper_pdf(paper_of({PaperParagraph{words}}));
    REQUIRE(text.ok());
    CHECK(pages_of(text.value()) == 5);
    PaperTable table{{1, 1}, {"a", "b"}, {}};
    for (int i = 0; i < 120; ++i) table.rows.push_back({std::to_string(i), "x"});
    const auto long_table = paper_pdf(paper_of({table}));
    REQUIRE(long_table.ok());
    CHECK(pages_of(long_table.value()) >= 3);
}

TEST_CASE("the same paper gives the same bytes, and each part begins a page") {
    Paper paper = paper_of({PaperHeading{"One", 1}, PaperFields{{{"label", "value"}}}});
    paper.parts.push_back(paper.parts.front());
    const auto first = paper_pdf(paper);
    REQUIRE(first.ok());
    CHECK(paper_pdf(paper).value() == first.value());
    CHECK(pages_of(first.value()) == 2);
}

TEST_CASE("a QR code has the three squares at its corners, and refuses what does not fit") {
    const auto code = qr_code("HPTAG:SW-14:K7DM3X:512");
    REQUIRE(code.ok());
    const QrCode& one = code.value();
    CHECK((one.width - 17) % 4 == 0);  // ISO/IEC 18004: 17 + 4 times the version
    const int last = one.width - 1;
    for (const auto& [x, y] : {std::pair{0, 0}, std::pair{last, 0}, std::pair{0, last}}) {
        CHECK(one.at(x, y));
    }
    CHECK_FALSE(one.at(last - 7, 7));  // light beside a square
    CHECK(qr_code(std::string(4200, 'A')).ok());  // capitals at level L: up to 4296
    CHECK(qr_code(std::string(5000, 'A')).error().kind == ErrorKind::invalid);
    CHECK(qr_code("").error().kind == ErrorKind::invalid);
    CHECK_FALSE(paper_pdf(paper_of({PaperQr{std::string(5000, 'A'), 60, ""}})).ok());
}
