#include "binder/papers.hpp"

#include "binder/table.hpp"
#include "papers_desk.hpp"
#include "records/records.hpp"

using namespace holdpin;

TEST_CASE("a certificate has the four items of 1910.178(l)(6) and names the employer") {
    PapersDesk desk;
    desk.train("en");
    desk.seal();
    const std::string text = text_of_pdf(desk.document("certificate-"));
    CHECK(has(text, "Training certificate"));
    CHECK(has(text, "Ana Quispe Morán (p-ann)"));
    CHECK(has(text, "3 Nov 2026 to 5 Nov 2026"));
    CHECK(has(text, "Date of evaluation 25 Nov 2026"));
    CHECK(has(text, "Trained by Robert Okafor-Lind (p-bob)"));
    CHECK(has(text, "Evaluated by Robert Okafor-Lind (p-bob)"));
    CHECK(has(text, "Employer Ash Lane Storage"));
    CHECK(has(text, "Page 1 of"));
    // G-02: printed name, date and time, meaning.
    CHECK(has(text, "I watched the work in the workplace and judged it"));
    CHECK(has(text, "25 Nov 2026, 05:45:00 (America/Chicago) 2026-11-25 11:45:00 UTC"));
    CHECK_FALSE(has(text, "papers."));
}

TEST_CASE("a paper has the time that the site's clock showed then, also where the site has moved") {
    PapersDesk desk;
    desk.train("en");
    desk.moved = Zone::load("Asia/Tokyo").value();  // UTC+9, so that the day is another
    desk.clock.pass(86'400'000);
    const std::string text = text_of_pdf(desk.document("certificate-"));
    CHECK(has(text, "25 Nov 2026, 05:45:00 (America/Chicago) 2026-11-25 11:45:00 UTC"));
    desk.enter({"round-signed", {"p-ann"}, "", 0,
                {{"machine", "SW-14"}, {"round", "scrubber-before-use"},
                 {"started_ms", desk.clock.now_ms()}, {"readings", nlohmann::json::array()},
                 {"signature", desk.signature("p-ann", "walked-and-read", "en")}}});
    desk.dispute(static_cast<std::int64_t>(desk.ledger->size()));
    const std::string round = text_of_pdf(desk.document("rounds-SW-14-2026-11"));
    CHECK(has(round, "Started 26 Nov 2026, 05:45"));
    CHECK(has(round, "26 Nov 2026, 05:47: “It was not so”"));
}

TEST_CASE("the days of a scope are those that the site's clock showed, in papers and tables") {
    PapersDesk desk;
    const std::int64_t n = [&] {
        desk.clock.pass(15 * std::int64_t{3'600'000});  // 20:45 on the 25th, in Tokyo the 26th
        return desk.train("en");
    }();
    desk.moved = Zone::load("Asia/Tokyo").value();
    desk.scope.to = Date{2026, 11, 25};
    CHECK(is_in_scope(desk.ledger->at(n).value(), desk.scope));
    CHECK_FALSE(desk.document("certificate-").empty());
    desk.scope = {Date{2026, 11, 26}, std::nullopt, "", ""};
    CHECK(desk.printed().empty());
}

TEST_CASE("a signature keeps the name it was given under, and the second its meaning") {
    PapersDesk desk;
    nlohmann::json data{{"person", "p-ann"}, {"class", "ride-on-scrubber-lp"},
                        {"topics", {"controls"}}, {"passed", true},
                        {"signature", desk.signature("p-bob", "evaluate", "en")},
                        {"second_signature", desk.signature("p-ann", "walked-and-read", "en")}};
    desk.enter({"evaluated", {"p-bob", "p-ann"}, "", 0, data});
    desk.enrol("p-bob", "Robert Lindqvist");
    desk.enrol("p-ann", "Ana Morán");
    for (const BinderFile& file : desk.printed()) {
        if (!file.path.ends_with(".pdf")) continue;
        const std::string text = text_of_pdf(file.bytes);
        if (!has(text, "Evaluated by")) continue;
        CHECK(has(text, "Evaluated by Robert Okafor-Lind (p-bob)"));
        CHECK(has(text, "Second signature Ana Quispe Morán (p-ann)"));
        CHECK(has(text, "Meaning of the second I walked round the machine"));
        CHECK(has(text, "Name of the operator Ana Morán (p-ann)"));
        return;
    }
    FAIL("no paper of the evaluation");
}

TEST_CASE("a certificate signed in Spanish has no English before its English part") {
    PapersDesk desk;
    desk.train("es");
    desk.seal();
    const std::string text = text_of_pdf(desk.document("certificate-"));
    const auto english = text.find("Training certificate");
    REQUIRE(english != std::string::npos);
    const std::string spanish = text.substr(0, english);
    CHECK(has(spanish, "Constancia de capacitación"));
    CHECK(has(spanish, "Fecha de evaluación"));
    CHECK(has(spanish, "ambos en la carpeta"));
    // Words that every English page of the document has.
    for (const char* word : {" the ", " of ", " and ", "Date", "Employer", "Trained", "Signed",
                             "Entry", "Topic", "Page "}) {
        CHECK_MESSAGE(has(text.substr(english), word), word);
        CHECK_MESSAGE(!has(spanish, word), word);
    }
}

TEST_CASE("an erased name and erased words say so, and what is left is a record") {
    PapersDesk desk;
    desk.train("en");
    desk.seal();
    REQUIRE(erase_private(*desk.db, "p-ann").ok());
    const std::string text = text_of_pdf(desk.document("record-"));
    CHECK(has(text, "Name of the operator name erased (p-ann)"));
    CHECK(has(text, "What was watched words erased"));
    CHECK_FALSE(has(text, "Quispe"));
}

TEST_CASE("a name longer than a line wraps and is whole") {
    PapersDesk desk;
    const std::string name =
        "María de los Ángeles Guadalupe Fernández-Villavicencio y Echeverría-Montalbán de la "
        "Santísima Trinidad del Campo";
    desk.enrol("p-ann", name);
    desk.train("en");
    desk.seal();
    const std::string text = text_of_pdf(desk.document("certificate-"));
    // A line may be broken at a hyphen or a blank; nothing of the name is lost.
    const auto letters = [](const std::string& words) {
        std::string kept;
        for (const char c : words) {
            if (c != ' ' && c != '-') kept.push_back(c);
        }
        return kept;
    };
    CHECK(has(letters(text), letters(name + " (p-ann)")));
}

TEST_CASE("the same records print the same bytes, and the file names title, author and outline") {
    PapersDesk desk;
    desk.train("es");
    desk.seal();
    const std::string first = desk.document("certificate-");
    desk.clock.pass(86'400'000);
    CHECK(desk.document("certificate-") == first);
    const TempDir folder;
    REQUIRE(write_file(folder / "a.pdf", first).ok());
    const std::string about = output_of("pdfinfo -isodates '" + (folder / "a.pdf") + "'");
    CHECK(has(about, "Constancia de capacitación · Ana Quispe Morán (p-ann)"));
    CHECK(has(about, "Ash Lane"));
    CHECK(has(about, "2026-11-25T11:45:00Z"));
    CHECK(has(about, "A4"));
    CHECK(has(first, "/Outlines"));
}

TEST_CASE("a stranger reads the proof off a printed page and it holds") {
    PapersDesk desk;
    const std::int64_t n = desk.train("en");
    const Fact signed_on{"signed-on", {"p-ann"}, "", 0, nlohmann::json::object()};
    for (int i = 0; i < 40; ++i) desk.enter(signed_on);
    desk.seal();
    const TempDir folder;
    REQUIRE(write_file(folder / "a.pdf", desk.document("certificate-")).ok());
    REQUIRE(write_file(folder / "key.pem", public_key_pem(desk.key.public_key)).ok());
    output_of("cd '" + (folder / "") + "' && pdftocairo -png -r 150 a.pdf page");
    output_of("cd '" + (folder / "") + "' && zbarimg -q --raw page*.png > code");
    REQUIRE(write_file(folder / "check.py", desk.document("check-qr.py")).ok());
    const std::string check = "python3 '" + (folder / "check.py") + "' '" +
                              (folder / "key.pem") + "' < '" + (folder / "code") + "'";
    const std::string said = output_of(check);
    CHECK(has(said, "This holds: entry " + std::to_string(n) + ", seal over "));
    CHECK(has(said, "\"kind\":\"evaluated\""));

    std::string code = read_file(folder / "code").value();
    const auto at = code.size() - 40;
    code[at] = code[at] == '0' ? '1' : '0';
    REQUIRE(write_file(folder / "code", code).ok());
    output_of("! " + check + " > '" + (folder / "said") + "' 2>&1");
}

TEST_CASE("what was brought along and not signed here is called a record and no certificate") {
    PapersDesk desk;
    desk.train("");
    desk.seal();
    const std::string text = text_of_pdf(desk.document("record-"));
    CHECK(has(text, "Training record"));
    CHECK(has(text, "A record and no certificate"));
    CHECK(has(text, "Missing: the evaluator's signature at this kiosk"));
    CHECK_FALSE(has(text, "Training certificate"));
}

TEST_CASE("where one of the four items is missing there is a training record that says which") {
    // The four of 29 CFR 1910.178(l)(6).
    const auto evaluation = [](PapersDesk& desk) {
        return nlohmann::json{{"person", "p-ann"}, {"class", "ride-on-scrubber-lp"},
                              {"topics", {"controls"}}, {"passed", true},
                              {"signature", desk.signature("p-bob", "evaluate", "en")}};
    };
    const auto instruct = [](PapersDesk& desk) {
        desk.enter({"instructed", {"p-bob"}, "", 0,
                    {{"person", "p-ann"}, {"class", "ride-on-scrubber-lp"},
                     {"topics", {"controls"}}}});
    };
    const auto record = [](PapersDesk& desk) {
        const std::string text = text_of_pdf(desk.document("record-"));
        CHECK(has(text, "Training record"));
        CHECK_FALSE(has(text, "Training certificate"));
        return text;
    };
    SUBCASE("none") {
        PapersDesk desk;
        instruct(desk);
        desk.enter({"evaluated", {"p-bob"}, "", 0, evaluation(desk)});
        CHECK(has(text_of_pdf(desk.document("certificate-")), "Training certificate"));
    }
    SUBCASE("the name of the operator") {
        PapersDesk desk;
        instruct(desk);
        desk.enter({"evaluated", {"p-bob"}, "", 0, evaluation(desk)});
        REQUIRE(erase_private(*desk.db, "p-ann").ok());
        CHECK(has(record(desk), "Missing: name of the operator."));
    }
    SUBCASE("the date of training") {
        PapersDesk desk;
        desk.enter({"evaluated", {"p-bob"}, "", 0, evaluation(desk)});
        CHECK(has(record(desk), "Missing: date of training."));
    }
    SUBCASE("the date of evaluation") {
        PapersDesk desk;
        instruct(desk);
        auto data = evaluation(desk);
        data["source"] = "brought-along";  // and no date of its own
        desk.enter({"evaluated", {"p-bob"}, "", 0, data});
        CHECK(has(record(desk), "Missing: date of evaluation."));
    }
    SUBCASE("who trained or evaluated") {
        PapersDesk desk;
        instruct(desk);
        desk.enter({"evaluated", {"p-bob"}, "", 0, evaluation(desk)});
        REQUIRE(erase_private(*desk.db, "p-bob").ok());
        CHECK(has(record(desk), "Missing: name of who trained or evaluated."));
    }
}

TEST_CASE("a topic that was practised under another class has its date, as the state counts it") {
    PapersDesk desk;
    nlohmann::json data{{"person", "p-ann"}, {"class", "lift-truck-lp"},
                        {"topics", {"controls"}}, {"on", "2026-11-05"}};
    desk.enter({"practised", {"p-bob"}, "", 0, data});
    data["class"] = "ride-on-scrubber-lp";
    data["passed"] = true;
    data["on"] = "2026-11-06";
    data["signature"] = desk.signature("p-bob", "evaluate", "en");
    desk.enter({"evaluated", {"p-bob"}, "", 0, data});
    const auto state = topics_of(*desk.db, "p-ann").value();
    REQUIRE(state.at("controls").practised == Date{2026, 11, 5});
    const std::string text = text_of_pdf(desk.document("certificate-"), "-layout");
    CHECK(has(text, "– 5 Nov 2026 6 Nov 2026"));  // not instructed, practised, evaluated
}

TEST_CASE("without a seal a certificate says that there is no proof") {
    PapersDesk desk;
    desk.train("en");
    CHECK(has(text_of_pdf(desk.document("certificate-")), "No seal covers this entry yet"));
}

TEST_CASE("a person in the scope gets that person's certificates only") {
    PapersDesk desk;
    desk.train("en");
    desk.scope.person = "p-bob";
    CHECK(desk.printed().empty());
    desk.scope.person = "p-ann";
    CHECK(desk.printed().size() == 1);  // no seal, so no script to check one
    desk.scope.to = Date{2026, 11, 24};
    CHECK(desk.printed().empty());
}
