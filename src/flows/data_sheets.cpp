#include "flows/data_sheets.hpp"

#include <algorithm>
#include <array>

#include "flows/pieces.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kFind = "find-data-sheet";
constexpr std::size_t kManySheets = 6;  // more are not seen at one look

// Small letters without accents, for looking up. Letters of other languages stay as they are.
std::string plain_letters(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, char>, 14> kLetters{{
        {"á", 'a'}, {"é", 'e'}, {"í", 'i'}, {"ó", 'o'}, {"ú", 'u'}, {"ü", 'u'}, {"ñ", 'n'},
        {"Á", 'a'}, {"É", 'e'}, {"Í", 'i'}, {"Ó", 'o'}, {"Ú", 'u'}, {"Ü", 'u'}, {"Ñ", 'n'},
    }};
    std::string plain;
    while (!text.empty()) {
        const auto at = std::find_if(kLetters.begin(), kLetters.end(), [&](const auto& letter) {
            return text.starts_with(letter.first);
        });
        if (at != kLetters.end()) {
            plain += at->second;
            text.remove_prefix(at->first.size());
            continue;
        }
        const char letter = text.front();
        plain += letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
        text.remove_prefix(1);
    }
    return plain;
}

bool has_words(const std::string& name, const std::string& wanted) {
    const std::string plain = plain_letters(name);
    const auto words = split(plain_letters(wanted), ' ');
    return std::all_of(words.begin(), words.end(), [&](const std::string& word) {
        return plain.find(word) != std::string::npos;
    });
}

// Another of the same product that the reader reads better.
bool has_better(const std::vector<DataSheet>& all, const DataSheet& sheet,
                const std::string& language) {
    if (sheet.language.empty() || sheet.language == language) return false;
    return std::any_of(all.begin(), all.end(), [&](const DataSheet& other) {
        return other.name == sheet.name &&
               (other.language.empty() || other.language == language);
    });
}

std::string eyewash_line(const Say& say, const Site& site) {
    if (site.eyewash.empty()) return "";
    return say("data-sheets.eyewash", {{"place", say(site.eyewash)}});
}

Result<Next> open_sheet(Session& session, const std::string& id) {
    for (const DataSheet& sheet : session.world().data_sheets->list()) {
        if (sheet.id != id) continue;
        auto drawn = session.world().data_sheets->draw(id, 1);
        if (drawn.ok()) {
            return Next::push(std::make_unique<DataSheetFlow>(sheet, std::move(drawn).value()));
        }
        MessageBody body = undrawn_body(session.say(), session.content().site, sheet.name);
        return Next::push(std::make_unique<MessageFlow>(body.mark, body.heading, body.lines,
                                                        nullptr, session.say()("bar.understood")));
    }
    return Next::stay();
}

Result<Next> ask_name(const Session& session) {
    TextBody body;
    body.heading = session.say()("data-sheets.find");
    body.hint = session.say()("data-sheets.find-hint");
    body.most = 40;
    return Next::push(std::make_unique<TextFlow>(
        "data-sheets/find", std::move(body),
        [](Session&, const std::string& text) -> Result<Next> {
            return Next::done(std::make_unique<DataSheetsFlow>(text));
        }));
}

}  // namespace

std::vector<DataSheet> sheets_for(const std::vector<DataSheet>& all, const std::string& language,
                                  const std::string& wanted) {
    std::vector<DataSheet> some;
    for (const DataSheet& sheet : all) {
        if (has_words(sheet.name + ' ' + sheet.kind, wanted) && !has_better(all, sheet, language)) {
            some.push_back(sheet);
        }
    }
    return some;
}

Tile data_sheets_tile(const Say& say) {
    return {std::string(kDataSheets), say("data-sheets.title"), "", "sheet-data", {}, true, ""};
}

ListBody data_sheets_body(const Say& say, const Site& site, const std::vector<DataSheet>& sheets,
                          const std::string& wanted) {
    ListBody body;
    const auto some = sheets_for(sheets, say.language(), wanted);
    body.heading = say(some.empty() ? "data-sheets.none" : "data-sheets.heading");
    body.remark = eyewash_line(say, site);
    for (const DataSheet& sheet : some) {
        Row row;
        row.id = std::string(kDataSheet) + sheet.id;
        row.label = sheet.name;
        row.second = sheet.kind;
        if (!sheet.language.empty() && sheet.language != say.language()) {
            if (!row.second.empty()) row.second += ", ";
            row.second += say("data-sheets.language-" + sheet.language);
        }
        body.rows.push_back(std::move(row));
    }
    return body;
}

Page data_sheet_page(const Say& say, const Site& site, const DataSheet& sheet,
                     const DrawnSheet& drawn) {
    Page page;
    page.id = "data-sheet/" + sheet.name + "/" + std::to_string(drawn.page);
    page.middle = sheet.kind.empty() ? sheet.name : sheet.name + ", " + sheet.kind;
    page.body = PaperBody{eyewash_line(say, site), drawn.png, drawn.width, drawn.height};
    page.back = {"back", say("bar.back"), "", true, ""};
    if (drawn.pages > 1) {
        page.main = {"turn",
                     say(drawn.page < drawn.pages ? "data-sheets.next" : "data-sheets.first"),
                     say("data-sheets.page", {{"page", std::to_string(drawn.page)},
                                              {"pages", std::to_string(drawn.pages)}}),
                     true, ""};
    }
    return page;
}

MessageBody undrawn_body(const Say& say, const Site& site, const std::string& name) {
    MessageBody body;
    body.heading = say("data-sheets.undrawn", {{"name", name}});
    body.lines = {say("data-sheets.undrawn-line")};
    const std::string eyewash = eyewash_line(say, site);
    if (!eyewash.empty()) body.lines.push_back(eyewash);
    return body;
}

Result<Page> DataSheetsFlow::page(const Session& session) const {
    const Say say = session.say();
    const auto all = session.world().data_sheets->list();
    Page page = session.blank(wanted_.empty() ? "data-sheets" : "data-sheets/found");
    page.middle = say("data-sheets.title");
    ListBody body = data_sheets_body(say, session.content().site, all, wanted_);
    if (wanted_.empty() && body.rows.size() > kManySheets) {
        Row find;
        find.id = kFind;
        find.label = say("data-sheets.find");
        find.second = say("data-sheets.find-hint");
        body.rows.insert(body.rows.begin(), std::move(find));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> DataSheetsFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id == kFind) return ask_name(session);
    if (!action.id.starts_with(kDataSheet)) return Next::stay();
    return open_sheet(session, action.id.substr(kDataSheet.size()));
}

Result<Page> DataSheetFlow::page(const Session& session) const {
    Page made = data_sheet_page(session.say(), session.content().site, sheet_, drawn_);
    Page page = session.blank(made.id);
    page.middle = std::move(made.middle);
    page.body = std::move(made.body);
    page.main = std::move(made.main);
    page.back = session.back_button();
    return page;
}

Result<Next> DataSheetFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id != "turn") return Next::stay();
    const int next = drawn_.page < drawn_.pages ? drawn_.page + 1 : 1;
    auto drawn = session.world().data_sheets->draw(sheet_.id, next);
    if (drawn.ok()) {
        drawn_ = std::move(drawn).value();
        return Next::stay();
    }
    const MessageBody body = undrawn_body(session.say(), session.content().site, sheet_.name);
    return Next::replace(std::make_unique<MessageFlow>(body.mark, body.heading, body.lines, nullptr,
                                                       session.say()("bar.understood")));
}

}  // namespace holdpin
