#include "devices/sounder.hpp"

#include <stdlib.h>

#include <filesystem>

#include "base/text.hpp"
#include "devices/bounded_run.hpp"

namespace holdpin {

namespace fs = std::filesystem;

Loudspeaker::Programs Loudspeaker::usual() { return {{"aplay", "-q"}, {"paplay"}}; }

Loudspeaker::Loudspeaker(Programs programs)
    : programs_(std::move(programs)),
      thread_([this](const std::stop_token& stop) { run(stop); }) {}

Loudspeaker::~Loudspeaker() {
    thread_.request_stop();
    thread_.join();
    std::error_code ignored;
    if (!place_.empty()) fs::remove_all(place_, ignored);
}

bool Loudspeaker::sound(Alarm alarm) {
    const std::lock_guard lock(mutex_);
    if (!playing_) next_ = alarm;
    wake_.notify_one();
    return heard_;
}

void Loudspeaker::run(const std::stop_token& stop) {
    std::unique_lock lock(mutex_);
    while (wake_.wait(lock, stop, [this] { return next_.has_value(); })) {
        const Alarm alarm = *std::exchange(next_, std::nullopt);
        playing_ = true;
        lock.unlock();
        const bool heard = play(alarm);
        lock.lock();
        playing_ = false;
        heard_ = heard;
    }
}

bool Loudspeaker::play(Alarm alarm) {
    constexpr std::int64_t kPatienceMs = 2000;  // beyond what it takes
    const std::string file = wave_file(alarm);
    if (file.empty()) return false;
    for (const std::vector<std::string>& program : programs_) {
        BoundedRun run;
        run.words = program;
        run.words.push_back(file);
        run.time_ms = alarm_ms(alarm) + kPatienceMs;
        if (run_bounded(run)) return true;
    }
    return false;
}

// Written once; empty where there is no place for it.
std::string Loudspeaker::wave_file(Alarm alarm) {
    std::error_code failed;
    if (place_.empty()) {
        std::string name = (fs::temp_directory_path(failed) / "holdpin-alarm-XXXXXX").string();
        if (failed || ::mkdtemp(name.data()) == nullptr) return "";
        place_ = name;
    }
    std::string file = place_ + (alarm == Alarm::air ? "/air.wav" : "/leave-zone.wav");
    if (fs::exists(file, failed)) return file;
    return write_file(file, wave_of(samples_of(tones_of(alarm)))) ? file : "";
}

}  // namespace holdpin
