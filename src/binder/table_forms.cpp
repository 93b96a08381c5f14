// Every table with its columns. A column may be added at the end, before the footing; none is ever
// renamed or given another meaning (FORMAT.md).
#include "binder/table_cells.hpp"

namespace holdpin {
namespace {

constexpr CellKind kWhole = CellKind::whole;
constexpr CellKind kText = CellKind::text;

Column text(std::string_view name, const char* key) {
    return {name, kText, cells::field, key};
}
Column text(const char* key) { return {key, kText, cells::field, key}; }
Column whole(std::string_view name, const char* key) {
    return {name, kWhole, cells::field, key};
}
Column instant(std::string_view name, const char* key) {
    return {name, kText, cells::instant, key};
}
Column words(std::string_view name, const char* key) {
    return {name, kText, cells::words, key};
}
Column of_entry(const char* key) { return {key, kText, cells::whole_field, key}; }

const Column kKind{"kind", kText, cells::kind, ""};
const Column kAbout{"about", kWhole, cells::about, ""};
const Column kBy{"by", kText, cells::by, ""};
const Column kByName{"by_name", kText, cells::signer, ""};
const Column kMeaning{"meaning", kText, cells::meaning, ""};
const Column kContent{"content", kText, cells::content, ""};
const Column kData{"data", kText, cells::all_data, ""};
const Column kPersonName{"person_name", kText, cells::name, "person"};

// Between what every row begins with and why its rule applies.
std::vector<Column> columns(std::vector<Column> middle, const char* footing) {
    std::vector<Column> all{{"entry", kWhole, cells::number, ""},
                            {"at_utc", kText, cells::utc, ""},
                            {"at_local", kText, cells::local, ""}};
    all.insert(all.end(), middle.begin(), middle.end());
    all.push_back({"footing", kText, cells::footing, footing});
    all.push_back({"footing_source", kText, cells::footing_source, footing});
    return all;
}

std::vector<TableForm> machine_forms() {
    return {
        {"rounds", "One signed round a row.", {"round-signed"},
         columns({text("machine"), text("round"), text("round_kind"), text("purpose"),
                  text("takeover"), instant("started_utc", "started_ms"),
                  instant("counts_until_utc", "shift_end_ms"), whole("findings", "findings"),
                  text("hours"), text("fuel_percent", "fuel"), kBy, kByName, kMeaning, kContent},
                 "osha-178-q7")},
        {"readings", "One reading of a signed round a row, in walking order.", {"round-signed"},
         columns({of_entry("machine"), of_entry("round"), text("point"), text("reading"),
                  text("value"), instant("read_utc", "at_ms"), whole("finding_entry", "finding")},
                 "point"),
         "readings"},
        {"findings", "What was found or reported, and what was said or decided about it.",
         {"finding-*", "limit-decided", "outcome-told"},
         columns({kKind, kAbout, text("findings"), text("machine"), text("point"), text("reading"),
                  text("outcome"), text("hazard"), text("source"), text("stated"), text("allowed"),
                  instant("until_utc", "until_ms"), kBy, kByName, kMeaning,
                  words("words", "text")},
                 "point")},
        {"repairs", "What a mechanic stated, and how the thing was looked at again.",
         {"repair-*", "recheck-done", "service-done", "inspection-done"},
         columns({kKind, kAbout, text("findings"), text("machine"), text("stated"),
                  text("reading"), text("fine"), text("hours"), text("next_due"), kBy, kByName,
                  kMeaning, words("words", "text")},
                 "osha-178-q1")},
        {"returns-to-service", "The decisions that ended a machine's holds.",
         {"returned-to-service"},
         columns({kAbout, text("findings"), text("machine"), kBy, kByName, kMeaning},
                 "osha-178-p1")},
        {"releases", "A machine handed over, or given back.",
         {"release-given", "returned", "release-voided"},
         columns({kKind, text("machine"), text("person"), kPersonName, text("room"),
                  instant("until_utc", "until_ms"), whole("round_entry", "round"),
                  whole("release_entry", "release"), text("limits"), text("findings"),
                  text("closed_for_other"), text("cause"), kBy,
                  instant("air_until_utc", "air_until_ms"), text("rooms"), text("shifts")},
                 "site-policy")},
        {"overrides", "A hold that two people set aside until a time.", {"override-*"},
         columns({kKind, text("machine"), text("code"), instant("until_utc", "until_ms"), kBy,
                  kByName, kMeaning, text("second"),
                  words("second_name", "second_name"), words("reason", "text")},
                 "site-policy")},
    };
}

std::vector<TableForm> training_forms() {
    return {
        {"guides", "A guide that was read to its end. Reading opens nothing.", {"guide-read"},
         columns({text("person"), kPersonName, text("guide"), text("language"), kContent},
                 "osha-178-l2")},
        {"quizzes", "A quiz with its score. A quiz alone opens nothing.", {"quiz-finished"},
         columns({text("person"), kPersonName, text("quiz"), text("guide"), text("topics"),
                  whole("asked", "asked"), whole("right", "right"),
                  {"percent", kWhole, cells::percent_right, ""},
                  whole("must_pass_wrong", "must_pass_wrong"), text("passed"), kMeaning,
                  kContent},
                 "topic")},
        {"evaluations", "Instruction in person, practice, evaluations and refreshers.",
         {"instructed", "practised", "evaluated", "refresher-opened"},
         columns({kKind, text("person"), kPersonName, text("class"), text("topics"),
                  text("passed"), text("on"), text("source"),
                  {"trainee_signed_utc", kText, cells::second_signed, "trainee_signed_ms"}, kBy,
                  kByName, kMeaning,
                  words("words", "text")},
                 "osha-178-l4")},
        {"authorisations", "Permission for a person and a class, given or withdrawn.",
         {"authorised", "authorisation-*"},
         columns({kKind, text("person"), kPersonName, text("class"), text("rooms"),
                  text("shifts"), kBy, kByName, kMeaning},
                 "osha-178-l")},
    };
}

std::vector<TableForm> danger_forms() {
    return {
        {"lockouts", "Locks placed and removed, and what else was entered about lockout.",
         {"lockout-*", "lock-*", "prop-*", "energy-*", "lift-off", "reverify-missed",
          "procedures-told", "zone-left", "engine-stopped", "rinse-left", "arm-alone-assessed"},
         columns({kKind, kAbout, text("machine"), kBy, kByName, kMeaning, kData,
                  text("machine_class"), words("words", "text"), words("remarks", "remarks")},
                 "osha-147")},
        {"air", "Carbon monoxide as it was read, alarms, doors, rooms and tailpipe tests.",
         {"air-*", "door-set", "room-set", "tailpipe-tested", "symptoms-*", "heads-counted"},
         columns({kKind, text("room"), text("ppm"), text("instrument"), text("source"),
                  instant("read_utc", "read_ms"), text("present"), text("cause"), text("door"),
                  text("open"), text("closed"), text("machine"), text("co_lmin"), text("on"), kBy,
                  kByName, kMeaning, kAbout, whole("felt_ill", "count"), text("seen"),
                  text("missing")},
                 "air")},
        {"cylinders", "The register of LP cylinders as it changed.", {"cylinder-*"},
         columns({kKind, kAbout, text("serial"), text("machine"), text("state"), text("reason"),
                  text("made"),
                  text("stamps"), text("gas_kg"), text("due"), kBy, kByName, kMeaning, kData},
                 "cylinders")},
        {"jobs", "Guided jobs at machines, step by step, floors left wet, and the eyewash.",
         {"work-*", "floor-wet", "floor-dry", "eyewash-run"},
         columns({kKind, kAbout, text("machine"), kBy, kByName, kMeaning, kData}, "site-policy")},
        {"tags", "Tags of machines out of service: issued, put up, read.", {"tag-*"},
         columns({kKind, kAbout, text("machine"), kBy, kByName, kMeaning, kData}, "site-policy")},
        {"refusals", "Badges and PINs that were refused.",
         {"sign-on-refused", "sign-refused"},
         columns({kKind, text("reason"), text("person"), kPersonName,
                  whole("failures", "failures")},
                 "site-policy")},
    };
}

std::vector<TableForm> register_forms() {
    TableForm all{"entries", "Every entry, whatever its kind.", {"*"},
                  columns({kKind, kBy, kByName, kMeaning, kAbout, kContent,
                           {"zone", kText, cells::zone, ""}, {"boot", kText, cells::boot, ""},
                           kData},
                          "site-policy")};
    all.in_workbook = false;  // too long for a sheet, and entries.jsonl has it exactly
    return {
        {"people", "An enrolment; a change of a person is another row.", {"person-enrolled"},
         columns({text("person"), words("name", "name"), text("badge"), text("language"),
                  text("duties"), text("endorsements"), text("extension"),
                  words("competence", "competence"), text("listed_until")},
                 "site-policy")},
        {"machines", "A machine, or one whose line changed.", {"machine-enrolled"},
         columns({text("machine"), text("class"), text("room"), text("hours"),
                  text("fuel_percent", "fuel"), text("service_every"), text("service_done"),
                  text("inspection_due"), text("approved_as_truck")},
                 "site-policy")},
        {"disagreements", "What somebody does not agree with, and why; the record stays.",
         {"disagreement-noted"},
         columns({kAbout, kBy, kByName, kMeaning, words("words", "text")}, "site-policy")},
        std::move(all),
    };
}

// Cells of `currency` are not made by functions: its rows are the sum of many entries.
std::string none(const RowSource&, const char*) { return {}; }

}  // namespace

const std::vector<TableForm>& table_forms() {
    static const std::vector<TableForm> kForms = [] {
        std::vector<TableForm> forms = machine_forms();
        for (auto& group : {training_forms(), danger_forms(), register_forms()}) {
            forms.insert(forms.end(), group.begin(), group.end());
        }
        return forms;
    }();
    return kForms;
}

const TableForm& currency_form() {
    static const TableForm kForm{
        "currency",
        "Who is current in what on the day in `as_of`; the entry is the latest that counts.",
        {},
        {{"entry", kWhole, none, ""}, {"at_utc", kText, none, ""}, {"at_local", kText, none, ""},
         {"as_of", kText, none, ""}, {"person", kText, none, ""}, {"person_name", kText, none, ""},
         {"class", kText, none, ""}, {"authorised", kText, none, ""}, {"topic", kText, none, ""},
         {"instructed", kText, none, ""}, {"practised", kText, none, ""},
         {"evaluated", kText, none, ""}, {"valid_until", kText, none, ""},
         {"state", kText, none, ""}, {"footing", kText, none, ""},
         {"footing_source", kText, none, ""}}};
    return kForm;
}

}  // namespace holdpin
