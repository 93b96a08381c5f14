#include "flows/about_me.hpp"

#include <algorithm>
#include <charconv>

#include "base_json/values.hpp"
#include "flows/about_print.hpp"
#include "flows/about_words.hpp"
#include "flows/desk.hpp"
#include "flows/pieces.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kOwnClass = "class:";
constexpr std::string_view kEntry = "entry:";
constexpr std::size_t kMostRows = 200;

Row line(std::string label, std::string second) {
    Row row;
    row.label = std::move(label);
    row.second = std::move(second);
    return row;
}

std::string words_behind(const Session& session, const std::string& hash) {
    if (hash.empty()) return "";
    const auto text = private_text(session.db(), hash);
    return text.ok() ? text.value().value_or("") : "";
}

Row note_row(const Session& session, const Disagreement& note, const std::string& about) {
    const Say say = session.say();
    std::string text = words_behind(session, note.text_hash);
    if (text.empty()) text = say("about.text-erased");
    Row row = line(say("about.disagrees", {{"name", session.name(note.person)}}) + about, text);
    row.word = session.date(session.world().zone.local(note.at_ms).date);
    row.mark = LugState::due;
    return row;
}

std::string when_kept(const Session& session, const Kept& kept) {
    const Say say = session.say();
    if (kept.held) return say("about.held");
    if (kept.one == nullptr) return say("about.no-class");
    if (!kept.until || !kept.one->purge) return kept_words(say, *kept.one);
    return say("about.until", {{"date", session.date(*kept.until)}});
}

// One record: what, when, by whom, how long it is kept, and a way to disagree.
class RecordFlow final : public Flow {
  public:
    explicit RecordFlow(RecordAbout record) : record_(std::move(record)) {}

    Result<Page> page(const Session& session) const override {
        const Say say = session.say();
        const Entry& entry = record_.entry;
        Page page = session.blank("about-me/entry/" + std::to_string(entry.n));
        page.middle = say("about.entry", {{"number", std::to_string(entry.n)}});
        ListBody body;
        body.desk = true;
        body.heading = record_words(say, session.content(), entry);
        std::vector<std::string> by;
        for (const std::string& id : entry.by) by.push_back(session.name(id));
        body.rows.push_back(line(say("about.when"), session.when(entry.at_ms)));
        body.rows.push_back(
            line(say("about.by"), by.empty() ? say("about.by-kiosk") : joined(by, ", ")));
        const std::string text = words_behind(session, text_of(entry.data, "text"));
        if (!text.empty()) body.rows.push_back(line(say("about.words"), text));
        body.rows.push_back(line(say("about.kept"), when_kept(session, record_.kept)));
        for (Row& row : TRY(disagreement_rows(session, entry.n))) {
            body.rows.push_back(std::move(row));
        }
        body.rows.push_back(
            work_row("disagree", say("about.disagree"), say("about.disagree-second"), ""));
        page.body = std::move(body);
        page.back = session.back_button();
        return page;
    }

    Result<Next> act(Session& session, const Action& action) override {
        if (action.id == "back") return Next::back();
        if (action.id != "disagree") return Next::stay();
        TextBody text;
        text.heading = session.say()("about.disagree-ask");
        text.hint = session.say()("about.disagree-hint");
        return Next::push(std::make_unique<TextFlow>(
            "about-me/disagree", std::move(text),
            [n = record_.entry.n](Session& s, const std::string& words) -> Result<Next> {
                const Say say = s.say();
                SignedWork work{say("about.disagree"),
                                say("about.disagree-meaning", {{"number", std::to_string(n)}}),
                                "disagreement-noted",
                                "disagree",
                                nlohmann::json::object(),
                                n,
                                words,
                                s.person_id()};
                return Next::push(sign_work(s, std::move(work)));
            }));
    }

  private:
    RecordAbout record_;
};

// The records of one class, newest first.
class ClassFlow final : public Flow {
  public:
    ClassFlow(const RetentionClass& one, std::vector<RecordAbout> records)
        : class_(one), records_(std::move(records)) {}

    Result<Page> page(const Session& session) const override {
        const Say say = session.say();
        Page page = session.blank("about-me/" + class_.id);
        page.middle = say("about.heading");
        ListBody body;
        body.desk = true;
        body.heading = say(class_.name);
        body.remark = kept_words(say, class_) + ". " + say(class_.why) + " " +
                      say("about.seen-by") + ": " + say(class_.who) + ". " +
                      say.footing(class_.footing, false);
        const std::size_t shown = std::min(records_.size(), kMostRows);
        if (shown < records_.size()) {
            body.rows.push_back(line(
                say("about.newest", {{"count", std::to_string(shown)},
                                     {"all", std::to_string(records_.size())}}), ""));
        }
        for (std::size_t i = 0; i < shown; ++i) {
            const Entry& entry = records_[records_.size() - 1 - i].entry;
            Row row = line(record_words(say, session.content(), entry), session.when(entry.at_ms));
            row.id = std::string(kEntry) + std::to_string(entry.n);
            row.word = std::to_string(entry.n);
            body.rows.push_back(std::move(row));
        }
        page.body = std::move(body);
        page.back = session.back_button();
        return page;
    }

    Result<Next> act(Session&, const Action& action) override {
        if (action.id == "back") return Next::back();
        if (!action.id.starts_with(kEntry)) return Next::stay();
        const std::string number = action.id.substr(kEntry.size());
        std::int64_t n = 0;
        std::from_chars(number.data(), number.data() + number.size(), n);
        for (const RecordAbout& record : records_) {
            if (record.entry.n == n) return Next::push(std::make_unique<RecordFlow>(record));
        }
        return Next::stay();
    }

  private:
    const RetentionClass& class_;
    std::vector<RecordAbout> records_;
};

Result<std::vector<Row>> rows_of(const Session& session, const std::vector<Disagreement>& notes,
                                 bool with_entry) {
    std::vector<Row> rows;
    for (const Disagreement& note : notes) {
        const std::string about =
            with_entry ? " · " + session.say()("about.entry",
                                               {{"number", std::to_string(note.about)}})
                       : std::string();
        rows.push_back(note_row(session, note, about));
    }
    return rows;
}

}  // namespace

Result<std::unique_ptr<Flow>> AboutMeFlow::open(const Session& session) {
    auto records = TRY(records_about(session.db(), session.pack(), session.world().zone,
                                     session.person_id()));
    return std::unique_ptr<Flow>(std::make_unique<AboutMeFlow>(std::move(records)));
}

Result<Page> AboutMeFlow::page(const Session& session) const {
    const Say say = session.say();
    const Person& person = *session.person();
    Page page = session.blank("about-me");
    page.middle = say("about.heading");
    ListBody body;
    body.desk = true;
    body.heading = say("about.heading");
    body.remark = say("about.remark");
    const std::string language = say("about-paper.language-" + person.language);
    body.rows.push_back(
        line(say("about.line"), person.name + " · " + person.badge + " · " + language));
    for (const RecordGroup& group : in_groups(session.pack(), records_)) {
        Row row = line(say(group.one->name), kept_words(say, *group.one));
        row.id = std::string(kOwnClass) + group.one->id;
        row.word = std::to_string(group.records.size());
        body.rows.push_back(std::move(row));
    }
    body.rows.push_back(work_row("print", say("about.print"), say("about.print-second"), ""));
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> AboutMeFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id == "print") return Next::push(std::make_unique<AboutPrintFlow>());
    for (const RecordGroup& group : in_groups(session.pack(), records_)) {
        if (action.id != std::string(kOwnClass) + group.one->id) continue;
        std::vector<RecordAbout> records;
        for (const RecordAbout* record : group.records) records.push_back(*record);
        return Next::push(std::make_unique<ClassFlow>(*group.one, std::move(records)));
    }
    return Next::stay();
}

Result<std::vector<Row>> disagreement_rows(const Session& session, std::int64_t entry) {
    return rows_of(session, TRY(disagreements_about(session.db(), entry)), false);
}

Result<std::vector<Row>> disagreement_rows(const Session& session, const std::string& person) {
    return rows_of(session, TRY(disagreements_of(session.db(), person)), true);
}

}  // namespace holdpin
