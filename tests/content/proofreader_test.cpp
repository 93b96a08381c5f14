// One rule, one break, one fault: each row breaks one thing in a pack that had no fault.
#include <doctest/doctest.h>

#include <string>

#include "content/content.hpp"
#include "sample.hpp"

using namespace holdpin;

TEST_CASE("faults of rounds are found") {
    sample::check_breaks(
        "rounds/mill-before.toml",
        {
            {"no finding", "finding = { en = \"Wheel cracked\", es = \"Rueda rota\" }\n", "",
             "reading \"cracked\" has no finding; write finding = { en = \"…\", es = \"…\" } "
             "because "
             "its outcome is stop"},
            {"finding at fine", "drawing = \"wheel-whole\"", "finding = { en = \"x\", es = \"x\" }",
             "has a finding, and its outcome is fine"},
            {"no why",
             "why = { en = \"A cracked wheel flies apart.\", es = \"Una rueda rota sale "
             "volando.\" }\n",
             "", "point \"wheel\" has no why"},
            {"footing", "footing = \"common-practice\"", "footing = \"comon-practice\"",
             "there is no footing \"comon-practice\"; did you mean \"common-practice\"?"},
            {"topic", "topic = \"looking\"", "topic = \"flying\"", "there is no topic \"flying\""},
            {"class", "class = \"mill\"", "class = \"kiln\"", "there is no class \"kiln\""},
            {"sheet", "sheet = \"crush\"", "sheet = \"flood\"", "there is no sheet \"flood\""},
            {"drawing", "drawing = \"wheel-whole\"", "drawing = \"wheel-hole-x\"",
             "draw assets/illustrations/tiles/wheel-hole-x.svg"},
            {"picture", "file = \"mill\"", "file = \"windmill\"",
             "draw assets/illustrations/windmill.svg"},
            {"part in drawing", "parts = [\"wheel\"]", "parts = [\"axle\"]",
             "illustration \"mill\" has no part \"axle\""},
            {"part name", "parts = [\"wheel\"]", "parts = [\"unnamed\"]",
             "part \"unnamed\" has no name"},
            {"two readings",
             "[[station.point.reading]]\nid = \"worn\"\nlabel = { en = \"Worn\", es = "
             "\"Gastada\" }\noutcome = \"note\"\nfinding = { en = \"Wheel worn\", es = \"Rueda "
             "gastada\" }\n",
             "", "point \"wheel\" has 2 readings"},
            {"none fine", "outcome = \"fine\"",
             "outcome = \"note\"\nfinding = { en = \"x\", es = \"x\" }",
             "point \"wheel\" has no reading that is fine"},
            {"reading twice", "id = \"worn\"", "id = \"whole\"",
             "reading \"whole\" is there twice"},
            {"point twice", "id = \"sound\"", "id = \"wheel\"", "point \"wheel\" is there twice"},
            {"station twice", "id = \"running\"", "id = \"outside\"",
             "station \"outside\" is there twice"},
            {"engine first", "[[station.point]]", "engine = true\n[[station.point]]",
             "the engine runs at the first station"},
            {"yes or no", "id = \"worn\"", "id = \"cannot-see\"", "ask only for yes or no"},
            {"id form", "id = \"worn\"", "id = \"Worn\"", "\"id\" is no id: \"Worn\""},
            {"file name", "id = \"mill-before\"", "id = \"mill-early\"", "has another name"},
            {"banned word", "Look from the side.", "Guaranteed fine.",
             "\"guaranteed\" never stands on a screen"},
            {"min and max", "max = \"99999.9\"", "max = \"0\"", "\"max\" is not above \"min\""},
            {"low", "low = \"1.5\"", "low = \"100000\"", "\"low\" is not between min and max"},
            {"number finding",
             "finding = { en = \"Hours do not fit\", es = \"Las horas no cuadran\" }", "",
             "the number of point \"hours\" has no finding"},
            {"number form", "min = \"0\"", "min = \"-1\"", "\"min\" is no number: \"-1\""},
            {"loose accent", "Mire de lado.", "Mire atra\xcc\x81s.", "(not NFC)"},
            {"empty text", "Mire de lado.", " ", "\"look\" in Spanish is empty"},
        });
}

TEST_CASE("what stops a machine is asked before its engine runs") {
    const std::string file = "rounds/mill-before.toml";
    Files pack = sample::pack();
    std::string& text = pack[file];
    const auto at = text.find("[[station]]");
    const auto running = text.find("[[station]]", at + 1);
    const std::string first = text.substr(at, running - at);
    std::string quiet = first;
    // A station without engine and without a stop point opens the round.
    quiet.replace(quiet.find("outcome = \"stop\""), 16, "outcome = \"note\"");
    for (const auto* id : {"\"outside\"", "\"wheel\"", "\"hours\""}) {
        quiet.replace(quiet.find(std::string("id = ") + id) + 6, 1, "n");
    }
    text = text.substr(0, at) + quiet + text.substr(running) + first;
    const Loaded loaded = load_content(pack, sample::assets(), sample::site());
    CHECK_MESSAGE(sample::has(loaded.faults, file, "needs no engine, and comes after the start"),
                  sample::lines(loaded.faults));
}

TEST_CASE("faults of guides are found") {
    sample::check_breaks(
        "guides/look-first.toml",
        {
            {"quiz", "quiz = \"look-first\"", "quiz = \"look-last\"",
             "there is no quiz \"look-last\""},
            {"topic", "topics = [\"looking\"]", "topics = [\"lookin\"]",
             "did you mean \"looking\"?"},
            {"no topic", "topics = [\"looking\"]", "topics = []", "the guide teaches no topic"},
            {"twice in a list", "topics = [\"looking\"]", "topics = [\"looking\", \"looking\"]",
             "names \"looking\" twice"},
            {"no lockout", "footing = \"osha-147\"", "footing = \"common-practice\"",
             "without a lockout before it"},
            {"DANGER without will", "It will crush you.", "It could crush you.",
             "a DANGER does not say what will happen"},
            {"long sentence", "Nobody starts it.",
             "one two three four five six seven eight nine ten one two three four five six seven "
             "eight "
             "nine ten eleven.",
             "\"reason\" has a sentence of 21 words"},
            {"three things", "Turn the wheel.", "Turn it. Stop it. Turn it.",
             "says 3 things to do"},
            {"step twice", "id = \"reach\"", "id = \"lock\"", "step \"lock\" is there twice"},
            {"severity", "severity = \"death\"", "severity = \"deth\"", "did you mean \"death\"?"},
        });
}

TEST_CASE("faults of quizzes are found") {
    sample::check_breaks(
        "quizzes/look-first.toml",
        {
            {"no right one", "right = true", "right = false",
             "question \"q1\" has 0 right choices"},
            {"two right ones", "Correr\" }", "Correr\" }\nright = true",
             "question \"q1\" has 2 right choices"},
            {"two choices", "[[question.choice]]\ntext = { en = \"Run\", es = \"Correr\" }\n", "",
             "question \"q1\" has 2 choices"},
            {"draws too many", "draw = 6", "draw = 13", "13 of 12 questions cannot be drawn"},
            {"must-pass do not fit", "draw = 6", "draw = 1", "must-pass questions do not fit"},
            {"question twice", "id = \"q2\"", "id = \"q1\"", "question \"q1\" is there twice"},
            {"percent", "pass_percent = 80", "pass_percent = 101",
             "\"pass_percent\" is out of range"},
        });
}

TEST_CASE("a quiz that no guide leads to, or that is too short, is a fault") {
    Files pack = sample::pack();
    std::string lone = pack["quizzes/look-first.toml"];
    lone.replace(lone.find("look-first"), 10, "lone");
    lone.resize(lone.find("[[question]]\nid = \"q12\""));
    pack["quizzes/lone.toml"] = lone;
    const Loaded loaded = load_content(pack, sample::assets(), sample::site());
    CHECK(sample::has(loaded.faults, "quizzes/lone.toml", "no guide leads to the quiz \"lone\""));
    CHECK(sample::has(loaded.faults, "quizzes/lone.toml", "the quiz has 11 questions"));
}

TEST_CASE("faults of classes, sheets and screen texts are found") {
    sample::check_breaks("classes/mill.toml",
                 {
                     {"bare tag", "stored = true\n", "stored = true\ntag_only = true\n",
                      "\"motor\" takes a tag only, and no extra measure is named"},
                     {"measure without a tag", "stored = true\n",
                      "stored = true\nextra_measure = { en = \"Fuse out.\", "
                      "es = \"Fusible fuera.\" }\n",
                      "\"motor\" has an extra measure though it takes a lock"},
                     {"guide", "guide = \"look-first\"", "guide = \"look-fist\"",
                      "did you mean \"look-first\"?"},
                     {"round", "round_before = \"mill-before\"", "round_before = \"mill-bevore\"",
                      "there is no round \"mill-bevore\""},
                     {"wrong kind of round", "round_before = \"mill-before\"",
                      "round_before = \"mill-after\"", "is of kind after"},
                     {"not taught", "id = \"looking\"", "id = \"listening\"",
                      "guide \"look-first\" does not teach \"listening\""},
                 });
    sample::check_breaks(
        "sheets/crush.toml",
        {
            {"footing", "footing = \"common-practice\"", "footing = \"x\"",
             "there is no footing \"x\""},
            {"nothing to do", "[[act]]\ntext = { en = \"Call for help.\", es = \"Pida ayuda.\" }\n",
             "", "there is no \"act\""},
        });
    sample::check_breaks(
        "strings/floor.toml",
        {
            {"placeholder", "{machine} está retenida", "{maquina} está retenida",
             "has other placeholders"},
            {"brace", "{machine} is held", "{machine is held", "a brace holds no name"},
            {"key", "sign-on", "Sign_On", "\"Sign_On\" is no key"},
            {"no text", "sign-on = { en = \"Sign on\", es = \"Entrar\" }", "sign-on = \"Sign on\"",
             "is no text"},
            {"banned word", "Sign on", "No cheating", "\"cheating\" never stands on a screen"},
        });
}

// 29 CFR 1910.147(c)(4)(ii)(A)-(D), from memory: what a procedure must outline.
TEST_CASE("each text of a lockout procedure that is taken out is missed with its clause") {
    constexpr std::pair<const char*, const char*> kClauses[] = {
        {"purpose", "(ii)(A)"},    {"scope", "(ii) "},      {"authorisation", "(ii) "},
        {"rules", "(ii) "},        {"techniques", "(ii) "}, {"enforcement", "(ii) "},
        {"shutdown", "(ii)(B)"},  {"block", "(ii)(B)"},    {"place", "(ii)(C)"},
        {"remove", "(ii)(C)"},     {"transfer", "(ii)(C)"}, {"responsible", "(ii)(C)"},
        {"verify", "(ii)(D)"},
    };
    const std::string whole = sample::pack()["classes/mill.toml"];
    const auto missed = [](const std::string& text, const std::string& sentence) {
        Files pack = sample::pack();
        pack["classes/mill.toml"] = text;
        const Loaded loaded = load_content(pack, sample::assets(), sample::site());
        return sample::has(loaded.faults, "classes/mill.toml", sentence);
    };
    const auto without = [&](const std::string& key, std::size_t from) {
        const std::size_t at = whole.find("\n" + key + " = ", from) + 1;
        return whole.substr(0, at) + whole.substr(whole.find('\n', at) + 1);
    };
    for (const auto& [key, clause] : kClauses) {
        const std::string sentence = "no `" + std::string(key) +
                                     "` in the lockout procedure: 1910.147(c)(4)" + clause;
        CAPTURE(key);
        CHECK_FALSE(missed(whole, sentence));
        CHECK(missed(without(key, whole.find("[procedure]")), sentence));
    }
    const std::size_t source = whole.find("[[energy]]");
    CHECK(missed(without("isolate", source), "no `isolate` in the lockout procedure: "
                                             "1910.147(c)(4)(ii)(B)"));
    CHECK(missed(without("verify", source), "no `verify` in the lockout procedure: "
                                            "1910.147(c)(4)(ii)(D)"));
    const std::size_t begin = whole.find("[procedure]");
    CHECK(missed(whole.substr(0, begin) + whole.substr(source), "no [procedure] of the lockout: "
                                                              "1910.147(c)(4)(ii)"));
}

TEST_CASE("faults of the hold table and of duties are found") {
    sample::check_breaks(
        "rulesets/holds.toml",
        {
            {"no row", "code = \"disk-low\"", "code = \"disk-lo\"",
             "the hold \"disk-low\" has no row"},
            {"unknown code", "code = \"disk-low\"", "code = \"disk-lo\"",
             "did you mean \"disk-low\"?"},
            {"twice", "code = \"disk-low\"", "code = \"no-duty\"",
             "hold \"no-duty\" is there twice"},
            {"never overridden", "overridable = false", "overridable = true",
             "the hold \"not-enrolled\" is never overridden"},
            {"placeholder", "Retenida: {machine}", "Retenida", "has other placeholders"},
            {"lug", "lug = \"site\"", "lug = \"room\"", "write one of person, round, findings"},
            {"nobody", "lifted_by = [\"supervisor\"]", "lifted_by = []", "nobody lifts the hold"},
        });
    sample::check_breaks(
        "rulesets/duties.toml",
        {
            {"no row", "id = \"mechanic\"", "id = \"trainer\"", "the duty \"mechanic\" has no row"},
            {"twice", "id = \"mechanic\"", "id = \"trainer\"", "duty \"trainer\" is there twice"},
        });
}

TEST_CASE("faults of a site are found") {
    sample::check_breaks(
        "site.toml",
        {
            {"shift time", "start = \"06:00\"", "start = \"6:00\"", "\"start\" is no time of day"},
            {"shift without length", "end = \"24:00\"", "end = \"06:00\"",
             "shift \"day\" has no length"},
            {"class", "class = \"mill\"", "class = \"kiln\"", "there is no class \"kiln\""},
            {"room", "room = \"hall\"", "room = \"hal\"", "did you mean \"hall\"?"},
            {"person", "confirmed_by = \"p-sol\"", "confirmed_by = \"p-sun\"",
             "there is no person"},
            {"no date", "confirmed_on = 2026-05-04", "", "has no date of confirming"},
            {"on call", "supervisor_on_call = \"p-sol\"", "supervisor_on_call = \"p-luz\"",
             "\"p-luz\" is no supervisor"},
            {"language", "language = \"es\"", "language = \"fr\"", "write one of en, es"},
            {"region", "region = \"EU\"", "region = \"any\"", "\"region\" cannot be \"any\""},
            {"number", "emergency_number = \"112\"", "emergency_number = \"one\"",
             "other than digits"},
            {"volume", "volume_m3 = 900.5", "volume_m3 = nan", "\"volume_m3\" is out of range"},
            {"service", "service_done = \"1200\"", "service_done = \"1300\"",
             "done after its hours"},
            {"date", "inspection_due = 2027-03-01", "inspection_due = 1890-03-01", "out of range"},
            {"employer", "example = true", "employer = \" \"\nexample = true",
             "\"employer\" is empty"},
            {"no folders", "[policy]", "[binder]\n[policy]", "\"folders\" is missing"},
            {"folder from here", "[policy]", "[binder]\nfolders = [\"stick\"]\n[policy]",
             "\"folders\" holds no folder: \"stick\"; write it from the root"},
            {"root", "[policy]", "[binder]\nfolders = [\"/\"]\n[policy]", "no folder: \"/\""},
            {"upwards", "[policy]", "[binder]\nfolders = [\"/srv/../etc\"]\n[policy]",
             "no folder: \"/srv/../etc\""},
            {"slash at the end", "[policy]", "[binder]\nfolders = [\"/srv/\"]\n[policy]",
             "no folder: \"/srv/\""},
            {"folder twice", "[policy]", "[binder]\nfolders = [\"/srv/b\", \"/srv/b\"]\n[policy]",
             "\"folders\" names \"/srv/b\" twice; take one out"},
            {"folder that is none", "[policy]", "[binder]\nfolders = [7]\n[policy]",
             "\"folders\" is a whole number; write text"},
        });
    sample::check_breaks(
        "people.toml",
        {
            {"badge twice", "badge = \"B-2\"", "badge = \"B-1\"", "badge \"B-1\" is there twice"},
            {"person twice", "id = \"p-luz\"", "id = \"p-sol\"", "person \"p-sol\" is there twice"},
            {"PIN length", "example_pin = \"407193\"", "example_pin = \"4071938\"",
             "has not 6 digits"},
            {"PIN letters", "example_pin = \"407193\"", "example_pin = \"4o7193\"",
             "has not 6 digits"},
            {"PIN run", "example_pin = \"407193\"", "example_pin = \"654321\"", "easily guessed"},
            {"duty", "duties = [\"operator\"]", "duties = [\"oprator\"]",
             "did you mean \"operator\"?"},
            {"no duty", "duties = [\"operator\"]", "duties = []", "has no duty"},
            {"signs for self", "signed_by = \"p-sol\"", "signed_by = \"p-luz\"",
             "signs for themself"},
            {"may not sign", "signed_by = \"p-sol\"", "signed_by = \"p-luz\"",
             "may not sign training"},
            {"topic", "topics = [\"looking\"]", "topics = [\"x\"]", "there is no topic \"x\""},
            {"shift", "shifts = [\"day\"]", "shifts = [\"night\"]", "there is no shift \"night\""},
            {"room", "rooms = [\"hall\"]", "rooms = [\"attic\"]", "there is no room \"attic\""},
        });
}

TEST_CASE("PINs and training records stand only in example sites") {
    const Files site =
        sample::with(sample::site(), "site.toml", "example = true", "example = false");
    const Loaded loaded = load_content(sample::pack(), sample::assets(), site);
    CHECK(sample::has(loaded.faults, "people.toml", "a PIN stands in a site that is no example"));
    CHECK(sample::has(loaded.faults, "people.toml", "a training record stands in a site"));
}

TEST_CASE("a site without anything in it is refused") {
    Files site = sample::site();
    site.erase("people.toml");
    const Loaded loaded = load_content(sample::pack(), sample::assets(), site);
    CHECK(sample::has(loaded.faults, "site.toml", "the site has no person"));
}

TEST_CASE("one text may stand in one file only") {
    Files pack = sample::pack();
    pack["strings/more.toml"] = "[floor]\nsign-on = { en = \"Again\", es = \"Otra vez\" }\n";
    const Loaded loaded = load_content(pack, sample::assets(), sample::site());
    CHECK(sample::has(loaded.faults, "strings/more.toml",
                      "the text \"floor.sign-on\" is there twice; the first is at "
                      "strings/floor.toml:3"));
}
