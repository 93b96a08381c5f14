#include "devices/meter.hpp"

namespace holdpin {

void MeterSlot::put(const Result<double>& ppm, std::int64_t read_ms) {
    const std::lock_guard lock(mutex_);
    if (ppm) {
        state_ = {MeterState::Quality::good, MeterValue{ppm.value(), read_ms}, ""};
    } else {
        state_.quality = MeterState::Quality::failing;
        state_.trouble = ppm.error().sentence();
    }
}

MeterState MeterSlot::get() const {
    const std::lock_guard lock(mutex_);
    return state_;
}

}  // namespace holdpin
