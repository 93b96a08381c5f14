// The session: who is signed on, the stack of open pieces of work, and what every page has in
// common. A flow sees the world only through it.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "flows/page.hpp"
#include "flows/say.hpp"
#include "flows/watches.hpp"
#include "flows/world.hpp"
#include "records/records.hpp"
#include "rules/shifts.hpp"

namespace holdpin {

class Flow;
class Session;

// What becomes of the stack after an action.
struct Next {
    enum class Way {
        stay,
        push,      // `flow` goes on top
        replace,   // `flow` takes the place of the top
        back,      // the top goes away
        done,      // all pieces on top go away; `flow`, if any, goes on top of what asked for them
        finish,    // all pieces on top and what asked for them go away
        unwind,    // everything above the floor goes; `flow`, if any, goes on top
        sign_off,
    };
    Way way = Way::stay;
    std::unique_ptr<Flow> flow;

    static Next stay();
    static Next push(std::unique_ptr<Flow> flow);
    static Next replace(std::unique_ptr<Flow> flow);
    static Next back();
    static Next done(std::unique_ptr<Flow> flow = nullptr);
    static Next finish(std::unique_ptr<Flow> flow = nullptr);
    static Next unwind(std::unique_ptr<Flow> flow = nullptr);
    static Next sign_off();
};

// One guided piece of work. `page` has no effects; `act` may write, and what it wrote is durable
// when it returns. An error is shown and nothing has happened.
class Flow {
  public:
    virtual ~Flow() = default;
    virtual Result<Page> page(const Session& session) const = 0;
    virtual Result<Next> act(Session& session, const Action& action) = 0;
    // A piece that other flows are put together from; `Next::done` takes it away.
    virtual bool is_piece() const { return false; }
    // Stays on the stack when whoever was signed on is gone.
    virtual bool outlives_session() const { return false; }
    // False: it works though nothing can be stored, as the emergency sheets do.
    virtual bool needs_records() const { return true; }
    // Stays on top of everything but the emergency page until it is answered.
    virtual bool is_alarm() const { return false; }
};

class Session {
  public:
    explicit Session(World world);

    // ---- for App ----
    // What is due without a touch: a forgotten session is signed off; an air alarm and a look that
    // was missed come up over whatever is open.
    void look_around();
    // The open piece as it is now. Has no effects; call `look_around` first.
    Result<Page> page() const;
    void act(const Action& action);
    void tick();
    // Puts a sentence about what failed on top; the work stays where it was.
    void note_failure(const Error& error);

    // ---- for flows: reading ----
    const World& world() const { return world_; }
    const Content& content() const { return world_.content; }
    const Pack& pack() const { return world_.content.pack; }
    Database& db() const { return world_.book.db(); }
    Say say() const { return Say(pack(), language_); }
    const std::optional<Person>& person() const { return person_; }
    std::string person_id() const { return person_ ? person_->id : std::string(); }
    bool may(Right right) const;
    bool desk_open() const { return desk_open_; }
    bool night() const;

    std::int64_t now() const { return world_.clock.now_ms(); }
    Date today() const { return world_.zone.local(now()).date; }
    std::optional<ShiftWindow> shift() const;
    // The shift that a round signed now counts for: within the minutes in which a round may wait
    // for its release, it is the coming one, so that people can be ready when it begins.
    std::optional<ShiftWindow> work_shift() const;
    // When that shift ends; outside every shift, eight hours from now.
    std::int64_t work_end_ms() const;
    std::string clock(std::int64_t ms) const;      // "05:40"
    std::string day(std::int64_t ms) const;        // "Wed 25 Nov"
    std::string date(Date date) const;             // "25 Nov 2026"
    std::string when(std::int64_t ms) const;       // "Wed 25 Nov, 05:40"
    std::string name(const std::string& person) const;
    std::string room_name(const std::string& room) const;

    // A page with everything that all pages share; the flow adds body, middle and its buttons.
    Page blank(std::string id) const;
    Button back_button() const;

    // ---- for flows: writing ----
    Book& book() { return world_.book; }
    World& mutable_world() { return world_; }
    // A fact signed by `person`: who, name at the time, meaning, language.
    Result<Fact> signed_fact(std::string kind, const std::string& person, std::string meaning,
                             nlohmann::json data) const;
    // Comes up over whatever follows the action that is being done.
    void tell(std::unique_ptr<Flow> flow) { told_ = std::move(flow); }
    void open_person(Person person);
    void open_desk() { desk_open_ = true; }
    void set_language(std::string language) { language_ = std::move(language); }
    void toggle_night() { night_toggled_ = !night_toggled_; }

  private:
    void apply(Next next);
    void sign_off();
    void close_work();
    void show_new_alarms();
    bool watch_lockouts();
    Result<void> watch();
    void add_idle_watch(Page& page) const;

    World world_;
    std::optional<Person> person_;
    std::string language_;
    bool desk_open_ = false;
    bool night_toggled_ = false;
    std::int64_t touched_ms_ = 0;
    std::int64_t alarms_shown_ = 0;  // the entry of the newest air alarm that came up
    ClockWatch clock_watch_;
    ShiftSeal shift_seal_;
    std::vector<std::unique_ptr<Flow>> stack_;
    std::unique_ptr<Flow> told_;  // by the action that is being done
};

}  // namespace holdpin
