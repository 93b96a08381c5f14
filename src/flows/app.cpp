#include "flows/app.hpp"

#include "flows/session.hpp"

namespace holdpin {

App::App(World world) : session_(std::make_unique<Session>(std::move(world))) {}
App::~App() = default;

Page App::page() { return session_->page(); }
void App::act(const Action& action) { session_->act(action); }
void App::tick() { session_->tick(); }
std::string App::person() const { return session_->person_id(); }

}  // namespace holdpin
