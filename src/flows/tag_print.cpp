#include "flows/tag_print.hpp"

#include <fmt/format.h>

#include "flows/plates.hpp"

namespace holdpin {
namespace {

// "25 Nov 2026, 05:40", by the clock of the site.
std::string date_words(const Session& session, const Say& say, std::int64_t ms) {
    const LocalTime local = session.world().zone.local(ms);
    return say("date.full", {{"day", std::to_string(local.date.day)},
                             {"month", say(fmt::format("date.month-{}", local.date.month))},
                             {"year", std::to_string(local.date.year)}}) +
           ", " + session.clock(ms);
}

std::string who(const Session& session, const OpenFinding& finding) {
    const bool named = session.content().site.policy.tag_names && !finding.by.empty();
    return named ? session.name(finding.by) : std::string();
}

// The hold stands by its entry, with paper or without.
std::string no_paper(const Say& say, const Error& error, const Tag& tag) {
    const bool disk = error.kind == ErrorKind::full || error.kind == ErrorKind::read_only;
    return disk ? say("tag-print.no-room", {{"code", tag.code}}) : say("tag-print.not-here");
}

}  // namespace

Result<TagCard> tag_card(const Session& session, const Tag& tag, const std::string& language) {
    const Say say(session.pack(), language);
    TagCard card;
    card.machine = tag.machine;
    card.code = tag.code;
    card.entry = tag.finding;
    card.issued_ms = tag.issued_ms;
    card.date = date_words(session, say, tag.issued_ms);
    const auto row = TRY(finding_row(session.db(), tag.finding));
    if (!row) return card;
    card.reason = finding_title(session, say, tag.machine, row->finding);
    card.reason_english =
        finding_title(session, Say(session.pack(), "en"), tag.machine, row->finding);
    card.by = who(session, row->finding);
    return card;
}

Result<TagPrinted> print_tag(Session& session, const Tag& tag) {
    const Say say = session.say();
    TagPrinter* printer = session.world().tags;
    if (printer == nullptr) return TagPrinted{false, say("tag-print.not-here")};
    const TagCard card = TRY(tag_card(session, tag, session.content().site.language));
    const auto out = printer->put_out(card);
    if (!out) return TagPrinted{false, no_paper(say, out.error(), tag)};
    Fact fact;
    fact.kind = "tag-printed";
    if (session.person()) fact.by = {session.person_id()};
    fact.about = tag.finding;
    fact.data = {{"machine", tag.machine},
                 {"code", tag.code},
                 {"way", out.value().printed ? "printer" : "folder"}};
    TRY(session.book().enter(fact));
    if (out.value().printed) return TagPrinted{true, say("tag-print.printed")};
    const Args args{{"file", out.value().file}};
    if (printer->has_printer()) return TagPrinted{false, say("tag-print.printer-failed", args)};
    return TagPrinted{true, say("tag-print.in-folder", args)};
}

}  // namespace holdpin
