// Runs a script act by act, with the hands it is given, until the end or the first act that fails.
// Each tap takes a second of the hand-moved clock; nothing else moves it but `wait` and `clock`.
#pragma once

#include <functional>
#include <string>

#include "base/clock.hpp"
#include "flows/world.hpp"
#include "script/act.hpp"
#include "script/hands.hpp"

namespace holdpin {

struct RunReport {
    std::size_t acts = 0;       // carried out
    std::string failure;        // "file:line: act 7: …"; empty: all went as expected
    std::uint64_t entries = 0;  // made on the way
    bool ok() const { return failure.empty(); }
};

class Runner {
  public:
    Runner(World world, HandClock& clock, Hands& hands)
        : world_(std::move(world)), clock_(clock), hands_(hands) {}

    // Told of each act that was carried out, when all it entered is on the disk.
    using Told = std::function<void(const Act&)>;
    void tell_after_each(Told told) { told_ = std::move(told); }

    RunReport run(const Script& script);

  private:
    Result<void> carry_out(const Act& act);
    Result<void> check(const Act& act);
    Result<void> check_grey(const std::string& target);
    Result<void> check_ledger(const std::string& kind, bool wanted);

    Result<void> tap(const std::string& target);
    Result<void> go_on();  // the main action
    Result<void> enter(const std::string& text);
    Result<void> enter_number(const Page& page, const std::string& value);
    Result<void> enter_pin_of(const std::string& badge);
    Result<void> sign_on(const std::string& badge);

    Result<void> answer(const Act& act);
    Result<void> walk(const Act& act);
    Result<void> walk_point(const Act& act, const Page& page);
    Result<void> read_tile(const Page& page, const std::string& reading);
    static std::string number_for(const Act& act, const Point& point, const Page& page);
    Result<void> guide();
    Result<void> quiz(bool right);

    World world_;
    HandClock& clock_;
    Hands& hands_;
    Told told_;
    std::uint64_t mark_ = 0;  // size of the ledger before the last act that did something
};

}  // namespace holdpin
