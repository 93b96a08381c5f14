#include "binder/papers_tag.hpp"

#include "papers_desk.hpp"

using namespace holdpin;

namespace {

using nlohmann::json;

// A finding of a round, its repair, second look and return.
std::int64_t held_and_returned(PapersDesk& desk) {
    const std::string digest = desk.loaded.content.pack.digest("round", "scrubber-before-use");
    const std::int64_t finding =
        desk.enter({"finding-entered", {"p-ann"}, digest, 0,
                    {{"machine", "SW-14"}, {"point", "gas-smell"}, {"reading", "gas"},
                     {"outcome", "stop"}, {"hazard", "lp-leak"}, {"source", "round"}}});
    desk.enter({"round-signed", {"p-ann"}, digest, 0,
                {{"machine", "SW-14"}, {"round", "scrubber-before-use"}, {"round_kind", "before"},
                 {"takeover", false}, {"started_ms", kPapersStart}, {"findings", 1},
                 {"shift_end_ms", kPapersStart + 3'600'000}, {"hours", "1285.2"},
                 {"signature", desk.signature("p-ann", "walked-and-read", "es")},
                 {"readings", {{{"point", "fit-today"}, {"reading", "fit"},
                                {"at_ms", kPapersStart}},
                               {{"point", "gas-smell"}, {"reading", "gas"},
                                {"at_ms", kPapersStart}, {"finding", finding}}}}}});
    const json of{{"machine", "SW-14"}, {"findings", {finding}}};
    auto repair = of;
    repair["stated"] = {"place", "isolated"};
    repair["text"] = desk.hidden("Seal ring of the coupling renewed", "p-bob");
    desk.enter({"repair-stated", {"p-bob"}, "", finding, repair});
    auto look = of;
    look["fine"] = true;
    desk.enter({"recheck-done", {"p-bob"}, "", finding, look});
    auto back = of;
    back["signature"] = desk.signature("p-bob", "returned-to-service", "en");
    desk.clock.pass(86'400'000);
    desk.enter({"returned-to-service", {"p-bob"}, "", finding, back});
    desk.seal();
    return finding;
}

// What the desk writes for an inspection of a lockout procedure, as the flow's own test has it.
json inspection(PapersDesk& desk, const std::string& language) {
    return {{"machine", "SW-14"}, {"machine_class", "ride-on-scrubber-lp"},
            {"procedure", "lockout"}, {"people", {"p-ann"}},
            {"remarks", desk.hidden("Props tried", "p-bob")},
            {"signature", desk.signature("p-bob", "inspected-the-procedure", language)}};
}

}  // namespace

TEST_CASE("a round sheet says each point, reading, finding, time and who signed") {
    PapersDesk desk;
    const std::int64_t finding = held_and_returned(desk);
    const std::string text = text_of_pdf(desk.document("rounds-SW-14-2026-11"), "-layout");
    CHECK(has(text, "Hojas de revisión de SW-14"));
    CHECK(has(text, "¿Qué huele y qué oye?"));
    CHECK(has(text, "What do you smell and hear?"));
    CHECK(has(text, "Fit to drive"));
    CHECK(has(text, "05:40"));
    CHECK(has(text, "machine held · " + std::to_string(finding)));
    CHECK(has(text, "Ana Quispe Morán (p-ann)"));
    CHECK(has(text, "I walked round the machine and read every point myself"));
    CHECK(has(text, "1285.2 h"));
    CHECK_FALSE(has(text, "papers."));
}

TEST_CASE("a hold is followed from the finding to the signed return") {
    PapersDesk desk;
    held_and_returned(desk);
    const std::string text = text_of_pdf(desk.document("holds-SW-14"));
    const std::string plain = text_of_pdf(desk.document("holds-SW-14"), "-layout");
    CHECK(has(plain, "Found"));
    CHECK(has(plain, "Repaired"));
    CHECK(has(plain, "Returned to service"));
    CHECK(has(text, "Seal ring of the"));
    CHECK(has(text, "State closed"));
    CHECK(has(text, "I return the machine to service after repair and a second look"));
    CHECK_FALSE(has(text, "papers."));
}

TEST_CASE("a year's holds of a machine are one document, with what came of them later") {
    constexpr std::int64_t kSixtyDays = 60 * std::int64_t{86'400'000};
    PapersDesk desk;
    const auto found = [&] {
        return desk.enter({"finding-entered", {"p-ann"}, "", 0,
                           {{"machine", "SW-14"}, {"point", "horn"}, {"reading", "silent"},
                            {"outcome", "stop"}, {"hazard", "horn"}, {"source", "round"}}});
    };
    const std::int64_t first = found();
    desk.clock.pass(kSixtyDays);
    const std::int64_t second = found();
    desk.enter({"repair-stated", {"p-bob"}, "", first,
                {{"machine", "SW-14"}, {"findings", {first}}, {"stated", {"parts"}}}});
    desk.seal();
    const std::string before = text_of_pdf(desk.document("holds-SW-14-2026"));
    const std::string after = text_of_pdf(desk.document("holds-SW-14-2027"));
    CHECK(has(before, "Holds and returns of SW-14 in 2026"));
    CHECK(has(before, "Repaired"));
    CHECK_FALSE(has(before, std::to_string(second) + " · "));
    CHECK(has(after, std::to_string(second) + " · "));
    CHECK_FALSE(has(after, "Repaired"));
}

TEST_CASE("the certificate of a lockout inspection has machine, date, employees and inspector") {
    // 29 CFR 1910.147(c)(6)(ii), from memory.
    PapersDesk desk;
    desk.enter({"lockout-procedure-inspected", {"p-bob"}, "", 0, inspection(desk, "en")});
    desk.seal();
    const std::string text = text_of_pdf(desk.document("lockout-"));
    CHECK(has(text, "Machine SW-14 · Ride-on"));
    CHECK(has(text, "Procedure Lockout"));
    CHECK(has(text, "Date of inspection 25 Nov 2026"));
    CHECK(has(text, "Employees included Ana Quispe Morán (p-ann)"));
    CHECK(has(text, "Inspector Robert Okafor-Lind (p-bob)"));
    CHECK(has(text, "Remarks Props tried"));
}

TEST_CASE("a paper of a disputed entry says so, by whom and under which entry") {
    PapersDesk desk;
    const std::int64_t finding = held_and_returned(desk);
    const std::int64_t inspected = desk.enter(
        {"lockout-procedure-inspected", {"p-bob"}, "", 0, inspection(desk, "en")});
    const std::int64_t evaluated = desk.train("en");
    const auto says = [&](const char* paper, std::int64_t note) {
        const std::string text = text_of_pdf(desk.document(paper));
        return has(text, "Disputed Ana Quispe Morán (p-ann) does not agree; entry " +
                             std::to_string(note) + ",");
    };
    const std::int64_t notes[] = {desk.dispute(inspected), desk.dispute(evaluated),
                                  desk.dispute(finding + 1)};  // the round of the finding
    CHECK(says("lockout-", notes[0]));
    CHECK(says("certificate-", notes[1]));
    CHECK(says("rounds-SW-14", notes[2]));
    CHECK(has(text_of_pdf(desk.document("rounds-SW-14")), "En desacuerdo Ana Quispe Morán"));
    CHECK_FALSE(has(text_of_pdf(desk.document("holds-SW-14")), "Disputed"));
    desk.dispute(finding);
    const std::string holds = text_of_pdf(desk.document("holds-SW-14"));
    CHECK(has(holds, "Disputed:"));
    CHECK(has(holds, "It was not"));
}

TEST_CASE("a lockout inspection signed in Spanish names its procedure in Spanish") {
    PapersDesk desk;
    desk.enter({"lockout-procedure-inspected", {"p-bob"}, "", 0, inspection(desk, "es")});
    const std::string text = text_of_pdf(desk.document("lockout-"));
    CHECK(has(text, "Procedimiento Bloqueo"));
    CHECK_FALSE(has(text, "Procedimiento lockout"));
}

TEST_CASE("a lockout inspection is in the binder of its machine and of those included") {
    PapersDesk desk;
    desk.enter({"lockout-procedure-inspected", {"p-bob"}, "", 0, inspection(desk, "en")});
    const auto count = [&](const BinderScope& scope) {
        desk.scope = scope;
        return desk.printed().size();
    };
    CHECK(count({{}, {}, "", "SW-14"}) == 1);
    CHECK(count({{}, {}, "", "SW-21"}) == 0);
    CHECK(count({{}, {}, "p-ann", ""}) == 1);  // was included
    CHECK(count({{}, {}, "p-bob", ""}) == 1);  // inspected
    CHECK(count({{}, {}, "p-cec", ""}) == 0);
}

TEST_CASE("an inspection from before plates were kept is printed with its class") {
    PapersDesk desk;
    json data = inspection(desk, "en");
    data.erase("machine");
    desk.enter({"lockout-procedure-inspected", {"p-bob"}, "", 0, data});
    CHECK(has(text_of_pdf(desk.document("lockout-")), "Machine Ride-on"));
}

TEST_CASE("the summary counts by weeks and draws its charts") {
    PapersDesk desk;
    desk.train("en");
    held_and_returned(desk);
    const std::string text = text_of_pdf(desk.document("summary"), "-layout");
    CHECK(has(text, "Audit summary"));
    CHECK(has(text, "Rounds and releases"));
    CHECK(has(text, "Evaluations in date"));
    CHECK(has(text, "23 Nov 2026"));  // the Monday of the week
    CHECK(has(text, hex(desk.ledger->root()).substr(0, 32)));
    CHECK_FALSE(has(text, "papers."));
}

TEST_CASE("the tag fits one page, its code is 2 cm high and its QR code names machine and entry") {
    PapersDesk desk;
    desk.loaded.content.site.language = "es";
    TagPaper tag{"K7DM3X", "SW-14", "Olor a gas en el cilindro", "Smell of gas at the cylinder",
                 "25 nov 2026, 05:40", "R. Okafor-Lind", 512, kPapersStart};
    const auto pdf = tag_pdf(tag, desk.loaded.content);
    REQUIRE_MESSAGE(pdf.ok(), pdf.error().sentence());
    PapersDesk::keep_for_eyes({"papers/tag.pdf", pdf.value()});
    const std::string text = text_of_pdf(pdf.value());
    CHECK(has(text, "NO ARRANCAR"));
    CHECK(has(text, "DO NOT START"));
    CHECK(has(text, "K7DM3X"));
    const TempDir folder;
    REQUIRE(write_file(folder / "a.pdf", pdf.value()).ok());
    CHECK(has(output_of("pdfinfo '" + (folder / "a.pdf") + "'"), "Pages:           1"));
    output_of("cd '" + (folder / "") + "' && pdftocairo -png -r 100 a.pdf page");
    CHECK(has(output_of("zbarimg -q --raw '" + (folder / "page-1.png") + "'"),
              "HPTAG:SW-14:K7DM3X:512"));
    // The box of a word runs from above the capitals to below the line: 2 cm are 56.7 points.
    const std::string boxes = output_of("pdftotext -bbox '" + (folder / "a.pdf") + "' -");
    const auto at = boxes.rfind("<word", boxes.find("K7DM3X"));
    const auto number = [&](const std::string& name) {
        return std::stod(boxes.substr(boxes.find(name + "=\"", at) + name.size() + 2));
    };
    CHECK(number("yMax") - number("yMin") > 56.7 / 0.73);
}
