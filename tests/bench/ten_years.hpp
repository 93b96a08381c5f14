// Ten years of a site, made from a fixed seed: 600,000 rounds in 1.5 million entries, entered
// through the same Book as at the kiosk, with its seals and its folded state. People and
// machines are those of the example site; what they did is invented.
#pragma once

#include <array>

#include "bench.hpp"

namespace holdpin::bench {

class TenYears {
  public:
    // `uses`: times a machine was taken and given back; each has two rounds and five entries.
    TenYears(OpenSite& site, HandClock& clock, std::uint64_t seed)
        : site_(site), clock_(clock), random_(seed) {
        for (const Machine& machine : site.content.site.machines) plates_.push_back(machine.plate);
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

    Fact round(const std::string& plate, const std::string& person, const char* kind) {
        nlohmann::json readings = nlohmann::json::array();
        const int points = kind[0] == 'b' ? 32 : 10;
        for (int i = 0; i < points; ++i) {
            readings.push_back({{"point", "point-" + std::to_string(i)},
                                {"reading", "fine"},
                                {"at_ms", clock_.now_ms() + i * 4000}});
        }
        Fact fact;
        fact.kind = "round-signed";
        fact.by = {person};
        fact.content = std::string(64, 'a');
        fact.data = {{"machine", plate},       {"round", "scrubber"},
                     {"round_kind", kind},     {"purpose", kind},
                     {"takeover", false},      {"started_ms", clock_.now_ms()},
                     {"shift_end_ms", clock_.now_ms() + 28'800'000},
                     {"findings", 0},          {"readings", std::move(readings)},
                     {"signature", {{"name", std::string(64, 'b')},
                                    {"meaning", "walked-and-read"},
                                    {"language", "en"}}}};
        return fact;
    }

    Result<void> use() {
        const std::string& plate = one_of(plates_);
        const std::string& person = one_of(people_);
        clock_.pass(1'000'000 + random_.below(50'000));
        TRY(site_.book->enter(Fact{"signed-on", {person}, "", 0, nlohmann::json::object()}));
        const Entry walked = TRY(site_.book->enter(round(plate, person, "before")));
        const Entry out = TRY(site_.book->enter(
            Fact{"release-given", {person}, "", 0,
                 {{"machine", plate}, {"person", person}, {"room", "dock-hall"},
                  {"until_ms", clock_.now_ms() + 28'800'000}, {"round", walked.n},
                  {"limits", nlohmann::json::array()}, {"rooms", nlohmann::json::array()},
                  {"shifts", nlohmann::json::array()}}}));
        TRY(site_.book->enter(round(plate, person, "after")));
        TRY(site_.book->enter(Fact{"returned", {person}, "", 0,
                                   {{"machine", plate}, {"release", out.n}, {"findings", 0},
                                    {"closed_for_other", false}}}));
        return {};
    }

    OpenSite& site_;
    HandClock& clock_;
    SeededRandom random_;
    std::vector<std::string> plates_;
    std::vector<std::string> people_;
};

}  // namespace holdpin::bench
