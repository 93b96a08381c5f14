// Danger work touched at random, one kind at a time and all kinds at once: several people at one
// kiosk, several machines, restarts, sign-offs and time that passes. What must hold of the entries
// is said at the top of danger_promises.hpp, what of each step in danger_steps.hpp; beside it a
// touch of what no page offers enters nothing, and whatever runs holds its machine.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <chrono>

#include "danger_kinds.hpp"
#include "danger_promises.hpp"
#include "danger_steps.hpp"
#include "flows/plates.hpp"
#include "flows/tag_print.hpp"
#include "records/fold.hpp"
#include "support/extent.hpp"

using namespace holdpin;

namespace {

// Whoever sets the variable wants a million of each kind.
int touches_to_make(const Kind& kind) {
    return as_many(kind.touches, 1'000'000);
}

struct Paper final : TagPrinter {
    bool has_printer() const override { return true; }
    Result<TagOut> put_out(const TagCard& card) override {
        return TagOut{true, card.machine + ".pdf"};
    }
};

Fact stated(std::string kind, const char* by, nlohmann::json data) {
    Fact fact;
    fact.kind = std::move(kind);
    fact.by = {by};
    fact.data = std::move(data);
    return fact;
}

void state_fact(Shop& shop, const Fact& fact) { REQUIRE(shop.site->book->enter(fact).ok()); }

void stock(Shop& shop) {
    for (const char* serial : {"GOOD1", "GOOD2", "GOOD3", "GOOD4", "GOOD5", "GOOD6"}) {
        state_fact(shop, stated("cylinder-received", "p-brandt",
                                {{"serial", serial},
                                 {"made", "2022-06"},
                                 {"stamps", nlohmann::json::array()},
                                 {"gas_kg", "15.2"},
                                 {"due", ""}}));
    }
}

// The cylinders that are on no machine come back full from the supplier.
void refill(Shop& shop) {
    const auto store = cylinders(*shop.site->db);
    REQUIRE(store.ok());
    for (const Cylinder& one : store.value()) {
        const bool empty = one.state == CylinderState::empty;
        if (!empty && one.state != CylinderState::set_aside) continue;
        state_fact(shop, stated("cylinder-set", "p-brandt",
                                {{"serial", one.serial}, {"state", "full"}}));
    }
}

// What takes many touches at the desk: a mechanic and a supervisor put all of it right.
void put_right(Shop& shop, const std::string& machine) {
    const auto state = machine_state(*shop.site->db, machine);
    REQUIRE(state.ok());
    std::vector<std::int64_t> entries;
    for (const OpenFinding& one : state.value().findings) entries.push_back(one.entry);
    if (entries.empty()) return;
    nlohmann::json data{{"machine", machine}, {"findings", entries}};
    state_fact(shop, stated("repair-stated", "p-ferreira-kask", data));
    const auto tag = tag_of(*shop.site->db, machine);
    REQUIRE(tag.ok());
    if (tag.value()) data["tag"] = tag.value()->code;
    state_fact(shop, stated("returned-to-service", "p-brandt", data));
}

// A round that takes sixty touches: whoever is signed on may take the machine, if nothing holds it.
void walk_round(Shop& shop, const std::string& machine) {
    const std::string person = shop.app->person();
    const Session session(shop.site->world());
    const MachineClass* machine_class = class_of(session, machine);
    if (person.empty() || machine_class == nullptr) return;
    Fact fact = stated("round-signed", person.c_str(),
                       {{"machine", machine},
                        {"round_kind", "before"},
                        {"shift_end_ms", shop.clock.now_ms() + 4 * 3'600'000LL}});
    fact.content = session.pack().digest("round", machine_class->round_before);
    state_fact(shop, fact);
}

void give_back(Shop& shop, const std::string& machine) {
    const auto state = machine_state(*shop.site->db, machine);
    if (!state.value().out) return;
    state_fact(shop, stated("returned", state.value().out->person.c_str(),
                            {{"machine", machine},
                             {"release", state.value().out->entry},
                             {"findings", 0},
                             {"closed_for_other", false}}));
}

Entitled entitled(const Shop& shop) {
    Entitled made;
    for (const Person& person : shop.site->content.site.people) {
        const auto& has = person.endorsements;
        if (std::find(has.begin(), has.end(), "lp-repair") != has.end()) {
            made.repair_gas.insert(person.id);
        }
        if (shop.site->content.pack.grants(person.duties, Right::return_to_service)) {
            made.give_back.insert(person.id);
        }
    }
    return made;
}

struct Seen {
    std::map<std::string, std::size_t> count;
    std::size_t restarts = 0;
    std::size_t hostile = 0;    // touches of what was not offered
    std::size_t crowded = 0;    // touches with a lockout, a job elsewhere and an alarm at once
    std::size_t releases = 0;
};

bool is_crowded(const Standing& standing) {
    const bool elsewhere = std::any_of(
        standing.jobs.begin(), standing.jobs.end(),
        [&](const auto& job) { return !standing.lockouts.contains(job.first); });
    return elsewhere && !standing.lockouts.empty() && !standing.alarms.empty();
}

// One shop while it is walked through.
class Walk {
  public:
    Walk(const Kind& kind, std::uint64_t seed, Seen& seen)
        : kind_(kind),
          seen_(seen),
          shop_(seed % 2 == 0 ? "es" : "en"),
          promises_(entitled(shop_), shop_.site->content.site.air.average_ppm) {
        shop_.random = SeededRandom(seed);
        shop_.site->tags = std::make_unique<Paper>();
        shop_.restart();
        stock(shop_);
        read_entries();
        standing_ = standing_of(shop_);
    }
    void touch();
    // The state is made again from its entries alone.
    void finish();

  private:
    std::vector<Entry> read_entries();
    void look_again();
    void from_outside();
    void check_holds();
    const std::string& any_machine();
    bool one_in(std::uint32_t many) { return shop_.random.below(many) == 0; }

    const Kind& kind_;
    Seen& seen_;
    Shop shop_;
    DangerPromises promises_;
    Standing standing_;
    std::int64_t read_ = 0;
    std::int64_t changes_ = -1;  // of the data, when `standing_` was looked at
};

std::vector<Entry> Walk::read_entries() {
    std::vector<Entry> entries;
    const auto size = static_cast<std::int64_t>(shop_.site->ledger->size());
    if (size == read_) return entries;
    REQUIRE(shop_.site->ledger->each(read_ + 1, size, [&](const Entry& entry) -> Result<void> {
        promises_.see(entry);
        seen_.releases += entry.kind == "release-given" ? 1U : 0U;
        entries.push_back(entry);
        return {};
    }).ok());
    read_ = size;
    return entries;
}

void Walk::look_again() {
    Query query = shop_.site->db->query("SELECT total_changes()");
    REQUIRE(query.next().value_or(false));
    if (query.integer(0) == changes_) return;
    changes_ = query.integer(0);
    standing_ = standing_of(shop_);
}

const std::string& Walk::any_machine() {
    return kind_.machines[shop_.random.below(static_cast<std::uint32_t>(kind_.machines.size()))];
}

void Walk::from_outside() {
    if (kind_.put_right != 0 && one_in(kind_.put_right)) put_right(shop_, any_machine());
    if (one_in(200)) give_back(shop_, any_machine());
    if (one_in(100)) refill(shop_);
    if (one_in(400)) shop_.clock.pass(shop_.random.below(60) * 60'000LL);
}

// Whatever runs holds its machine, and an alarm each engine of its room.
void Walk::check_holds() {
    const Session session(shop_.site->world());
    for (const std::string& machine : kind_.machines) {
        const auto facts = facts_of(session, machine);
        REQUIRE(facts.ok());
        const auto& holds = facts.value().holds;
        INFO(machine);
        if (promises_.holds(machine) || standing_.holds(machine)) CHECK_FALSE(holds.empty());
        const MachineClass* machine_class = facts.value().snapshot.machine_class;
        const bool engine = machine_class != nullptr && machine_class->has_engine;
        if (!engine || !standing_.alarms.contains(facts.value().snapshot.room)) continue;
        CHECK(set_of(holds)[index_of(HoldCode::air_alarm)]);
    }
}

// What may be entered by a touch that no page offers, and by none at all.
bool is_by_itself(const std::string& kind) {
    constexpr std::array kKinds{"signed-off", "reverify-missed", "sign-refused"};
    return std::find(kKinds.begin(), kKinds.end(), kind) != kKinds.end();
}

void Walk::touch() {
    const Touch touch = next_touch(shop_, kind_.taste);
    INFO("touched " << touch.action.id << " \"" << touch.action.arg << "\" on " << touch.page.id);
    read_entries();
    look_again();
    shop_.tap(touch.action.id, touch.action.arg);
    const std::vector<Entry> entered = read_entries();
    const Standing before = standing_;
    look_again();
    CHECK(wrong_move(before, standing_, entered) == "");
    CHECK(wrong_report(touch.page.id, touch.action.id, entered) == "");
    for (const Entry& entry : entered) {
        INFO(entry.kind);
        CHECK((touch.offered || is_by_itself(entry.kind)));
    }
    seen_.hostile += touch.offered ? 0U : 1U;
    seen_.crowded += is_crowded(standing_) ? 1U : 0U;
    const bool to_machine = touch.offered && touch.action.id.starts_with("machine:");
    if (to_machine) walk_round(shop_, touch.action.id.substr(8));
    from_outside();
    const bool restarts = one_in(150);
    if (restarts) shop_.restart();
    seen_.restarts += restarts ? 1U : 0U;
    if (!restarts && !one_in(50)) return;
    read_entries();
    look_again();
    check_holds();
}

void Walk::finish() {
    const auto before = state_digest(*shop_.site->db);
    REQUIRE(shop_.site->book->rebuild().ok());
    CHECK(before.value() == state_digest(*shop_.site->db).value());
    for (const auto& [kind, count] : promises_.count) seen_.count[kind] += count;
}

Seen walk(const Kind& kind) {
    constexpr int kOneShop = 2'000;  // then another day begins
    const int touches = touches_to_make(kind);
    Seen seen;
    const auto begun = std::chrono::steady_clock::now();
    for (int done = 0; done < touches; done += kOneShop) {
        CAPTURE(done);
        Walk one(kind, static_cast<std::uint64_t>(done / kOneShop) + 1, seen);
        for (int i = 0; i < kOneShop; ++i) one.touch();
        one.finish();
    }
    const auto taken = std::chrono::duration_cast<std::chrono::milliseconds>(
        std::chrono::steady_clock::now() - begun);
    std::string text;
    for (const char* entry : kind.must_come) {
        text += std::string(entry) + " " + std::to_string(seen.count[entry]) + ", ";
        CAPTURE(entry);
        CHECK((seen.count[entry] > 0 || goes_a_part()));
    }
    MESSAGE(std::string(kind.name)
            << ": " << touches << " touches, " << seen.hostile
            << " of what was not there, " << seen.restarts << " restarts, " << seen.releases
            << " handed over, " << seen.crowded << " crowded, " << taken.count()
            << " ms: " << text);
    return seen;
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("an air alarm touched in any order holds its room until a signed reading below the "
              "level") {
        walk(air_alarm_kind());
    }

    TEST_CASE("a no-start touched in any order is cleared by no operator") {
        walk(no_start_kind());
    }

    TEST_CASE("a tag touched in any order holds where it is not the right one, and frees nothing") {
        walk(tag_kind());
    }

    TEST_CASE("an exchange touched in any order at the kiosk holds its machine to the last step") {
        walk(exchange_kind());
    }

    TEST_CASE("a drain touched in any order at the kiosk holds its machine to the last step") {
        walk(drain_kind());
    }

    TEST_CASE("danger work of every kind at once, on several machines, breaks no promise") {
        const Seen seen = walk(everything_kind());
        CHECK((seen.crowded > 100 || goes_a_part()));
        CHECK((seen.releases > 0 || goes_a_part()));
    }
}
