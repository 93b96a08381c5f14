#include "hazard/cylinder_due.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "hazard/valid_range.hpp"

namespace holdpin {
namespace {

constexpr ValidRange kYear = {"year", "", 1920, 2120};
constexpr ValidRange kInterval = {"years", "years", 1, 20};

struct TestName {
    std::string_view word;
    CylinderTest test;
};
constexpr TestName kTests[] = {
    {"volumetric", CylinderTest::volumetric},
    {"proof", CylinderTest::proof},
    {"visual", CylinderTest::visual},
};

Result<void> refuse_month(YearMonth month) {
    if (month.month < 1 || month.month > 12) {
        return Error{ErrorKind::invalid, fmt::format("there is no month {}", month.month), "",
                     "give the month as 01 to 12"};
    }
    return refuse_outside(kYear, month.year);
}

Result<int> digits(std::string_view text, std::string_view whole) {
    int number = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (fault != std::errc() || end != text.data() + text.size() || text.front() == '-') {
        return Error{ErrorKind::invalid, fmt::format("\"{}\" is no month", whole), "",
                     "give year and month, for example 2013-03"};
    }
    return number;
}

int years_of(CylinderTest test, const CylinderRule& rule) {
    if (test == CylinderTest::volumetric) return rule.volumetric_years;
    return test == CylinderTest::proof ? rule.proof_years : rule.visual_years;
}

Result<void> refuse_stamps(YearMonth made, const std::vector<CylinderStamp>& stamps) {
    for (const CylinderStamp& stamp : stamps) {
        TRY(refuse_month(stamp.month));
        if (stamp.month < made) {
            return Error{ErrorKind::invalid,
                         fmt::format("the stamp {} is older than the cylinder, made {}",
                                     year_month_text(stamp.month), year_month_text(made)),
                         "stamp", "read both marks again; do not accept what cannot be read"};
        }
    }
    return {};
}

}  // namespace

Result<YearMonth> parse_year_month(std::string_view text) {
    if (text.size() != 7 || text[4] != '-') {
        return Error{ErrorKind::invalid, fmt::format("\"{}\" is no month", text), "",
                     "give year and month, for example 2013-03"};
    }
    YearMonth month;
    month.year = TRY(digits(text.substr(0, 4), text));
    month.month = TRY(digits(text.substr(5, 2), text));
    TRY(refuse_month(month));
    return month;
}

std::string year_month_text(YearMonth month) {
    return fmt::format("{:04}-{:02}", month.year, month.month);
}

Result<CylinderTest> parse_cylinder_test(std::string_view word) {
    for (const TestName& name : kTests) {
        if (name.word == word) return name.test;
    }
    return Error{ErrorKind::invalid, fmt::format("\"{}\" is no way to test a cylinder", word), "",
                 "give volumetric, proof or visual"};
}

Result<YearMonth> cylinder_due(YearMonth made, const std::vector<CylinderStamp>& stamps,
                               const CylinderRule& rule) {
    for (const int years :
         {rule.first_years, rule.volumetric_years, rule.proof_years, rule.visual_years}) {
        TRY(refuse_outside(kInterval, years));
    }
    TRY(refuse_month(made));
    TRY(refuse_stamps(made, stamps));
    if (stamps.empty()) return YearMonth{made.year + rule.first_years, made.month};
    const auto sooner = [&rule](const CylinderStamp& a, const CylinderStamp& b) {
        if (a.month != b.month) return a.month < b.month;
        return years_of(a.test, rule) > years_of(b.test, rule);
    };
    const CylinderStamp last = *std::max_element(stamps.begin(), stamps.end(), sooner);
    return YearMonth{last.month.year + years_of(last.test, rule), last.month.month};
}

}  // namespace holdpin
