#include "flows/app.hpp"

#include "flows/session.hpp"

namespace holdpin {

App::App(World world) : session_(std::make_unique<Session>(std::move(world))) {}
App::~App() = default;

Page App::page() {
    session_->look_around();
    auto made = session_->page();
    if (!made) {
        session_->note_failure(made.error());
        made = session_->page();
    }
    return made ? std::move(made).value() : session_->blank("failed");
}
void App::act(const Action& action) { session_->act(action); }
void App::tick() { session_->tick(); }
std::string App::person() const { return session_->person_id(); }

}  // namespace holdpin
