// The frozen form of a site. Apart from digest.cpp because it follows another rule: what names a
// person stays out.
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <utility>

#include "base/text.hpp"
#include "base_json/canonical_json.hpp"
#include "content/digest.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

template <typename Items, typename Write>
Json list_of(const Items& items, Write write) {
    Json list = Json::array();
    for (const auto& item : items) list.push_back(write(item));
    return list;
}

void put_date(Json& json, const char* key, const std::optional<Date>& date) {
    if (date) json[key] = iso_date(*date);
}

Json json_of_policy(const SitePolicy& policy) {
    Json json = {{"pin_digits", policy.pin_digits},
                 {"idle_seconds", policy.idle_seconds},
                 {"round_stale_minutes", policy.round_stale_minutes},
                 {"evaluation_warn_days", policy.evaluation_warn_days},
                 {"override_hours_max", policy.override_hours_max},
                 {"quiz_retry_minutes", policy.quiz_retry_minutes},
                 {"disk_floor_mb", policy.disk_floor_mb},
                 {"hours_rise_max", policy.hours_rise_max}};
    if (policy.clock_gap_hours != SitePolicy{}.clock_gap_hours) {
        json["clock_gap_hours"] = policy.clock_gap_hours;
    }
    if (!policy.tag_names) json["tag_names"] = false;
    if (!policy.reading_times) json["reading_times"] = false;
    return json;
}

Json json_of_shift(const Shift& shift) {
    return {{"id", shift.id},
            {"name", shift.name.by_language},
            {"start_min", shift.start_min},
            {"end_min", shift.end_min}};
}

// Decimals as text: RFC 8785 would need one way to round them.
std::string decimal(double value) { return fmt::format("{}", value); }

Json json_of_air(const AirPolicy& air) {
    return {{"average_ppm", decimal(air.average_ppm)},
            {"ceiling_ppm", decimal(air.ceiling_ppm)},
            {"least_minutes", air.least_minutes},
            {"doors_minutes", air.doors_minutes},
            {"tailpipe_months", air.tailpipe_months},
            {"symptoms_minutes", air.symptoms_minutes},
            {"footing", air.footing}};
}

Json json_of_cylinders(const CylinderPolicy& policy) {
    return {{"limit_kg", decimal(policy.limit_kg)},
            {"first_years", policy.first_years},
            {"volumetric_years", policy.volumetric_years},
            {"proof_years", policy.proof_years},
            {"visual_years", policy.visual_years},
            {"footing", policy.footing}};
}

// What leads outdoors and is no fan reads as before there were others.
Json json_of_door(const Door& door) {
    Json json = {{"id", door.id},
                 {"name", door.name.by_language},
                 {"airflow_m3h", decimal(door.airflow_m3h)}};
    if (!door.leads_to.empty()) json["leads_to"] = door.leads_to;
    if (door.fan) json["fan"] = true;
    return json;
}

Json json_of_room(const Room& room) {
    return {{"id", room.id},
            {"name", room.name.by_language},
            {"volume_m3", decimal(room.volume_m3)},
            {"airflow_m3h", decimal(room.airflow_m3h)},
            {"mixing", decimal(room.mixing)},
            {"area_m2", decimal(room.area_m2)},
            {"closed", room.closed},
            {"door", list_of(room.doors, json_of_door)}};
}

Json json_of_meter(const RoomMeter& meter) {
    return {{"room", meter.room},
            {"instrument", meter.instrument},
            {"host", meter.host},
            {"port", meter.port},
            {"unit", meter.unit},
            {"register", meter.register_number},
            {"table", meter.input ? "input" : "holding"},
            {"scale", decimal(meter.scale)}};
}

Json json_of_machine(const Machine& machine) {
    Json json = {{"plate", machine.plate},
                 {"class", machine.machine_class},
                 {"room", machine.room},
                 {"hours", tenths_text(machine.hours_tenths)},
                 {"fuel_percent", machine.fuel_percent},
                 {"service_every", tenths_text(machine.service_every_tenths)},
                 {"service_done", tenths_text(machine.service_done_tenths)},
                 {"approved_as_truck", machine.approved_as_truck}};
    put_date(json, "inspection_due", machine.inspection_due);
    return json;
}

Json json_of_place(const ExchangePlace& place) {
    return {{"id", place.id}, {"name", place.name.by_language}};
}

Json json_of_drain(const Drain& drain) {
    Json json = {{"id", drain.id},
                 {"name", drain.name.by_language},
                 {"room", drain.room},
                 {"leads_to", drain.leads_to.by_language},
                 {"confirmed_by", drain.confirmed_by}};
    put_date(json, "confirmed_on", drain.confirmed_on);
    return json;
}

Json json_of_person(const Person& person) {
    Json duties = Json::array();
    for (const Duty duty : person.duties) duties.push_back(name_of(duty));
    Json json = {{"id", person.id},
                 {"language", person.language},
                 {"duties", std::move(duties)},
                 {"endorsements", person.endorsements}};
    put_date(json, "listed_until", person.listed_until);
    return json;
}

Json json_of_record(const ExampleRecord& record) {
    return {{"person", record.person},         {"class", record.machine_class},
            {"topics", record.topics},         {"days_ago", record.days_ago},
            {"practised", record.practised},   {"evaluated", record.evaluated},
            {"authorised", record.authorised}, {"rooms", record.rooms},
            {"shifts", record.shifts},         {"signed_by", record.signed_by}};
}

Json json_of_tailpipe(const ExampleTailpipe& test) {
    return {{"machine", test.machine},
            {"co_lmin", decimal(test.co_lmin)},
            {"days_ago", test.days_ago}};
}

Json json_of_statement(const ExampleStatement& statement) {
    return {{"person", statement.person}, {"languages", statement.languages}};
}

}  // namespace

std::string frozen_site(const Site& site) {
    Json json = {{"id", site.id},
                 {"name", site.name.by_language},
                 {"example", site.example},
                 {"zone", site.zone},
                 {"region", site.region},
                 {"language", site.language},
                 {"emergency_number", site.emergency_number},
                 {"supervisor_on_call", site.supervisor_on_call},
                 {"units", site.units},
                 {"policy", json_of_policy(site.policy)},
                 {"air", json_of_air(site.air)},
                 {"cylinders", json_of_cylinders(site.cylinders)},
                 {"shift", list_of(site.shifts, json_of_shift)},
                 {"room", list_of(site.rooms, json_of_room)},
                 {"meter", list_of(site.meters, json_of_meter)},
                 {"machine", list_of(site.machines, json_of_machine)},
                 {"drain", list_of(site.drains, json_of_drain)},
                 {"exchange_place", list_of(site.exchange_places, json_of_place)},
                 {"person", list_of(site.people, json_of_person)},
                 {"record", list_of(site.records, json_of_record)},
                 {"tailpipe", list_of(site.tailpipes, json_of_tailpipe)}};
    if (!site.statements.empty()) json["statement"] = list_of(site.statements, json_of_statement);
    if (!site.eyewash.empty()) json["eyewash"] = site.eyewash.by_language;
    if (!site.employer.empty()) json["employer"] = site.employer;
    if (!site.binder_folders.empty()) json["binder"] = {{"folders", site.binder_folders}};
    auto bytes = canonical(json);
    return bytes.ok() ? std::move(bytes).value() : std::string{};
}

}  // namespace holdpin
