#include "devices/sounder.hpp"

#include <doctest/doctest.h>
#include <stdlib.h>
#include <sys/stat.h>

#include <chrono>
#include <filesystem>

#include "base/text.hpp"

using namespace holdpin;

namespace fs = std::filesystem;

namespace {

struct Place {
    std::string path = (fs::temp_directory_path() / "holdpin-sounder-XXXXXX").string();
    Place() { REQUIRE(::mkdtemp(path.data()) != nullptr); }
    ~Place() { fs::remove_all(path); }

    std::string program(const std::string& name, const std::string& does) const {
        const std::string file = path + "/" + name;
        REQUIRE(write_file(file, "#!/bin/sh\n" + does + "\n").ok());
        REQUIRE(::chmod(file.c_str(), 0700) == 0);
        return file;
    }
};

template <typename Test>
bool comes_true(Test test) {
    for (int i = 0; i < 400; ++i) {
        if (test()) return true;
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    return false;
}

}  // namespace

TEST_SUITE("devices") {
TEST_CASE("an alarm is played from a WAV file, and the caller does not wait for it") {
    const Place place;
    const std::string copy = place.path + "/copy.wav";
    Loudspeaker loudspeaker({{place.program("play", "sleep 0.3; cp \"$1\" " + copy)}});
    const auto begun = std::chrono::steady_clock::now();
    CHECK(loudspeaker.sound(Alarm::air));
    CHECK(std::chrono::steady_clock::now() - begun < std::chrono::milliseconds(200));
    const std::string whole = wave_of(samples_of(tones_of(Alarm::air)));
    CHECK(comes_true([&] { return read_file(copy).value_or("") == whole; }));
    CHECK(loudspeaker.sound(Alarm::air));
}

TEST_CASE("a kiosk without a loudspeaker knows that it is silent, and hears when it has one") {
    const Place place;
    Loudspeaker loudspeaker({{"holdpin-there-is-no-such-program"},
                             {place.program("play", "test -e " + place.path + "/card")}});
    CHECK(comes_true([&] { return !loudspeaker.sound(Alarm::leave_zone); }));
    REQUIRE(write_file(place.path + "/card", "x").ok());
    CHECK(comes_true([&] { return loudspeaker.sound(Alarm::leave_zone); }));
}

TEST_CASE("a player that hangs is ended") {
    const Place place;
    Loudspeaker loudspeaker({{place.program("play", "sleep 60")}});
    CHECK(comes_true([&] { return !loudspeaker.sound(Alarm::air); }));
}
}
