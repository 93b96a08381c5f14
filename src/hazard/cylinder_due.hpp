// When an LP cylinder falls due for requalification: the month after whose end it is not filled.
// The last stamp decides by its method; without a stamp, the month of manufacture. Of two stamps
// of one month the shorter interval counts. Intervals are site content (CylinderRule); what is
// shipped follows 49 CFR 180.209(e) and (g) after HM-219B (85 FR 68790, 30 October 2020), read in
// secondary copies, the first period from memory: to be checked locally. Valid for months from
// 1920 to 2120 and intervals of 1 to 20 years, in whole months, without error. It knows no
// today, no damage and no other specification: a cylinder that is not due may still be unfit.
#pragma once

#include <compare>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace holdpin {

struct YearMonth {
    int year = 0;
    int month = 0;  // 1..12
    auto operator<=>(const YearMonth&) const = default;
};
// "2013-03". Error: invalid.
Result<YearMonth> parse_year_month(std::string_view text);
std::string year_month_text(YearMonth month);

enum class CylinderTest {
    volumetric,  // water jacket, also called hydrostatic
    proof,       // proof pressure
    visual,      // external visual
};
// "volumetric", "proof", "visual". Error: invalid.
Result<CylinderTest> parse_cylinder_test(std::string_view word);

struct CylinderRule {
    int first_years = 12;  // from manufacture to the first test
    int volumetric_years = 12;
    int proof_years = 10;
    int visual_years = 5;
};

struct CylinderStamp {
    YearMonth month;
    CylinderTest test = CylinderTest::visual;
};

// Error: invalid, for a month out of range, a stamp older than the cylinder or an absurd rule.
Result<YearMonth> cylinder_due(YearMonth made, const std::vector<CylinderStamp>& stamps,
                               const CylinderRule& rule);

}  // namespace holdpin
