// Doors and fans between the rooms of a site.
#include <doctest/doctest.h>

#include <fmt/format.h>

#include "content/content.hpp"
#include "content/digest.hpp"
#include "sample.hpp"

using namespace holdpin;

namespace {

// A room with one door, which leads outdoors where `leads_to` is empty.
std::string room(const std::string& id, const std::string& door, const std::string& leads_to,
                 bool fan = false) {
    std::string text = fmt::format(
        "[[room]]\nid = \"{0}\"\nname = {{ en = \"{0}\", es = \"{0}\" }}\nvolume_m3 = 90\n"
        "airflow_m3h = 1\n[[room.door]]\nid = \"{1}\"\n"
        "name = {{ en = \"Stairs\", es = \"Escalera\" }}\nairflow_m3h = 50\n",
        id, door);
    if (!leads_to.empty()) text += fmt::format("leads_to = \"{}\"\n", leads_to);
    return text + (fan ? "fan = true\n" : "");
}

Loaded load_with_rooms(const std::string& rooms) {
    return load_content(sample::pack(), sample::assets(),
                        sample::with(sample::site(), "site.toml", "[[machine]]",
                                     rooms + "[[machine]]"));
}

bool has(const std::string& rooms, const char* fault) {
    const Loaded loaded = load_with_rooms(rooms);
    const bool found = sample::has(loaded.faults, "site.toml", fault);
    if (!found) MESSAGE(sample::lines(loaded.faults));
    return found;
}

}  // namespace

TEST_CASE("a door leads outdoors, or into a room that is named") {
    const Loaded loaded = load_with_rooms(room("yard", "gate", "hall", true));
    REQUIRE_MESSAGE(loaded.ok(), sample::lines(loaded.faults));
    const auto& rooms = loaded.content.site.rooms;
    CHECK(rooms[0].doors[0].leads_to.empty());
    CHECK_FALSE(rooms[0].doors[0].fan);
    CHECK(rooms[1].doors[0].leads_to == "hall");
    CHECK(rooms[1].doors[0].fan);
    CHECK(has(room("yard", "gate", "roof"), "there is no room \"roof\""));
    CHECK(has(room("yard", "gate", "yard"), "door \"gate\" leads back into its own room"));
}

TEST_CASE("a door between two rooms is written in one of them only") {
    CHECK(has(room("loft", "down", "attic") + room("attic", "up", "loft"),
              "doors \"up\" and \"down\" are the same one"));
    CHECK(has(room("attic", "up", "loft") + room("loft", "down", "attic"),
              "doors \"up\" and \"down\" are the same one"));
    CHECK(load_with_rooms(room("loft", "down", "hall") + room("attic", "up", "loft")).ok());
}

TEST_CASE("the frozen site tells where a door leads, and reads as before where it leads outdoors") {
    const std::string joined =
        frozen_site(load_with_rooms(room("yard", "gate", "hall", true)).content.site);
    CHECK(joined.find("\"leads_to\":\"hall\"") != std::string::npos);
    CHECK(joined.find("\"fan\":true") != std::string::npos);
    const std::string alone = frozen_site(load_with_rooms(room("yard", "gate", "")).content.site);
    CHECK(alone.find("\"leads_to\":\"") == std::string::npos);
    CHECK(alone.find("\"fan\"") == std::string::npos);
}
