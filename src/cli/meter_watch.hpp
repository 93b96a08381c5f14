// The meters of a site while the kiosk runs: each new reading is entered, by the thread that owns
// the records. What a meter cannot say is written to standard error, once as long as it stays the
// same; the desk shows from the records that a meter is silent.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "devices/meter.hpp"
#include "flows/world.hpp"

namespace holdpin {

using MeterMaker = std::function<std::unique_ptr<Meter>(const RoomMeter&)>;
// Real ones, asked once a minute. `clock` must outlive them.
MeterMaker modbus_meters(const Clock& clock);

class MeterWatch {
  public:
    MeterWatch(World world, const MeterMaker& make);
    // True when a reading was entered, so that pages are out of date.
    bool enter_new();

  private:
    struct Watched {
        RoomMeter meter;
        std::unique_ptr<Meter> device;
        std::int64_t seen_ms = 0;  // of the reading seen last
        std::string told;          // the trouble told last
    };
    void tell(Watched& watched, const std::string& trouble);
    bool enter(Watched& watched, const MeterValue& value);

    World world_;
    std::vector<Watched> watched_;
};

}  // namespace holdpin
