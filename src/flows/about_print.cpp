#include "flows/about_print.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kPlace = "place:";

const char* key_of(ErrorKind kind) {
    switch (kind) {
        case ErrorKind::full: return "about-print.full";
        case ErrorKind::read_only: return "about-print.read-only";
        case ErrorKind::absent: return "about-print.gone";
        case ErrorKind::refused: return "about-print.refused";
        case ErrorKind::damaged: return "about-print.unread";
        default: return "about-print.failed";
    }
}

ListBody places_body(const Say& say, const std::vector<BinderPlace>& places) {
    ListBody body;
    body.heading = say("about-print.where");
    body.remark = say(places.empty() ? "about-print.where-none" : "about-print.where-remark");
    for (const BinderPlace& place : places) {
        Row row;
        row.id = std::string(kPlace) + place.path;
        row.label = say(place.stick ? "binder.stick" : "binder.folder");
        row.second = place.path;
        body.rows.push_back(std::move(row));
    }
    return body;
}

// The name and the folder each have a line: together they are longer than one.
std::vector<std::string> written_lines(const Say& say, const std::string& path) {
    const auto slash = path.rfind('/');
    return {path.substr(slash + 1),
            say("about-print.done-in", {{"folder", path.substr(0, slash)}}),
            say("about-print.done-line"), say("about-print.done-private")};
}

}  // namespace

Result<Page> AboutPrintFlow::page(const Session& session) const {
    const Say say = session.say();
    AboutPrinter* printer = session.world().about_printer;
    Page page = session.blank("about-me/print");
    page.middle = say("about.heading");
    page.back = session.back_button();
    if (printer == nullptr) {
        page.body = MessageBody{
            LugState::unasked, say("about.print"), {say("about-print.not-here")}};
    } else if (!written_.empty()) {
        page.body = MessageBody{LugState::unasked, say("about-print.done"),
                                written_lines(say, written_)};
        page.main = {"close", say("binder.close"), "", true, ""};
    } else if (fault_) {
        page.body = MessageBody{LugState::held, say("about-print.not-written"),
                                {say(key_of(fault_->kind))}};
        page.main = {"again", say("about-print.again"), "", true, ""};
    } else {
        page.body = places_body(say, printer->places());
        page.main = {"look", say("binder.look"), say("binder.look-second"), true, ""};
    }
    return page;
}

Result<Next> AboutPrintFlow::act(Session& session, const Action& action) {
    AboutPrinter* printer = session.world().about_printer;
    if (action.id == "back" || action.id == "close" || printer == nullptr) return Next::back();
    if (action.id == "again") fault_.reset();
    const bool asked = written_.empty() && !fault_;
    if (!asked || !action.id.starts_with(kPlace)) return Next::stay();
    auto written = printer->print(*session.person(), action.id.substr(kPlace.size()));
    if (written.ok()) {
        written_ = std::move(written).value();
    } else {
        fault_ = written.error();
    }
    return Next::stay();
}

}  // namespace holdpin
