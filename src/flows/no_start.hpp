// An engine that will not start, once its machine was named: the sheet stays up with what to do at
// the machine, whoever did it says what is done, and the tag is put on. What was not said is shown
// to the mechanic at the desk, who must not trust it to be so.
#pragma once

#include <array>
#include <string_view>

#include "flows/session.hpp"

namespace holdpin {

// What an operator does at once, in this order (HSE safety notice of 2023 on LPG truck fires).
inline constexpr std::array<std::string_view, 4> kSecuring{"stopped", "valve", "key", "air"};

class NoStartFlow final : public Flow {
  public:
    NoStartFlow(std::string plate, std::int64_t finding)
        : plate_(std::move(plate)), finding_(finding) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool is_piece() const override { return true; }

  private:
    std::string plate_;
    std::int64_t finding_;
};

// What was said to be done about a no-start, and what was not; empty for any other finding.
Result<std::vector<Row>> securing_rows(const Session& session, const OpenFinding& finding);

}  // namespace holdpin
