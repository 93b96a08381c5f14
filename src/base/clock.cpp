#include "base/clock.hpp"

#include <chrono>
#include <fstream>

namespace holdpin {

std::int64_t RealClock::now_ms() const {
    using namespace std::chrono;
    return duration_cast<milliseconds>(system_clock::now().time_since_epoch()).count();
}

std::int64_t RealClock::mono_ms() const {
    using namespace std::chrono;
    return duration_cast<milliseconds>(steady_clock::now().time_since_epoch()).count();
}

std::string RealClock::boot() const {
    std::ifstream file("/proc/sys/kernel/random/boot_id");
    std::string id;
    std::getline(file, id);
    return id.empty() ? "unknown" : id;
}

}  // namespace holdpin
