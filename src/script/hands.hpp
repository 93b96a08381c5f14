// What carries out the acts of a script: hands on paper, or hands on the real screens.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "flows/app.hpp"

namespace holdpin {

class Hands {
  public:
    virtual ~Hands() = default;
    virtual Page page() = 0;
    virtual std::vector<std::string> shown() = 0;  // every text on the page
    // A target by its id or its label. Errors: absent, refused (grey).
    virtual Result<void> tap(const std::string& target) = 0;
    virtual Result<void> type(const std::string& text) = 0;
    virtual Result<void> picture(const std::string& name) = 0;
    virtual void power_cut() = 0;  // the program begins again on the same store
    virtual void time_passed() {}  // the clock was moved from outside
};

// Straight into the flows: no window, no drawing. Pictures are not taken.
class PaperHands final : public Hands {
  public:
    explicit PaperHands(World world);
    Page page() override;
    std::vector<std::string> shown() override;
    Result<void> tap(const std::string& target) override;
    Result<void> type(const std::string& text) override;
    Result<void> picture(const std::string&) override { return {}; }
    void power_cut() override;

  private:
    World world_;
    std::unique_ptr<App> app_;
    std::string typed_;
};

}  // namespace holdpin
