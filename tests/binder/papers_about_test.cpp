// What is stored about a person, printed for that person.
#include "binder/papers_about.hpp"

#include "papers_desk.hpp"
#include "records/privacy.hpp"
#include "records/records.hpp"

using namespace holdpin;

namespace {

std::string about(PapersDesk& desk, const std::string& id, bool show = true) {
    const BinderMaterial material{*desk.db, *desk.ledger, desk.loaded.content, desk.zone,
                                  desk.key, desk.scope,   desk.clock.now_ms()};
    const auto paper = about_paper(material, *person_with(*desk.db, id).value());
    REQUIRE_MESSAGE(paper.ok(), paper.error().sentence());
    auto pdf = paper_pdf(paper.value());
    REQUIRE_MESSAGE(pdf.ok(), pdf.error().sentence());
    if (show) PapersDesk::keep_for_eyes({"papers/about-" + id + ".pdf", pdf.value()});
    return std::move(pdf).value();
}

void disagree(PapersDesk& desk, std::int64_t about) {
    const std::string text = desk.hidden("I was not shown the drain", "p-ann");
    desk.enter({"disagreement-noted", {"p-ann"}, "", about, {{"person", "p-ann"}, {"text", text}}});
}

}  // namespace

TEST_CASE("one's own records are printed in one's language and in English, each with its number") {
    PapersDesk desk;
    const std::int64_t n = desk.train("en");
    disagree(desk, n);
    const std::string text = text_of_pdf(about(desk, "p-ann"), "-layout");
    const auto english = text.find("What this kiosk stores about you");
    REQUIRE(english != std::string::npos);
    const std::string spanish = text.substr(0, english);
    const std::string rest = text.substr(english);
    CHECK(has(spanish, "Qué guarda este quiosco sobre usted"));
    CHECK(has(spanish, "Ana Quispe Morán (p-ann)"));
    CHECK(has(spanish, "Evaluado en el trabajo"));
    CHECK(has(spanish, "I was not shown the drain"));
    CHECK(has(rest, "Evaluated in the workplace"));
    CHECK(has(rest, "Where you do not agree"));
    CHECK(has(rest, "SW-14, nave de carga"));
    CHECK(has(rest, "Not stored: photo"));
    const auto entries = entries_naming(*desk.db, "p-ann").value();
    CHECK(has(rest, "Records that name you " + std::to_string(entries.size())));
    for (const Entry& entry : entries) CHECK(has(rest, " " + std::to_string(entry.n) + " "));
    CHECK_FALSE(has(text, "about-paper."));
    CHECK_FALSE(has(text, "papers."));
    CHECK_FALSE(has(text, "about."));
}

TEST_CASE("one's own document tells nothing that names others only") {
    PapersDesk desk;
    desk.train("en");
    const std::string text = text_of_pdf(about(desk, "p-bob"));
    CHECK(has(text, "Robert Okafor-Lind (p-bob)"));
    CHECK_FALSE(has(text, "Quispe"));
}

TEST_CASE("words that were erased say so in one's own document") {
    PapersDesk desk;
    desk.train("en");
    REQUIRE(erase_private(*desk.db, "p-ann").ok());
    CHECK(has(text_of_pdf(about(desk, "p-ann", false)), "words erased"));
}

TEST_CASE("three thousand records of one person are printed whole") {
    PapersDesk desk;
    const Fact signed_on{"signed-on", {"p-ann"}, "", 0, nlohmann::json::object()};
    std::vector<Fact> many(1000, signed_on);
    for (int i = 0; i < 3; ++i) REQUIRE(desk.book->enter(many).ok());
    const std::string text = text_of_pdf(about(desk, "p-ann", false));
    CHECK(has(text, "Records that name you 3001"));
    CHECK(has(text, " 3002 "));
}
