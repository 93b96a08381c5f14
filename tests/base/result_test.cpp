#include "base/result.hpp"

#include <doctest/doctest.h>

#include <memory>

using namespace holdpin;

namespace {

Result<int> half_of(int number) {
    if (number % 2 != 0) return Error{ErrorKind::invalid, "an odd number has no half", "n", ""};
    return number / 2;
}

Result<int> quarter_of(int number) { return TRY(half_of(TRY(half_of(number)))); }

Result<void> only_even(int number) {
    TRY(half_of(number));
    return {};
}

Result<std::string> told(int number, int& steps) {
    ++steps;
    TRY(only_even(number));
    ++steps;
    return std::string("even");
}

Result<std::unique_ptr<int>> boxed(int number) { return std::make_unique<int>(number); }

Result<int> unboxed(int number) {
    const std::unique_ptr<int> box = TRY(boxed(number));
    return *box;
}

}  // namespace

TEST_CASE("a result holds a value or an error, never both") {
    const Result<int> good = half_of(8);
    REQUIRE(good.ok());
    CHECK(static_cast<bool>(good));
    CHECK(good.value() == 4);
    CHECK(good.value_or(99) == 4);

    const Result<int> bad = half_of(7);
    CHECK_FALSE(bad.ok());
    CHECK_FALSE(static_cast<bool>(bad));
    CHECK(bad.error().kind == ErrorKind::invalid);
    CHECK(bad.value_or(99) == 99);
}

TEST_CASE("TRY takes the value, or leaves the function with the first error") {
    CHECK(quarter_of(12).value() == 3);
    CHECK_FALSE(quarter_of(7).ok());
    CHECK_FALSE(quarter_of(6).ok());  // the second half fails
    CHECK(quarter_of(6).error().what == "an odd number has no half");
}

TEST_CASE("TRY on a result without a value stops at the failure") {
    int steps = 0;
    CHECK(told(2, steps).value() == "even");
    CHECK(steps == 2);
    steps = 0;
    const auto failed = told(3, steps);
    CHECK_FALSE(failed.ok());
    CHECK(failed.error().where == "n");
    CHECK(steps == 1);
}

TEST_CASE("a value that can only be moved passes through") { CHECK(unboxed(5).value() == 5); }

TEST_CASE("an error's sentence leaves out what is empty") {
    Error error{ErrorKind::failed, "no entry", "", ""};
    CHECK(error.sentence() == "no entry");
    error.where = "a.toml";
    CHECK(error.sentence() == "a.toml: no entry");
    error.mend = "write one";
    CHECK(error.sentence() == "a.toml: no entry; write one");
    error.where.clear();
    CHECK(error.sentence() == "no entry; write one");
}
