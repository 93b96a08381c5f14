// The files of a binder, read by programs that know nothing of Holdpin.
#include <doctest/doctest.h>

#include <algorithm>

#include "binder/calendar.hpp"
#include "bound.hpp"
#include "outside.hpp"
#include "support/extent.hpp"

using namespace holdpin;

TEST_CASE("CSV, workbook and JSON lines have the same cells, each read by another's reader") {
    Bound f;
    f.made();
    const Ran compared = python("compare_tables.py", f.out());
    CHECK_MESSAGE(compared.code == 0, compared.said);
    CHECK(compared.said.ends_with("cells agree\n"));
}

TEST_CASE("sha256sum and openssl find sums and signature in order") {
    Bound f;
    f.made();
    const std::string there = "cd " + f.out() + " && ";
    const Ran sums = outside(there + "sha256sum --check --strict --quiet SHA256SUMS");
    CHECK_MESSAGE(sums.code == 0, sums.said);
    const Ran signature = outside(there +
                                      "openssl pkeyutl -verify -pubin -inkey key.pem -rawin "
                                      "-in SHA256SUMS -sigfile SHA256SUMS.sig");
    CHECK_MESSAGE(signature.code == 0, signature.said);
}

TEST_CASE("unzip and python read the zip, and its sums hold") {
    Bound f;
    const std::string zip = (f.dir / "out.zip").string();
    REQUIRE(f.make({}, zip).ok());
    const Ran unpacked = outside("unzip -q " + zip + " -d " + f.out() + " && cd " + f.out() +
                                     " && sha256sum --check --strict --quiet SHA256SUMS");
    CHECK_MESSAGE(unpacked.code == 0, unpacked.said);
    const Ran listed = outside("/usr/bin/python3 -m zipfile -t " + zip);
    CHECK_MESSAGE(listed.code == 0, listed.said);
}

TEST_CASE("due dates are a calendar that another program reads") {
    Bound f;
    f.made();
    const Ran read = python("read_calendar.py", f.out() + "/due.ics");
    REQUIRE_MESSAGE(read.code == 0, read.said);
    CHECK(read.said ==
          "2027-03-01 Inspection due: LT-2 | Entry 4 of the ledger\n"
          "2027-03-01 Inspection due: SW-14 | Entry 3 of the ledger\n"
          "2027-06-30 Listing as trainer or evaluator ends: p-ann | Entry 1 of the ledger\n"
          "2029-11-25 Evaluation due: p-ben, truck | Controls; levers, pedals / "
          "Entry 8 of the ledger\n"
          "2033-02-28 Cylinder due for its test: A1003 | Entry " +
              f.cell("cylinders", 1, "entry") + " of the ledger\n");
}

TEST_CASE("long lines of a calendar are folded between letters, and texts are escaped") {
    DueDate due{"x", {2027, 3, 1}, "", "", 1};
    for (int i = 0; i < 60; ++i) due.what += "ñ,;\\";
    const std::string text = calendar_text({due}, {"0123", kBound});
    // RFC 5545 sections 3.1 and 3.3.11.
    std::string unfolded;
    for (const auto& line : split(text, '\n')) {
        CHECK(line.size() <= 76);  // with the carriage return
        unfolded += line.starts_with(" ") ? line.substr(1) : "\n" + line;
        if (!unfolded.empty() && unfolded.back() == '\r') unfolded.pop_back();
    }
    std::string wanted = "SUMMARY:";
    for (int i = 0; i < 60; ++i) wanted += "ñ\\,\\;\\\\";
    CHECK(unfolded.find(wanted + "\n") != std::string::npos);
}

TEST_CASE("training is xAPI statements without names, and work is none") {
    Bound f;
    f.made();
    const Ran read = python("read_statements.py", f.out() + "/training.xapi.json");
    REQUIRE_MESSAGE(read.code == 0, read.said);
    CHECK(read.said == "completed p-ben 5\npassed p-ben 6\nattended p-ben 7\npassed p-ben 8\n");
    CHECK(f.file("training.xapi.json").find("Ben") == std::string::npos);
    CHECK(f.file("training.xapi.json").find("round") == std::string::npos);
}

TEST_CASE("LibreOffice opens the workbook") {
    if (!goes_all_the_way()) {
        MESSAGE("left out: set HOLDPIN_LONG");
        return;
    }
    if (outside("command -v soffice").code != 0) {
        MESSAGE("left out: libreoffice-calc-nogui is not installed");
        return;
    }
    Bound f;
    f.made();
    // The first sheet comes out as text.
    const Ran made = outside("HOME=" + f.dir.string() + " soffice --headless --convert-to csv" +
                                 " --outdir " + f.dir.string() + " " + f.out() + "/records.xlsx");
    CHECK_MESSAGE(made.code == 0, made.said);
    const auto sheet = read_file((f.dir / "records.csv").string());
    REQUIRE(sheet.ok());
    CHECK(sheet.value().find("ash-lane") != std::string::npos);
    CHECK(sheet.value().find(hex(f.ledger->root())) != std::string::npos);
}
