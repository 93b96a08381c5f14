// The screen Estimates: choose a subject, change the figures with large keys or type them, see the
// curve and what to do. It writes nothing: no entry, no hold, no release follows from it.
#pragma once

#include <string>
#include <vector>

#include "flows/estimate_sums.hpp"

namespace holdpin {

// The subjects as tiles. With a room given, what needs one begins with its figures.
class EstimatesFlow final : public Flow {
  public:
    explicit EstimatesFlow(std::string room = "") : room_(std::move(room)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::string room_;
};

class EstimateFlow final : public Flow {
  public:
    static Result<std::unique_ptr<Flow>> open(const Session& session, Subject subject,
                                              const std::string& room);
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    EstimateFlow(Subject subject, std::string room, Units units, std::vector<EstimateDial> dials);
    Dial dial_view(const Say& say, std::size_t index) const;
    double least(std::size_t index) const;  // as shown, like `most` and `values_`
    double most(std::size_t index) const;
    void step(std::size_t index, bool up);
    Result<Next> ask_value(Session& session, std::size_t index);
    Result<Next> take_typed(Session& session, std::size_t index, const std::string& typed);

    Subject subject_;
    std::string room_;
    Units units_;
    std::vector<EstimateDial> dials_;
    std::vector<double> values_;  // as shown
};

// The next value of a dial without a step of its own: 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10 …
double next_on_ladder(double value, bool up);

}  // namespace holdpin
