// Ten years of a site, made from a fixed seed: 600,000 rounds in 1.5 million entries, entered
// through the same Book as at the kiosk, with its seals and its folded state. People, machines and
// the points of the rounds are those of the example site; what they did is invented.
#pragma once

#include "bench.hpp"
#include "records/records.hpp"

namespace holdpin::bench {

class TenYears {
  public:
    // `uses`: times a machine was taken and given back; each has two rounds and five entries.
    TenYears(OpenSite& site, HandClock& clock, std::uint64_t seed)
        : site_(site), clock_(clock), random_(seed) {
        for (const Person& person : site.content.site.people) people_.push_back(person.id);
    }

    void make(int uses) {
        constexpr int kAtOnce = 500;
        for (int done = 0; done < uses;) {
            need(site_.db->transaction([&]() -> Result<void> {
                for (int i = 0; i < kAtOnce && done < uses; ++i, ++done) TRY(use());
                return {};
            }));
        }
        site_.sealer->keep_copy();
        need(site_.db->checkpoint());
    }

  private:
    template <typename T>
    const T& one_of(const std::vector<T>& from) {
        return from[random_.below(static_cast<std::uint32_t>(from.size()))];
    }

    // Every point with its first answer, four seconds each.
    nlohmann::json readings_of(const Round& round) {
        nlohmann::json readings = nlohmann::json::array();
        for (std::size_t i = 0; i < round.point_count(); ++i) {
            const Point& point = *round.at(i).second;
            const std::int64_t at_ms = clock_.now_ms() + static_cast<std::int64_t>(i) * 4000;
            nlohmann::json reading{{"point", point.id}, {"at_ms", at_ms}};
            if (point.number) {
                reading["value"] = "35";
            } else {
                reading["reading"] = point.readings.front().id;
            }
            readings.push_back(std::move(reading));
        }
        return readings;
    }

    Result<Entry> walk(const Machine& machine, const std::string& person, const Round& round) {
        const char* kind = round.kind == RoundKind::before ? "before" : "after";
        Fact fact;
        fact.kind = "round-signed";
        fact.by = {person};
        fact.content = site_.content.pack.digest("round", round.id);
        fact.data = {{"machine", machine.plate},
                     {"round", round.id},
                     {"round_kind", kind},
                     {"purpose", kind},
                     {"takeover", false},
                     {"started_ms", clock_.now_ms()},
                     {"shift_end_ms", clock_.now_ms() + kShiftMs},
                     {"findings", 0},
                     {"readings", readings_of(round)},
                     {"signature", {{"name", TRY(name_hash_of(*site_.db, person))},
                                    {"meaning", "walked-and-read"},
                                    {"language", "en"}}}};
        return site_.book->enter(fact);
    }

    Result<void> use() {
        const Pack& pack = site_.content.pack;
        const Machine& machine = one_of(site_.content.site.machines);
        const MachineClass& its_class = *pack.machine_class(machine.machine_class);
        const std::string& person = one_of(people_);
        clock_.pass(1'000'000 + random_.below(50'000));
        TRY(site_.book->enter(Fact{"signed-on", {person}, "", 0, nlohmann::json::object()}));
        const Entry walked = TRY(walk(machine, person, *pack.round(its_class.round_before)));
        const Entry out = TRY(site_.book->enter(
            Fact{"release-given", {person}, "", 0,
                 {{"machine", machine.plate}, {"person", person}, {"room", machine.room},
                  {"until_ms", clock_.now_ms() + kShiftMs}, {"round", walked.n},
                  {"limits", nlohmann::json::array()}, {"rooms", nlohmann::json::array()},
                  {"shifts", nlohmann::json::array()}}}));
        TRY(walk(machine, person, *pack.round(its_class.round_after)));
        TRY(site_.book->enter(Fact{"returned", {person}, "", 0,
                                   {{"machine", machine.plate}, {"release", out.n},
                                    {"findings", 0}, {"closed_for_other", false}}}));
        return {};
    }

    static constexpr std::int64_t kShiftMs = 28'800'000;

    OpenSite& site_;
    HandClock& clock_;
    SeededRandom random_;
    std::vector<std::string> people_;
};

}  // namespace holdpin::bench
