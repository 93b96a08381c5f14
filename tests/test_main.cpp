#define DOCTEST_CONFIG_IMPLEMENT
#include <doctest/doctest.h>

#include <cstdio>

namespace {

unsigned tests_run = 0;

// Counts what a run comes to, and says nothing.
struct Counter : doctest::IReporter {
    explicit Counter(const doctest::ContextOptions&) {}
    void report_query(const doctest::QueryData&) override {}
    void test_run_start() override {}
    void test_run_end(const doctest::TestRunStats& stats) override {
        tests_run = stats.numTestCasesPassingFilters;
    }
    void test_case_start(const doctest::TestCaseData&) override {}
    void test_case_reenter(const doctest::TestCaseData&) override {}
    void test_case_end(const doctest::CurrentTestCaseStats&) override {}
    void test_case_exception(const doctest::TestCaseException&) override {}
    void subcase_start(const doctest::SubcaseSignature&) override {}
    void subcase_end() override {}
    void log_assert(const doctest::AssertData&) override {}
    void log_message(const doctest::MessageData&) override {}
    void test_case_skipped(const doctest::TestCaseData&) override {}
};

}  // namespace

REGISTER_LISTENER("counter", 1, Counter);

// A name that fits no test is a fault of whoever asked: it would pass without having looked.
int main(int count, char** words) {
    doctest::Context context(count, words);
    const int code = context.run();
    if (context.shouldExit() || tests_run > 0) return code;
    std::fputs("no test has that name\n", stderr);
    return 1;
}
