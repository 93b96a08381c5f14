#include "cli/meter_watch.hpp"

#include "cli/output.hpp"
#include "devices/meter_modbus.hpp"
#include "flows/air_reading.hpp"

namespace holdpin {

MeterMaker modbus_meters(const Clock& clock) {
    return [&clock](const RoomMeter& meter) -> std::unique_ptr<Meter> {
        const ModbusRegister where{meter.host,  meter.port,  meter.unit, meter.register_number,
                                   meter.input, meter.scale};
        return std::make_unique<ModbusMeter>(where, ModbusPace{}, clock);
    };
}

MeterWatch::MeterWatch(World world, const MeterMaker& make) : world_(std::move(world)) {
    for (const RoomMeter& meter : world_.content.site.meters) {
        watched_.push_back({meter, make(meter), 0, ""});
    }
}

bool MeterWatch::enter_new() {
    bool entered = false;
    for (Watched& watched : watched_) {
        const MeterState state = watched.device->latest();
        const bool is_new = state.value && state.value->read_ms != watched.seen_ms;
        if (is_new) entered = enter(watched, *state.value) || entered;
        if (state.quality == MeterState::Quality::failing) tell(watched, state.trouble);
    }
    return entered;
}

bool MeterWatch::enter(Watched& watched, const MeterValue& value) {
    watched.seen_ms = value.read_ms;
    const auto done = enter_device_reading(world_, watched.meter.room, value.ppm,
                                           watched.meter.instrument, value.read_ms);
    tell(watched, done ? "" : done.error().sentence());
    return done.ok();
}

void MeterWatch::tell(Watched& watched, const std::string& trouble) {
    if (trouble == watched.told) return;
    watched.told = trouble;
    if (trouble.empty()) return;
    complain({ErrorKind::failed, trouble, watched.meter.instrument, "the other readings go on"});
}

}  // namespace holdpin
