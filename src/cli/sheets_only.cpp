#include "cli/sheets_only.hpp"

#include <algorithm>

#include "flows/degraded.hpp"
#include "flows/emergency.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kSheet = "sheet:";
constexpr int kKillFirst = 3;  // so many sheets, in their own order, stand above the rest

}  // namespace

SheetsOnly::SheetsOnly(const Content& content, std::optional<Error> reason,
                       DataSheets* data_sheets)
    : content_(content),
      reason_(std::move(reason)),
      language_(content.site.language),
      data_sheets_(data_sheets) {}

Page SheetsOnly::page() {
    Page page;
    const Sheet* sheet = content_.pack.sheet(sheet_);
    if (data_) {
        page = data_page();
    } else if (sheet != nullptr) {
        page = sheet_page(*sheet);
    } else {
        page = list_ ? list_page() : reason_page();
    }
    page.language = language_;
    page.left = say()(content_.site.name);
    page.more_above = say()("scroll.above");
    page.more_below = say()("scroll.below");
    if (content_.site.example) page.example = say()("site.example");
    return page;
}

MessageBody SheetsOnly::opening_body() const {
    MessageBody body;
    body.heading = say()("records-closed.opening-heading");
    body.lines = {say()("records-closed.opening"), say()("records-closed.opening-wait")};
    return body;
}

// The words of the program are English, and a page has one language.
MessageBody SheetsOnly::closed_body(const Error& reason) const {
    if (auto body = degraded_body(say(), reason)) return std::move(*body);
    const bool absent = reason.kind == ErrorKind::absent;
    MessageBody body;
    body.mark = LugState::held;
    body.heading = say()(absent ? "records-closed.absent-heading" : "records-closed.heading");
    body.lines = {say()(absent ? "records-closed.absent" : "records-closed.line"),
                  say()("degraded.paper")};
    if (language_ == "en") {
        body.lines.push_back(say()("degraded.reason", {{"reason", reason.sentence()}}));
    }
    return body;
}

Page SheetsOnly::reason_page() const {
    Page page;
    page.id = reason_ ? "records-closed" : "records-opening";
    page.body = reason_ ? closed_body(*reason_) : opening_body();
    page.back = {"language", say()("floor.other-language"), "", true, ""};
    page.help = {"help", say()("bar.help"), "", true, ""};
    return page;
}

Page SheetsOnly::list_page() const {
    Page page;
    page.id = "emergency";
    page.middle = say()("bar.help");
    GridBody body;
    std::vector<Sheet> sheets = content_.pack.sheets;
    std::sort(sheets.begin(), sheets.end(),
              [](const Sheet& a, const Sheet& b) { return a.order < b.order; });
    body.first = std::min(kKillFirst, static_cast<int>(sheets.size()));
    for (const Sheet& sheet : sheets) {
        Tile tile;
        tile.id = std::string(kSheet) + sheet.id;
        tile.label = say()(sheet.title);
        tile.drawing = sheet.drawing;
        body.tiles.push_back(std::move(tile));
    }
    if (data_sheets_ != nullptr) body.tiles.push_back(data_sheets_tile(say()));
    page.body = std::move(body);
    page.back = {"back", say()("bar.back"), "", true, ""};
    return page;
}

Page SheetsOnly::data_page() const {
    const Site& site = content_.site;
    if (data_sheet_ && drawn_) return data_sheet_page(say(), site, *data_sheet_, *drawn_);
    Page page;
    page.id = data_sheet_ ? "data-sheet/undrawn" : "data-sheets";
    page.middle = say()("data-sheets.title");
    page.back = {"back", say()("bar.back"), "", true, ""};
    if (data_sheet_) {
        page.body = undrawn_body(say(), site, data_sheet_->name);
    } else {
        page.body = data_sheets_body(say(), site, data_sheets_->list());
    }
    return page;
}

void SheetsOnly::act_on_data(const Action& action) {
    int wanted = 0;
    if (action.id == "back") {
        if (!data_sheet_) data_ = false;
        data_sheet_.reset();
    } else if (action.id == "turn" && data_sheet_ && drawn_) {
        wanted = drawn_->page < drawn_->pages ? drawn_->page + 1 : 1;
    } else if (action.id.starts_with(kDataSheet)) {
        for (const DataSheet& sheet : data_sheets_->list()) {
            if (action.id.substr(kDataSheet.size()) == sheet.id) data_sheet_ = sheet;
        }
        wanted = 1;
    }
    if (wanted == 0 || !data_sheet_) return;
    auto drawn = data_sheets_->draw(data_sheet_->id, wanted);
    drawn_.reset();
    if (drawn.ok()) drawn_ = std::move(drawn).value();
}

Page SheetsOnly::sheet_page(const Sheet& sheet) const {
    Page page;
    page.id = "sheet/" + sheet.id;
    page.middle = say()("bar.help");
    page.body = sheet_body(say(), content_.site, sheet);
    page.back = {"back", say()("bar.back"), "", true, ""};
    return page;
}

void SheetsOnly::act(const Action& action) {
    if (data_) return act_on_data(action);
    if (action.id == "language") {
        language_ = language_ == "en" ? "es" : "en";
    }
    if (action.id == "help") list_ = true;
    data_ = action.id == kDataSheets && data_sheets_ != nullptr;
    if (action.id.starts_with(kSheet)) {
        sheet_ = action.id.substr(kSheet.size());
    } else if (action.id == "back") {
        if (sheet_.empty()) list_ = false;
        sheet_.clear();
    }
}

}  // namespace holdpin
