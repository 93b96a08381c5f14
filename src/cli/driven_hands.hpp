// Hands on the real screens: every act goes through what is drawn, as a finger would.
#pragma once

#include <optional>
#include <string>

#include "kiosk/driver.hpp"
#include "script/hands.hpp"

namespace holdpin {

class DrivenHands final : public Hands {
  public:
    struct Options {
        std::string out;          // where pictures go; empty: none are taken
        bool audit = false;       // judge every screen on the way
        bool every_page = false;  // a picture of every page on the way, numbered
        bool silent = false;      // no alarm can be heard
    };
    DrivenHands(World world, HandClock& clock, Glass& glass, Options options);

    Page page() override;
    std::vector<std::string> shown() override;
    Result<void> tap(const std::string& target) override;
    Result<void> type(const std::string& text) override;
    Result<void> picture(const std::string& name) override;
    void power_cut() override;
    void time_passed() override;

    std::size_t pictures() const { return pictures_; }

  private:
    Result<void> judged() const;
    Result<void> picture_of_new_page();

    World world_;
    HandClock& clock_;
    Glass& glass_;
    Options options_;
    std::unique_ptr<App> app_;
    std::optional<Driver> driver_;
    std::size_t pictures_ = 0;
    std::size_t pages_ = 0;
    std::string pictured_;  // id of the page last pictured
};

}  // namespace holdpin
