// Sounds an alarm once: whoever asks again as long as the alarm stands decides when it ends. Says
// whether there is anything to hear it by, so that a silent kiosk can say so on its screen.
// It does not know whether somebody hears it: a loudspeaker that was turned down plays, too.
#pragma once

#include <condition_variable>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "devices/tones.hpp"

namespace holdpin {

class Sounder {
  public:
    virtual ~Sounder() = default;
    // Returns at once. False: the last alarm could not be played.
    virtual bool sound(Alarm alarm) = 0;
};

// Through a program of the distribution, run bounded, in a thread of its own. While one alarm is
// being played another is let go; it is asked for again soon.
class Loudspeaker final : public Sounder {
  public:
    // Each is given the path of a WAV file; the first that plays it is enough.
    using Programs = std::vector<std::vector<std::string>>;
    static Programs usual();

    explicit Loudspeaker(Programs programs = usual());
    ~Loudspeaker() override;
    Loudspeaker(const Loudspeaker&) = delete;
    Loudspeaker& operator=(const Loudspeaker&) = delete;

    bool sound(Alarm alarm) override;

  private:
    void run(const std::stop_token& stop);
    bool play(Alarm alarm);
    std::string wave_file(Alarm alarm);

    Programs programs_;
    std::string place_;  // of the WAV files, readable by its owner alone; empty: not made yet
    std::mutex mutex_;
    std::condition_variable_any wake_;
    std::optional<Alarm> next_;
    bool playing_ = false;
    bool heard_ = true;
    std::jthread thread_;  // last: it uses all of the above
};

// Notes what was sounded, for tests.
class NotedAlarms final : public Sounder {
  public:
    explicit NotedAlarms(bool audible = true) : audible_(audible) {}
    bool sound(Alarm alarm) override {
        sounded.push_back(alarm);
        return audible_;
    }
    std::vector<Alarm> sounded;

  private:
    bool audible_;
};

}  // namespace holdpin
