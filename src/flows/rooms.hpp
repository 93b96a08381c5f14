// Rooms: doors read open or shut, meter readings, the forecast, an air alarm and its end; a room
// closed to engines. Doors and readings by anybody signed on; closing and opening by supervisors.
//
// A reading at or above the ceiling raises the air alarm at once; see flows/air_alarm.hpp.
#pragma once

#include "flows/session.hpp"

namespace holdpin {

class RoomsFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
};

class RoomFlow final : public Flow {
  public:
    // `plate`: the machine whose engine is to be counted too; may be empty.
    explicit RoomFlow(std::string room, std::string plate = "")
        : room_(std::move(room)), plate_(std::move(plate)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::string room_;
    std::string plate_;
};

}  // namespace holdpin
