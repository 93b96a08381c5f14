#include "devices/meter_modbus.hpp"

#include <fmt/format.h>
#include <modbus.h>

#include <cerrno>
#include <chrono>
#include <cstdint>

namespace holdpin {
namespace {

// A value with the highest bit set is a number below zero or a code for a fault of the sensor.
constexpr std::uint16_t kFirstNoLevel = 0x8000;

struct FreeModbus {
    void operator()(modbus_t* context) const {
        modbus_close(context);
        modbus_free(context);
    }
};
using Connection = std::unique_ptr<modbus_t, FreeModbus>;

std::string place(const ModbusRegister& where) {
    return fmt::format("meter at {}:{}", where.host, where.port);
}

Error trouble(const ModbusRegister& where, std::string_view doing, int code) {
    Error error{ErrorKind::failed, fmt::format("{}: {}", doing, modbus_strerror(code)),
                place(where), "look at the meter, its cable and its address"};
    if (code == EMBXILADD) error.mend = "look up the register in the meter's manual";
    if (code == EMBXILFUN) error.mend = "try the other table, holding or input";
    return error;
}

Result<Connection> connect(const ModbusRegister& where, int timeout_ms) {
    Connection connection(
        modbus_new_tcp_pi(where.host.c_str(), std::to_string(where.port).c_str()));
    if (!connection) return trouble(where, "the address cannot be used", errno);
    const auto seconds = static_cast<std::uint32_t>(timeout_ms / 1000);
    const auto micros = static_cast<std::uint32_t>(timeout_ms % 1000) * 1000;
    modbus_set_response_timeout(connection.get(), seconds, micros);
    modbus_set_byte_timeout(connection.get(), seconds, micros);
    modbus_set_slave(connection.get(), where.unit);
    if (modbus_connect(connection.get()) != 0) {
        return trouble(where, "it cannot be reached", errno);
    }
    return connection;
}

}  // namespace

Result<double> read_modbus_ppm(const ModbusRegister& where, int timeout_ms) {
    const Connection connection = TRY(connect(where, timeout_ms));
    const auto read = where.input ? modbus_read_input_registers : modbus_read_registers;
    std::uint16_t raw = 0;
    if (read(connection.get(), where.number, 1, &raw) != 1) {
        return trouble(where, "it gave no reading", errno);
    }
    const double ppm = raw * where.scale;
    if (raw >= kFirstNoLevel || ppm > kMostPpm) {
        return Error{ErrorKind::invalid,
                     fmt::format("the register holds {}, which is no level", raw), place(where),
                     "look at the display of the meter"};
    }
    return ppm;
}

ModbusMeter::ModbusMeter(ModbusRegister where, ModbusPace pace, const Clock& clock)
    : where_(std::move(where)),
      pace_(pace),
      clock_(clock),
      thread_([this](const std::stop_token& stop) { run(stop); }) {}

ModbusMeter::~ModbusMeter() = default;

void ModbusMeter::run(const std::stop_token& stop) {
    while (!stop.stop_requested()) {
        const auto ppm = read_modbus_ppm(where_, pace_.timeout_ms);
        slot_.put(ppm, clock_.now_ms());
        std::unique_lock lock(sleep_);
        woken_.wait_for(lock, stop, std::chrono::milliseconds(pace_.every_ms),
                        [] { return false; });
    }
}

}  // namespace holdpin
