// The air alarm of one room: raised by a reading, by people who feel ill, or by hand. It holds each
// engine of the room and stops none that runs. Opens by itself over whatever is shown.
//
//   state      event      guard      next       entry
//   leaving    next       -          counting   (draft)            the sheet: out, everybody
//   counting   tick       -          counting   (draft)            seen outside, or not seen
//   counting   counted    all seen   airing     heads-counted
//   counting   counted    missing    missing    heads-counted      the fire service; never go back
//   missing    next       -          counting   (draft)            counted again
//   airing     next       -          counting   (draft)            somebody else may be inside
//   airing     door       -          airing     door-set           the time left changes
//   airing     engine     -          airing     (draft)            one that runs: no time counts
//   airing     enter      -          entering   (draft)            what going back in needs
//   airing     read       stays      airing     air-read           from the page of the room
//   airing     read       lifts      lifted     air-alarm-lifted
//   entering   withdraw   -          airing     (draft)
//   entering   read       stays      airing     air-read
//   entering   read       lifts      lifted     air-alarm-lifted   with the reading
//
// A reading at another step is entered and ends nothing: heads are counted first.
// Every touch is a draft of the room, not of a person: after a power cut the alarm stands at the
// same step with the room held. No time that runs out ever ends it.
#pragma once

#include <array>
#include <string>

#include "flows/air_alarm_work.hpp"
#include "flows/meter_reading.hpp"
#include "flows/session.hpp"
#include "flows/table.hpp"

namespace holdpin {

enum class AlarmEvent { next, tick, counted, door, engine, enter, withdraw, read };
enum class AlarmGuard { always, all_seen, missing, stays, lifts };
using AlarmRow = Row3<AlarmState, AlarmEvent, AlarmGuard>;

inline constexpr std::array kAirAlarmTable{
    AlarmRow{AlarmState::leaving, AlarmEvent::next, AlarmGuard::always, AlarmState::counting, ""},
    AlarmRow{AlarmState::counting, AlarmEvent::tick, AlarmGuard::always, AlarmState::counting, ""},
    AlarmRow{AlarmState::counting, AlarmEvent::counted, AlarmGuard::all_seen, AlarmState::airing,
             "heads-counted"},
    AlarmRow{AlarmState::counting, AlarmEvent::counted, AlarmGuard::missing, AlarmState::missing,
             "heads-counted"},
    AlarmRow{AlarmState::missing, AlarmEvent::next, AlarmGuard::always, AlarmState::counting, ""},
    AlarmRow{AlarmState::airing, AlarmEvent::next, AlarmGuard::always, AlarmState::counting, ""},
    AlarmRow{AlarmState::airing, AlarmEvent::door, AlarmGuard::always, AlarmState::airing,
             "door-set"},
    AlarmRow{AlarmState::airing, AlarmEvent::engine, AlarmGuard::always, AlarmState::airing, ""},
    AlarmRow{AlarmState::airing, AlarmEvent::enter, AlarmGuard::always, AlarmState::entering, ""},
    AlarmRow{AlarmState::airing, AlarmEvent::read, AlarmGuard::stays, AlarmState::airing,
             "air-read"},
    AlarmRow{AlarmState::airing, AlarmEvent::read, AlarmGuard::lifts, AlarmState::lifted,
             "air-alarm-lifted"},
    AlarmRow{AlarmState::entering, AlarmEvent::withdraw, AlarmGuard::always, AlarmState::airing,
             ""},
    AlarmRow{AlarmState::entering, AlarmEvent::read, AlarmGuard::stays, AlarmState::airing,
             "air-read"},
    AlarmRow{AlarmState::entering, AlarmEvent::read, AlarmGuard::lifts, AlarmState::lifted,
             "air-alarm-lifted"},
};

class AirAlarmFlow final : public Flow {
  public:
    explicit AirAlarmFlow(std::string room) : room_(std::move(room)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    // Whoever signs off, the alarm goes on.
    bool outlives_session() const override { return true; }

  private:
    Result<Next> tick(Session& session, AlarmWork work, const std::string& who);
    Result<Next> count(Session& session, AlarmWork work, const AirAlarm& alarm);
    Result<Next> touch_door(Session& session, AlarmWork work, const std::string& door);
    Result<Next> touch_engine(Session& session, AlarmWork work);
    Result<Next> go(Session& session, AlarmWork work, AlarmEvent event);
    Result<Next> enter_reading(Session& session);

    std::string room_;
};

// Says after a reading why the alarm still stands.
std::unique_ptr<Flow> alarm_stays(const Session& session, const ReadingDone& done);

// By hand: the room is chosen, and its alarm stands at once. One that stands already is opened.
std::unique_ptr<Flow> choose_alarm_room(const Session& session);

}  // namespace holdpin
