#include "base/clock.hpp"

#include <chrono>
#include <ctime>
#include <fstream>

namespace holdpin {

std::int64_t RealClock::now_ms() const {
    using namespace std::chrono;
    return duration_cast<milliseconds>(system_clock::now().time_since_epoch()).count();
}

std::int64_t RealClock::mono_ms() const {
    // With the time asleep: a tablet that slept for an hour has not had its clock set.
    timespec since{};
    if (clock_gettime(CLOCK_BOOTTIME, &since) != 0) return 0;
    return std::int64_t{since.tv_sec} * 1000 + since.tv_nsec / 1'000'000;
}

std::string RealClock::boot() const {
    std::ifstream file("/proc/sys/kernel/random/boot_id");
    std::string id;
    std::getline(file, id);
    return id.empty() ? "unknown" : id;
}

}  // namespace holdpin
