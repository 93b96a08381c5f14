#include "hazard/cylinder_due.hpp"

#include "near.hpp"

using namespace holdpin;

namespace {

std::string due(YearMonth made, const std::vector<CylinderStamp>& stamps, CylinderRule rule = {}) {
    return year_month_text(must(cylinder_due(made, stamps, rule)));
}

}  // namespace

TEST_CASE("the last stamp and its method decide when a cylinder falls due") {
    // Computed (C) from 49 CFR 180.209(e) and (g) after HM-219B, intervals read in secondary
    // copies; the first period of twelve years is from memory.
    CHECK(due({2013, 3}, {}) == "2025-03");
    CHECK(due({2013, 3}, {{{2020, 5}, CylinderTest::visual}}) == "2025-05");
    CHECK(due({2013, 3}, {{{2020, 5}, CylinderTest::proof}}) == "2030-05");
    CHECK(due({2013, 3}, {{{2020, 5}, CylinderTest::volumetric}}) == "2032-05");
}

TEST_CASE("stamps may come in any order, and an older one does not lengthen the last") {
    const CylinderStamp volumetric{{2020, 5}, CylinderTest::volumetric};
    const CylinderStamp visual{{2022, 8}, CylinderTest::visual};
    CHECK(due({2008, 1}, {volumetric, visual}) == "2027-08");
    CHECK(due({2008, 1}, {visual, volumetric}) == "2027-08");
}

TEST_CASE("of two stamps of one month the shorter interval counts") {
    const CylinderStamp volumetric{{2020, 5}, CylinderTest::volumetric};
    const CylinderStamp visual{{2020, 5}, CylinderTest::visual};
    CHECK(due({2008, 1}, {volumetric, visual}) == "2025-05");
    CHECK(due({2008, 1}, {visual, volumetric}) == "2025-05");
}

TEST_CASE("the site's intervals stand in place of those that are shipped") {
    CHECK(due({2013, 3}, {}, {10, 12, 10, 5}) == "2023-03");
    CHECK(due({2013, 3}, {{{2020, 5}, CylinderTest::proof}}, {12, 12, 7, 5}) == "2027-05");
}

TEST_CASE("a month that is none, a stamp older than the cylinder and an absurd rule are refused") {
    CHECK_FALSE(cylinder_due({2013, 0}, {}, {}).ok());
    CHECK_FALSE(cylinder_due({2013, 13}, {}, {}).ok());
    CHECK_FALSE(cylinder_due({1013, 3}, {}, {}).ok());
    CHECK_FALSE(cylinder_due({20130, 3}, {}, {}).ok());
    CHECK_FALSE(cylinder_due({2013, 3}, {{{2013, 2}, CylinderTest::visual}}, {}).ok());
    CHECK(cylinder_due({2013, 3}, {{{2013, 3}, CylinderTest::visual}}, {}).ok());
    CHECK_FALSE(cylinder_due({2013, 3}, {{{2013, 13}, CylinderTest::visual}}, {}).ok());
    CHECK_FALSE(cylinder_due({2013, 3}, {}, {12, 12, 10, 0}).ok());
    CHECK_FALSE(cylinder_due({2013, 3}, {}, {99, 12, 10, 5}).ok());
    const Error error = cylinder_due({2013, 3}, {{{2009, 1}, CylinderTest::proof}}, {}).error();
    CHECK(error.sentence().find("2009-01") != std::string::npos);
    CHECK(error.sentence().find("2013-03") != std::string::npos);
}

TEST_CASE("a month comes back from its text, and nothing else is a month") {
    for (int month = 1; month <= 12; ++month) {
        const YearMonth wanted{2020, month};
        CHECK(must(parse_year_month(year_month_text(wanted))) == wanted);
    }
    for (const char* text : {"", "2020", "2020-5", "05-2020", "2020-00", "2020-13", "2020-05-01",
                             "2020/05", "20-20-5", "+020-05", "202a-05", "2020--1", "9999-01"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_year_month(text).ok());
    }
    CHECK(must(parse_cylinder_test("proof")) == CylinderTest::proof);
    CHECK_FALSE(parse_cylinder_test("hydro").ok());
}
