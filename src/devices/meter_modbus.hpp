// A meter behind Modbus/TCP, a register a reading; see FORMAT.md. It is asked in a thread of its
// own, over a connection that is opened and closed for each reading, so that a cable pulled out
// heals by itself. Every wait ends: connecting and answering have a limit each, and nobody who asks
// for the latest value waits at all. Writes nothing to the meter.
#pragma once

#include <condition_variable>
#include <memory>
#include <mutex>
#include <stop_token>
#include <string>
#include <thread>

#include "base/clock.hpp"
#include "devices/meter.hpp"

namespace holdpin {

struct ModbusRegister {
    std::string host;
    int port = 502;
    int unit = 255;  // 255: the device at that address itself
    int number = 0;  // counted from 0, as it goes over the wire
    bool input = false;  // an input register; else a holding register
    double scale = 1;    // ppm of one step
};

struct ModbusPace {
    int timeout_ms = 2000;   // for connecting, and for the answer
    int every_ms = 60'000;   // from one reading to the next
};

// One reading, in this thread. The error is a sentence: what the meter or the network said.
Result<double> read_modbus_ppm(const ModbusRegister& where, int timeout_ms);

class ModbusMeter final : public Meter {
  public:
    // `clock` gives the time of each reading and is asked from the thread.
    ModbusMeter(ModbusRegister where, ModbusPace pace, const Clock& clock);
    ~ModbusMeter() override;  // waits for a reading that is under way
    ModbusMeter(const ModbusMeter&) = delete;
    ModbusMeter& operator=(const ModbusMeter&) = delete;

    MeterState latest() const override { return slot_.get(); }

  private:
    void run(const std::stop_token& stop);

    const ModbusRegister where_;
    const ModbusPace pace_;
    const Clock& clock_;
    MeterSlot slot_;
    std::mutex sleep_;
    std::condition_variable_any woken_;
    std::jthread thread_;  // last: it uses everything above
};

}  // namespace holdpin
