#include "flows/shift_book.hpp"

#include "flows/desk.hpp"
#include "flows/pieces.hpp"
#include "flows/two_people.hpp"
#include "ledger/witness.hpp"
#include "records/privacy.hpp"

namespace holdpin {
namespace {

constexpr std::int64_t kChangeMs = 30 * 60'000;
constexpr int kCodeMost = 20;

bool in_doubt(const Session& session) {
    const auto doubt = ledger_doubt(session.db());
    return !session.world().ledger_ok || !doubt.ok() || doubt.value() != 0;
}

// How many entries the code stands for, where the entries are still those; else nothing.
Result<std::optional<std::uint64_t>> size_of(Session& session, const Witness& witness) {
    std::optional<std::uint64_t> size;
    Ledger& ledger = session.book().ledger();
    if (witness.size && *witness.size <= ledger.size()) {
        const Hash root = TRY(ledger.root_at(*witness.size));
        if (witness_code(*witness.size, root) == witness.code) size = witness.size;
        return size;
    }
    TRY(each_seal(session.db(), [&](const Seal& seal) -> Result<void> {
        if (witness_code(seal.size, seal.root) == witness.code) size = seal.size;
        return {};
    }));
    if (size && witness_code(*size, TRY(ledger.root_at(*size))) != witness.code) size.reset();
    return size;
}

Result<Fact> checked(const Session& session, const std::string& code, std::uint64_t size) {
    Fact fact;
    fact.kind = "shift-book-checked";
    fact.by = {session.person_id()};
    fact.data = {{"code", code}, {"matched", size != 0}, {"size", size}};
    return fact;
}

}  // namespace

bool is_shift_change(const Session& session) {
    const auto window = session.shift();
    if (!window) return true;
    return session.now() - window->start_ms < kChangeMs ||
           window->end_ms - session.now() < kChangeMs;
}

Result<std::string> shift_book_line(const Session& session) {
    if (in_doubt(session)) return std::string();
    const auto seal = TRY(newest_kept_seal(session.db()));
    if (!seal) return std::string();
    return session.say()("book.line", {{"code", witness_code(seal->size, seal->root)},
                                       {"count", std::to_string(seal->size)}});
}

Result<Page> ShiftBookFlow::page(const Session& session) const {
    const Say say = session.say();
    // Read again means typed again: another page, with an empty field.
    Page page = session.blank(read_once_.empty() ? "desk/shift-book" : "desk/shift-book/again");
    page.middle = say("desk.shift-book");
    TextBody body;
    body.heading = say("book.ask");
    body.hint = say("book.hint");
    body.remark = remark_;
    body.remark_is_held = !remark_.empty();
    body.codes = true;
    body.most = kCodeMost;
    page.body = std::move(body);
    page.back = session.back_button();
    page.main = {"main", say("book.check"), "", true, ""};
    return page;
}

Result<Next> ShiftBookFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id != "main") return Next::stay();
    const auto witness = witness_from(action.arg);
    if (!witness) {
        remark_ = session.say()("book.unclear");
        return Next::stay();
    }
    const std::string code = witness.value().code;
    if (const auto size = TRY(size_of(session, witness.value()))) return fits(session, *size, code);
    if (code != read_once_) {
        read_once_ = code;
        remark_ = session.say()("book.read-again", {{"code", code}});
        return Next::stay();
    }
    return fits_not(session, code);
}

Result<Next> ShiftBookFlow::fits(Session& session, std::uint64_t size, const std::string& code) {
    TRY(session.book().enter(TRY(checked(session, code, size))));
    const auto n = static_cast<std::int64_t>(size);
    const auto last = session.book().ledger().at(n);
    const bool purged = !last && last.error().kind == ErrorKind::absent;
    if (!last && !purged) return last.error();
    const Say say = session.say();
    const std::string count = with_thousands(std::to_string(size));
    return Next::replace(std::make_unique<MessageFlow>(
        LugState::open, say("book.fits"),
        std::vector<std::string>{
            purged ? say("book.fits-purged", {{"code", code}, {"count", count}})
                   : say("book.fits-line", {{"code", code},
                                            {"count", count},
                                            {"time", session.when(last.value().at_ms)}}),
            say("book.fits-means")}));
}

// Anybody may look; only who answers for the records puts them in doubt.
Result<Next> ShiftBookFlow::fits_not(Session& session, const std::string& code) {
    const bool entitled =
        session.may(Right::read_records) || session.may(Right::return_to_service);
    std::vector<Fact> facts{TRY(checked(session, code, 0))};
    if (entitled && !in_doubt(session)) {
        Fact doubt;
        doubt.kind = "ledger-doubted";
        doubt.by = {session.person_id()};
        doubt.data = {{"cause", "shift-book"}, {"code", code}};
        facts.push_back(std::move(doubt));
    }
    TRY(session.book().enter(std::move(facts)));
    const Say say = session.say();
    return Next::replace(std::make_unique<MessageFlow>(
        LugState::held, say("book.fits-not"),
        std::vector<std::string>{say("book.fits-not-line", {{"code", code}}),
                                 say(entitled ? "book.held" : "book.fetch")}));
}

// Nobody needs to be current: the training stands in the records that are in doubt.
Result<Next> lift_ledger_doubt(const Session& session) {
    const Say say = session.say();
    if (!session.may(Right::return_to_service)) {
        return Next::push(refusal(session, say("desk.doubt"), say("refused.no-right")));
    }
    const TwoPeople ask{say("desk.doubt"), say("desk.doubt-meaning"), "", Right::read_records,
                        say("desk.doubt-second-person")};
    const auto lift = [](Session& s, const Person& second) -> Result<Next> {
        SignedWork work;
        work.kind = "ledger-doubt-lifted";
        work.meaning = "looked-at-the-records";
        work.about = TRY(ledger_doubt(s.db()));
        work.data = nlohmann::json::object();
        work.second = second.id;
        TRY(enter_work(s, s.person_id(), work));
        return Next::done();
    };
    return Next::push(two_people(session, ask, lift));
}

}  // namespace holdpin
