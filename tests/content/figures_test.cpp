// The figures that the sums lean on: read as written, frozen, and refused where they cannot be.
#include <doctest/doctest.h>

#include <string>

#include "content/content.hpp"
#include "sample.hpp"

using namespace holdpin;

namespace {

// The file without the lines from `first` up to `next`.
Files without(Files files, const std::string& file, std::string_view first, std::string_view next) {
    std::string& text = files[file];
    const auto from = text.find(first);
    REQUIRE(from != std::string::npos);
    text.erase(from, text.find(next, from) - from);
    return files;
}

Files pack_without_engine() {
    return without(sample::pack(), "classes/mill.toml", "[engine]", "[hopper]");
}

}  // namespace

TEST_CASE("figures of a class are read as written, with or without a point") {
    const Loaded loaded = load_content(sample::pack(), sample::assets(), sample::site());
    REQUIRE_MESSAGE(loaded.ok(), sample::lines(loaded.faults));
    const MachineClass& mill = *loaded.content.pack.machine_class("mill");
    REQUIRE(mill.engine);
    CHECK(mill.engine->co_upper_lmin == 61.5);
    CHECK(mill.engine->burn_kg_h == 2);
    CHECK(mill.engine->cylinder_kg == 0);
    CHECK(mill.engine->footing == "common-practice");
    REQUIRE(mill.hopper);
    CHECK(mill.hopper->hopper_kg == 120);
    CHECK(mill.hopper->prop_angle_deg == 60);
    CHECK(mill.hopper->shear_planes == 1);
    CHECK(mill.hopper->footing == "osha-147");
    REQUIRE(mill.work);
    CHECK(mill.work->speed_kmh == 6.5);
    CHECK(mill.work->overlap_percent == 10);
}

TEST_CASE("levels, cylinders, doors, meters and tailpipe tests of a site are read as written") {
    const Loaded loaded = load_content(sample::pack(), sample::assets(), sample::site());
    REQUIRE_MESSAGE(loaded.ok(), sample::lines(loaded.faults));
    const Site& site = loaded.content.site;
    CHECK(site.units == "us");
    CHECK(site.air.average_ppm == 25);
    CHECK(site.air.ceiling_ppm == 100.5);
    CHECK(site.air.least_minutes == 20);
    CHECK(site.air.doors_minutes == 15);
    CHECK(site.air.tailpipe_months == 3);
    CHECK(site.air.symptoms_minutes == 45);
    CHECK(site.air.footing == "common-practice");
    CHECK(site.cylinders.limit_kg == 136);
    CHECK(site.cylinders.first_years == 11);
    CHECK(site.cylinders.volumetric_years == 10);
    CHECK(site.cylinders.proof_years == 9);
    CHECK(site.cylinders.visual_years == 4);
    CHECK(site.rooms[0].mixing == 2.5);
    CHECK(site.rooms[0].area_m2 == 150);
    REQUIRE(site.rooms[0].doors.size() == 2);
    CHECK(site.rooms[0].doors[0].id == "front");
    CHECK(site.rooms[0].doors[0].airflow_m3h == 600.5);
    CHECK(site.rooms[0].doors[1].name.in("es") == "Puerta trasera");
    REQUIRE(site.meters.size() == 1);
    CHECK(site.meters[0].instrument == "CO-3");
    CHECK(site.meters[0].host == "192.0.2.40");
    CHECK(site.meters[0].port == 1502);
    CHECK(site.meters[0].unit == 7);
    CHECK(site.meters[0].register_number == 30);
    CHECK(site.meters[0].input);
    CHECK(site.meters[0].scale == 0.1);
    REQUIRE(site.tailpipes.size() == 1);
    CHECK(site.tailpipes[0].machine == "M-1");
    CHECK(site.tailpipes[0].co_lmin == 4.25);
    CHECK(site.tailpipes[0].days_ago == 30);
}

TEST_CASE("a site that says nothing of air, cylinders or units has the usual ones") {
    Files site = without(sample::site(), "site.toml", "[air]", "[[shift]]");
    site = sample::with(site, "site.toml", "units = \"us\"\n", "");
    site = sample::with(site, "site.toml", "mixing = 2.5\narea_m2 = 150\n", "");
    const Loaded loaded = load_content(sample::pack(), sample::assets(), site);
    REQUIRE_MESSAGE(loaded.ok(), sample::lines(loaded.faults));
    const Site& read = loaded.content.site;
    CHECK(read.units == "metric");
    CHECK(read.air.average_ppm == 35);
    CHECK(read.air.ceiling_ppm == 200);
    CHECK(read.air.doors_minutes == 30);
    CHECK(read.cylinders.limit_kg == 0);
    CHECK(read.cylinders.volumetric_years == 12);
    CHECK(read.rooms[0].mixing == 1);
    CHECK(read.rooms[0].area_m2 == 0);
}

TEST_CASE("a class needs engine figures only where its machines count in the air of a site") {
    const Files pack = pack_without_engine();
    const auto fault = "class \"mill\" has no engine figures to count with";
    Loaded loaded = load_content(pack, sample::assets(), sample::site());
    CHECK(sample::has(loaded.faults, "classes/mill.toml", fault));
    // The levels of a site that names none are the usual ones, and those count.
    const Files silent = without(sample::site(), "site.toml", "[air]", "[cylinders]");
    loaded = load_content(pack, sample::assets(), silent);
    CHECK(sample::has(loaded.faults, "classes/mill.toml", fault));
    const Files off =
        sample::with(silent, "site.toml", "[cylinders]", "[air]\naverage_ppm = 0\n[cylinders]");
    loaded = load_content(pack, sample::assets(), off);
    CHECK_MESSAGE(loaded.ok(), sample::lines(loaded.faults));
    CHECK(load_pack(pack, sample::assets()).ok());
}

TEST_CASE("a class of which the site has no machine needs no engine figures") {
    Files pack = sample::pack();
    std::string kiln = pack_without_engine()["classes/mill.toml"];
    for (auto at = kiln.find("mill"); at != std::string::npos; at = kiln.find("mill", at)) {
        kiln.replace(at, 4, "kiln");
    }
    pack["classes/kiln.toml"] = kiln;
    for (const std::string kind : {"before", "after"}) {
        std::string round = pack["rounds/mill-" + kind + ".toml"];
        round.replace(round.find("mill-"), 4, "kiln");
        round.replace(round.find("class = \"mill\""), 14, "class = \"kiln\"");
        pack["rounds/kiln-" + kind + ".toml"] = round;
    }
    const Loaded loaded = load_content(pack, sample::assets(), sample::site());
    CHECK_MESSAGE(loaded.ok(), sample::lines(loaded.faults));
}

TEST_CASE("faults of a class's figures are found") {
    sample::check_breaks(
        "classes/mill.toml",
        {
            {"engine of none", "has_engine = true", "has_engine = false",
             "class \"mill\" has no engine; take [engine] out or write has_engine = true"},
            {"no upper value", "co_upper_lmin = 61.5", "", "\"co_upper_lmin\" is missing"},
            {"upper value of 0", "co_upper_lmin = 61.5", "co_upper_lmin = 0",
             "write a number from 0.1 to 1000"},
            {"too much", "co_upper_lmin = 61.5", "co_upper_lmin = 1000.1",
             "\"co_upper_lmin\" is out of range"},
            {"not a number", "co_upper_lmin = 61.5", "co_upper_lmin = nan",
             "\"co_upper_lmin\" is out of range"},
            {"burn", "burn_kg_h = 2", "burn_kg_h = -0.1", "write a number from 0 to 50"},
            {"cylinder", "burn_kg_h = 2", "burn_kg_h = 2\ncylinder_kg = 101",
             "write a number from 0 to 100"},
            {"engine footing", "footing = \"common-practice\"\n[hopper]",
             "footing = \"comon-practice\"\n[hopper]", "did you mean \"common-practice\"?"},
            {"two engines", "[engine]", "[[engine]]", "\"engine\" is a list"},
            {"hopper", "hopper_kg = 120", "hopper_kg = 0", "\"hopper_kg\" is out of range"},
            {"arm", "arm_m = 0.6", "arm_m = 11", "\"arm_m\" is out of range"},
            {"prop", "prop_m = 0.5", "prop_m = 0.0", "\"prop_m\" is out of range"},
            {"flat prop", "prop_angle_deg = 60.0", "prop_angle_deg = 9.9",
             "write a number from 10 to 90"},
            {"obtuse prop", "prop_angle_deg = 60.0", "prop_angle_deg = 91",
             "\"prop_angle_deg\" is out of range"},
            {"pin", "pin_mm = 12.0", "pin_mm = 0.012", "\"pin_mm\" is out of range"},
            {"planes", "shear_planes = 1", "shear_planes = 3", "a whole number from 1 to 2"},
            {"yield", "yield_mpa = 250.0", "yield_mpa = 250000000.0",
             "\"yield_mpa\" is out of range"},
            {"hopper footing", "footing = \"osha-147\"", "footing = \"x\"",
             "there is no footing \"x\""},
            {"no hopper footing", "footing = \"osha-147\"\n", "", "\"footing\" is missing"},
            {"tank", "solution_l = 280.0", "solution_l = 0", "\"solution_l\" is out of range"},
            {"flow", "flow_lmin = 4.0", "flow_lmin = 101", "\"flow_lmin\" is out of range"},
            {"recovery", "recovery_l = 300.0", "recovery_l = 5001",
             "\"recovery_l\" is out of range"},
            {"pickup", "pickup_percent = 90.0", "pickup_percent = 101",
             "write a number from 0 to 100"},
            {"width", "width_m = 1.2", "width_m = 1200", "\"width_m\" is out of range"},
            {"speed", "speed_kmh = 6.5", "speed_kmh = 0", "\"speed_kmh\" is out of range"},
            {"overlap", "overlap_percent = 10.0", "overlap_percent = 91",
             "write a number from 0 to 90"},
        });
}

TEST_CASE("faults of a site's levels, cylinders and doors are found") {
    sample::check_breaks(
        "site.toml",
        {
            {"units", "units = \"us\"", "units = \"imperial\"", "write one of metric, us"},
            {"average", "average_ppm = 25", "average_ppm = 501", "write a number from 0 to 500"},
            {"no ceiling", "ceiling_ppm = 100.5", "ceiling_ppm = 0",
             "write a number from 1 to 1200"},
            {"ceiling below", "ceiling_ppm = 100.5", "ceiling_ppm = 24.9",
             "the ceiling is below the average"},
            {"least", "least_minutes = 20", "least_minutes = 0", "\"least_minutes\" is out"},
            {"doors read", "doors_minutes = 15", "doors_minutes = 481", "\"doors_minutes\" is out"},
            {"tailpipe", "tailpipe_months = 3", "tailpipe_months = 25",
             "a whole number from 1 to 24"},
            {"air footing", "footing = \"common-practice\"", "footing = \"x\"",
             "there is no footing \"x\""},
            {"no air footing", "footing = \"common-practice\"\n", "", "\"footing\" is missing"},
            {"unknown key", "least_minutes", "leastminutes", "did you mean \"least_minutes\"?"},
            {"limit", "limit_kg = 136.0", "limit_kg = -1", "write a number from 0 to 5000"},
            {"years", "visual_years = 4", "visual_years = 16", "a whole number from 1 to 15"},
            {"cylinder footing", "footing = \"osha-147\"", "footing = \"osha-148\"",
             "did you mean \"osha-147\"?"},
            {"no cylinder footing", "footing = \"osha-147\"\n", "", "\"footing\" is missing"},
            {"mixing", "mixing = 2.5", "mixing = 0.9", "write a number from 1 to 10"},
            {"area", "area_m2 = 150", "area_m2 = -150", "\"area_m2\" is out of range"},
            {"door twice", "id = \"back\"", "id = \"front\"", "door \"front\" is there twice"},
            {"door without air", "airflow_m3h = 600.5", "airflow_m3h = 0",
             "write a number from 1 to 50000000"},
            {"door without name", "name = { en = \"Back door\", es = \"Puerta trasera\" }\n", "",
             "\"name\" is missing"},
            {"room of meter", "room = \"hall\"\ninstrument", "room = \"yard\"\ninstrument",
             "there is no room \"yard\""},
            {"no host", "host = \"192.0.2.40\"\n", "", "\"host\" is missing"},
            {"port", "port = 1502", "port = 0", "a whole number from 1 to 65535"},
            {"no register", "register = 30\n", "", "\"register\" is missing"},
            {"table", "table = \"input\"", "table = \"coil\"", "write one of holding, input"},
            {"scale", "scale = 0.1", "scale = 0", "\"scale\" is out of range"},
        });
}

TEST_CASE("a door's id stands in one room only") {
    const Loaded loaded = sample::load_with("site.toml", "[[machine]]",
                                    R"([[room]]
id = "yard"
name = { en = "Yard", es = "Patio" }
volume_m3 = 900
airflow_m3h = 1
[[room.door]]
id = "back"
name = { en = "Back door", es = "Puerta trasera" }
airflow_m3h = 500
[[machine]])");
    CHECK_MESSAGE(sample::has(loaded.faults, "site.toml", "door \"back\" is there twice"),
                  sample::lines(loaded.faults));
}

TEST_CASE("faults of tailpipe tests are found") {
    sample::check_breaks("people.toml",
                 {
                     {"machine", "machine = \"M-1\"", "machine = \"M-2\"",
                      "there is no machine \"M-2\""},
                     {"too much", "co_lmin = 4.25", "co_lmin = 1001", "\"co_lmin\" is out"},
                     {"tomorrow", "days_ago = 30", "days_ago = -1", "\"days_ago\" is out of range"},
                 });
    Files pack = pack_without_engine();
    pack = sample::with(pack, "classes/mill.toml", "has_engine = true", "has_engine = false");
    Loaded loaded = load_content(pack, sample::assets(), sample::site());
    CHECK(sample::has(loaded.faults, "people.toml", "\"M-1\" has no engine to test"));
    const Files real =
        sample::with(sample::site(), "site.toml", "example = true", "example = false");
    loaded = load_content(sample::pack(), sample::assets(), real);
    CHECK(sample::has(loaded.faults, "people.toml", "a tailpipe test stands in a site"));
}

TEST_CASE("every figure is frozen, as text, and changes the digest of its item only") {
    const Loaded before = load_content(sample::pack(), sample::assets(), sample::site());
    REQUIRE_MESSAGE(before.ok(), sample::lines(before.faults));
    const auto mill = before.frozen.at("class/mill");
    CHECK(mill.find("\"engine\":{\"burn_kg_h\":\"2\",\"co_upper_lmin\":\"61.5\",") !=
          std::string::npos);
    struct Change {
        const char *file, *from, *to;
    };
    for (const auto& [file, from, to] :
         {Change{"classes/mill.toml", "burn_kg_h = 2", "burn_kg_h = 2.1"},
          Change{"classes/mill.toml", "arm_m = 0.6", "arm_m = 0.61"},
          Change{"classes/mill.toml", "width_m = 1.2", "width_m = 1.3"},
          Change{"site.toml", "units = \"us\"", "units = \"metric\""},
          Change{"site.toml", "ceiling_ppm = 100.5", "ceiling_ppm = 100"},
          Change{"site.toml", "proof_years = 9", "proof_years = 10"},
          Change{"site.toml", "mixing = 2.5", "mixing = 2.6"},
          Change{"site.toml", "area_m2 = 150", "area_m2 = 151"},
          Change{"site.toml", "scale = 0.1", "scale = 0.2"},
          Change{"site.toml", "table = \"input\"", "table = \"holding\""},
          Change{"site.toml", "airflow_m3h = 600.5", "airflow_m3h = 600"},
          Change{"people.toml", "co_lmin = 4.25", "co_lmin = 4.3"}}) {
        CAPTURE(to);
        const Loaded after = sample::load_with(file, from, to);
        REQUIRE_MESSAGE(after.ok(), sample::lines(after.faults));
        const bool is_class = std::string_view(file).starts_with("classes/");
        for (const auto& [key, bytes] : before.frozen) {
            const bool changes = key == (is_class ? "class/mill" : "site/shed");
            CHECK_MESSAGE((after.frozen.at(key) != bytes) == changes, key);
        }
    }
}
