// A whole shift, run again and again, each time with a fault at another write or sync of the disk.
// Every twentieth in the ordinary run; all of them where HOLDPIN_LONG is set in the environment.
#include <doctest/doctest.h>

#include <algorithm>

#include "base/text.hpp"
#include "crash/faulty_shift.hpp"
#include "script/shown.hpp"
#include "support/extent.hpp"

using namespace holdpin;

namespace {

void fail_everywhere(DiskFault fault, const std::string& name, const char* sentence) {
    FaultyShift shift;
    Tally tally;
    SeededRandom random(41 + static_cast<std::uint64_t>(fault));
    const int step = one_of(20);
    const int first = 1 + static_cast<int>(random.below(static_cast<std::uint32_t>(step)));
    for (int nth = first; nth <= shift.calls(); nth += step) {
        CAPTURE(nth);
        const Shown shown = shift.run(nth, fault);
        CHECK((shown.met_fault || fault == DiskFault::full));
        // Without power nobody reads a sentence.
        if (shown.said() && !shown.page.empty()) CHECK(is_shown(shown.failed, sentence));
        shift.inspect(shown, tally);
    }
    MESSAGE(name << ": " << tally.runs << " of " << shift.calls() << " places, met in "
                 << tally.faults << ", said in " << tally.said << ", shift went on in "
                 << tally.finished << ", more kept than shown in " << tally.beyond);
    CHECK(tally.runs >= shift.calls() / step);
    CHECK(tally.said > 0);
}

}  // namespace

TEST_CASE("a power cut at any write of a shift loses nothing that was shown") {
    fail_everywhere(DiskFault::power_cut, "power cut", "");
}

TEST_CASE("a page torn at any write of a shift loses nothing that was shown") {
    fail_everywhere(DiskFault::torn, "torn page", "");
}

TEST_CASE("an I/O error at any write of a shift is said and loses nothing that was shown") {
    fail_everywhere(DiskFault::io_error, "I/O error", "could not read or write");
}

TEST_CASE("a disk that is full from any write of a shift on is said and loses nothing") {
    fail_everywhere(DiskFault::full, "disk full", "The disk of this kiosk is full");
}
