// The program behind the glass: who is signed on, which piece of work is open, what is shown.
// Decisions are in rules/, drawing in kiosk/; here one flow at a time turns actions into entries.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "flows/page.hpp"
#include "flows/world.hpp"

namespace holdpin {

class Session;

class App final : public Stage {
  public:
    explicit App(World world);
    ~App() override;

    Page page() override;
    void act(const Action& action) override;
    // What is due without a touch, once a turn of the loop: the seal at a change of shift. Shows
    // nothing; what fails is tried again at the next touch, which says it.
    void tick();

    // The id of the person signed on; empty: nobody.
    std::string person() const;

  private:
    std::unique_ptr<Session> session_;
};

}  // namespace holdpin
