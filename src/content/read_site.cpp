// Reads a site: site.toml holds its head, files beside it only further lists.
#include "content/draft.hpp"
#include "content/node_reader.hpp"

namespace holdpin {
namespace {

constexpr double kVolumeMax = 5'000'000;
constexpr double kAirflowMax = 50'000'000;
constexpr double kAreaMax = 1'000'000;
constexpr double kMixingMax = 10;
constexpr double kAverageMaxPpm = 500;
constexpr double kCeilingMaxPpm = 1200;  // immediately dangerous to life or health (NIOSH)
constexpr double kCylindersMaxKg = 5000;
constexpr Range kCylinderYears{1, 15};
constexpr double kScaleMin = 0.001;
constexpr double kScaleMax = 100;

NodeReader::Names<std::string> language_names() {
    NodeReader::Names<std::string> names;
    for (const auto& language : kPackLanguages) {
        names.emplace_back(language.tag, language.tag);
    }
    return names;
}

const NodeReader::Names<std::string> kSiteRegions{
    {"US", "US"}, {"CA", "CA"}, {"GB", "GB"}, {"EU", "EU"}};
const NodeReader::Names<std::string> kUnits{{"metric", "metric"}, {"us", "us"}};
const NodeReader::Names<bool> kRegisterTables{{"holding", false}, {"input", true}};

SitePolicy read_policy(NodeReader& reader) {
    const SitePolicy usual;
    SitePolicy policy;
    policy.pin_digits = reader.whole("pin_digits", {6, 12}, usual.pin_digits);
    policy.idle_seconds = reader.whole("idle_seconds", {30, 3600}, usual.idle_seconds);
    policy.round_stale_minutes =
        reader.whole("round_stale_minutes", {5, 480}, usual.round_stale_minutes);
    policy.evaluation_warn_days =
        reader.whole("evaluation_warn_days", {0, 365}, usual.evaluation_warn_days);
    policy.override_hours_max =
        reader.whole("override_hours_max", {1, 24}, usual.override_hours_max);
    policy.quiz_retry_minutes =
        reader.whole("quiz_retry_minutes", {0, 10080}, usual.quiz_retry_minutes);
    policy.disk_floor_mb = reader.whole("disk_floor_mb", {10, 100'000}, usual.disk_floor_mb);
    policy.hours_rise_max = reader.whole("hours_rise_max", {1, 1000}, usual.hours_rise_max);
    policy.clock_gap_hours = reader.whole("clock_gap_hours", {0, 8760}, usual.clock_gap_hours);
    policy.tag_names = reader.flag("tag_names", usual.tag_names);
    policy.reading_times = reader.flag("reading_times", usual.reading_times);
    reader.done();
    return policy;
}

// A level that nothing leans on needs no source.
Need footing_need(double level) { return level > 0 ? Need::must : Need::may; }

AirPolicy read_air(NodeReader& reader) {
    const AirPolicy usual;
    AirPolicy air;
    air.average_ppm = reader.number("average_ppm", 0, kAverageMaxPpm, usual.average_ppm);
    air.ceiling_ppm = reader.number("ceiling_ppm", 1, kCeilingMaxPpm, usual.ceiling_ppm);
    air.least_minutes = reader.whole("least_minutes", {1, 480}, usual.least_minutes);
    air.doors_minutes = reader.whole("doors_minutes", {1, 480}, usual.doors_minutes);
    air.tailpipe_months = reader.whole("tailpipe_months", {1, 24}, usual.tailpipe_months);
    air.symptoms_minutes = reader.whole("symptoms_minutes", {1, 1440}, usual.symptoms_minutes);
    air.footing = reader.id("footing", footing_need(air.average_ppm));
    reader.done();
    return air;
}

CylinderPolicy read_cylinders(NodeReader& reader) {
    const CylinderPolicy usual;
    CylinderPolicy policy;
    policy.limit_kg = reader.number("limit_kg", 0, kCylindersMaxKg, usual.limit_kg);
    policy.first_years = reader.whole("first_years", kCylinderYears, usual.first_years);
    policy.volumetric_years =
        reader.whole("volumetric_years", kCylinderYears, usual.volumetric_years);
    policy.proof_years = reader.whole("proof_years", kCylinderYears, usual.proof_years);
    policy.visual_years = reader.whole("visual_years", kCylinderYears, usual.visual_years);
    policy.footing = reader.id("footing", footing_need(policy.limit_kg));
    reader.done();
    return policy;
}

std::vector<std::string> read_binder_folders(NodeReader& reader) {
    auto folders = reader.paths("folders");
    reader.done();
    return folders;
}

void read_head(NodeReader& reader, Site& site) {
    site.id = reader.id("id");
    site.name = reader.text("name");
    site.employer = reader.words("employer", Need::may);
    site.example = reader.flag("example", false);
    site.zone = reader.words("zone");
    site.region = reader.choice("region", kSiteRegions);
    site.language = reader.choice("language", language_names());
    site.emergency_number = reader.words("emergency_number");
    site.supervisor_on_call = reader.id("supervisor_on_call");
    site.units = reader.choice("units", kUnits, "metric");
    site.eyewash = reader.text("eyewash", Need::may);
    if (auto below = reader.table("policy", Need::may)) site.policy = read_policy(*below);
    if (auto below = reader.table("air", Need::may)) site.air = read_air(*below);
    if (auto below = reader.table("cylinders", Need::may)) {
        site.cylinders = read_cylinders(*below);
    }
    if (auto below = reader.table("binder", Need::may)) {
        site.binder_folders = read_binder_folders(*below);
    }
}

Shift read_shift(NodeReader& reader) {
    Shift shift;
    shift.id = reader.id("id");
    shift.name = reader.text("name");
    shift.start_min = reader.minute_of_day("start");
    shift.end_min = reader.minute_of_day("end");
    reader.done();
    return shift;
}

Door read_door(NodeReader& reader) {
    Door door;
    door.id = reader.id("id");
    door.name = reader.text("name");
    door.airflow_m3h = reader.number("airflow_m3h", 1, kAirflowMax);
    door.leads_to = reader.id("leads_to", Need::may);
    door.fan = reader.flag("fan", false);
    reader.done();
    return door;
}

Room read_room(NodeReader& reader) {
    Room room;
    room.id = reader.id("id");
    room.name = reader.text("name");
    room.volume_m3 = reader.number("volume_m3", 1, kVolumeMax);
    room.airflow_m3h = reader.number("airflow_m3h", 0, kAirflowMax);
    room.mixing = reader.number("mixing", 1, kMixingMax, room.mixing);
    room.area_m2 = reader.number("area_m2", 0, kAreaMax, room.area_m2);
    room.closed = reader.flag("closed", false);
    for (auto& below : reader.tables("door", Need::may)) room.doors.push_back(read_door(below));
    reader.done();
    return room;
}

RoomMeter read_meter(NodeReader& reader) {
    const RoomMeter usual;
    RoomMeter meter;
    meter.room = reader.id("room");
    meter.instrument = reader.words("instrument");
    meter.host = reader.words("host");
    meter.port = reader.whole("port", {1, 65'535}, usual.port);
    meter.unit = reader.whole("unit", {1, 255}, usual.unit);
    meter.register_number = reader.whole("register", {0, 65'535});
    meter.input = reader.choice("table", kRegisterTables, false);
    meter.scale = reader.number("scale", kScaleMin, kScaleMax, usual.scale);
    reader.done();
    return meter;
}

Machine read_machine(NodeReader& reader) {
    Machine machine;
    machine.plate = reader.words("plate");
    machine.machine_class = reader.id("class");
    machine.room = reader.id("room");
    machine.hours_tenths = reader.tenths("hours");
    machine.fuel_percent = reader.whole("fuel_percent", {0, 100}, machine.fuel_percent);
    machine.service_every_tenths = reader.tenths("service_every", 0);
    machine.service_done_tenths = reader.tenths("service_done", 0);
    machine.inspection_due = reader.date("inspection_due", Need::may);
    machine.approved_as_truck = reader.flag("approved_as_truck", false);
    reader.done();
    return machine;
}

Drain read_drain(NodeReader& reader) {
    Drain drain;
    drain.id = reader.id("id");
    drain.name = reader.text("name");
    drain.room = reader.id("room");
    drain.leads_to = reader.text("leads_to");
    drain.confirmed_by = reader.id("confirmed_by", Need::may);
    drain.confirmed_on = reader.date("confirmed_on", Need::may);
    reader.done();
    return drain;
}

ExchangePlace read_exchange_place(NodeReader& reader) {
    ExchangePlace place;
    place.id = reader.id("id");
    place.name = reader.text("name");
    reader.done();
    return place;
}

Person read_person(NodeReader& reader) {
    Person person;
    person.id = reader.id("id");
    person.name = reader.words("name");
    person.badge = reader.words("badge");
    person.language = reader.choice("language", language_names());
    person.duties = reader.choices("duties", names_up_to(Duty::auditing), Need::must);
    person.endorsements = reader.ids("endorsements", Need::may);
    person.extension = reader.words("extension", Need::may);
    person.competence = reader.words("competence", Need::may);
    person.listed_until = reader.date("listed_until", Need::may);
    person.example_pin = reader.words("example_pin", Need::may);
    reader.done();
    return person;
}

ExampleRecord read_record(NodeReader& reader) {
    ExampleRecord record;
    record.person = reader.id("person");
    record.machine_class = reader.id("class");
    record.topics = reader.ids("topics", Need::may);
    record.days_ago = reader.whole("days_ago", {0, 3650});
    record.practised = reader.flag("practised", true);
    record.evaluated = reader.flag("evaluated", true);
    record.authorised = reader.flag("authorised", true);
    record.rooms = reader.ids("rooms", Need::may);
    record.shifts = reader.ids("shifts", Need::may);
    record.signed_by = reader.id("signed_by");
    reader.done();
    return record;
}

ExampleTailpipe read_tailpipe(NodeReader& reader) {
    ExampleTailpipe test;
    test.machine = reader.words("machine");
    test.co_lmin = reader.number("co_lmin", 0, 1000);
    test.days_ago = reader.whole("days_ago", {0, 3650});
    reader.done();
    return test;
}

ExampleStatement read_statement(NodeReader& reader) {
    ExampleStatement statement;
    statement.person = reader.id("person");
    statement.languages = reader.choices("languages", language_names(), Need::must);
    reader.done();
    return statement;
}

// Appends every table under `key` and its place; the two vectors stay side by side.
template <typename Item>
void read_list(NodeReader& reader, std::string_view key, Item (*read)(NodeReader&),
               std::vector<Item>& items, std::vector<Spot>& places) {
    for (auto& below : reader.tables(key, Need::may)) {
        items.push_back(read(below));
        places.push_back(below.at());
    }
}

}  // namespace

void read_site_file(const Spot& file, bool is_head, ContentDraft& draft, Faults& faults) {
    NodeReader reader(file, faults);
    Site& site = draft.content.site;
    Places& places = draft.places;
    if (is_head) {
        read_head(reader, site);
        places.site.push_back(file);
    }
    read_list(reader, "shift", read_shift, site.shifts, places.shifts);
    read_list(reader, "room", read_room, site.rooms, places.rooms);
    read_list(reader, "meter", read_meter, site.meters, places.meters);
    read_list(reader, "machine", read_machine, site.machines, places.machines);
    read_list(reader, "drain", read_drain, site.drains, places.drains);
    read_list(reader, "exchange_place", read_exchange_place, site.exchange_places,
              places.exchange_places);
    read_list(reader, "person", read_person, site.people, places.people);
    read_list(reader, "record", read_record, site.records, places.records);
    read_list(reader, "tailpipe", read_tailpipe, site.tailpipes, places.tailpipes);
    read_list(reader, "statement", read_statement, site.statements, places.statements);
    reader.done();
}

}  // namespace holdpin
