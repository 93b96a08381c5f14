#include "content/digest.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <utility>

#include "base/sha256.hpp"
#include "base/text.hpp"
#include "base_json/canonical_json.hpp"
#include "content/digest_parts.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

Json json_of(const Text& text) { return Json(text.by_language); }

void put_id(Json& json, const char* key, const std::string& value) {
    if (!value.empty()) json[key] = value;
}
void put_text(Json& json, const char* key, const Text& value) {
    if (!value.empty()) json[key] = json_of(value);
}
template <typename Items, typename Write>
void put_list(Json& json, const char* key, const Items& items, Write write) {
    if (items.empty()) return;
    Json list = Json::array();
    for (const auto& item : items) list.push_back(write(item));
    json[key] = std::move(list);
}
template <typename Enum>
Json names_of(const std::vector<Enum>& values) {
    Json names = Json::array();
    for (const Enum value : values) names.push_back(name_of(value));
    return names;
}

Json json_of_warning(const Warning& warning) {
    const char* severity = warning.severity == Severity::death    ? "death"
                           : warning.severity == Severity::injury ? "injury"
                                                                  : "property";
    return {{"severity", severity},
            {"probability", warning.probability == Probability::will ? "will" : "could"},
            {"hazard", json_of(warning.hazard)},
            {"consequence", json_of(warning.consequence)},
            {"avoid", json_of(warning.avoid)},
            {"footing", warning.footing}};
}

}  // namespace

void put_picture(Json& json, const Picture& picture, Drawings& drawings) {
    if (picture.empty()) return;
    json["picture"] = {{"file", picture.file}, {"parts", picture.parts}};
    drawings.add(illustration_file(picture.file));
}

void put_warnings(Json& json, const std::vector<Warning>& warnings) {
    put_list(json, "warning", warnings, json_of_warning);
}

namespace {

Json json_of_step(const Step& step, Drawings& drawings) {
    Json json = {{"id", step.id},
                 {"action", json_of(step.action)},
                 {"key_point", json_of(step.key_point)},
                 {"reason", json_of(step.reason)},
                 {"footing", step.footing},
                 {"body_in_zone", step.body_in_zone}};
    put_picture(json, step.picture, drawings);
    put_warnings(json, step.warnings);
    return json;
}

Json json_of_guide(const Guide& guide, Drawings& drawings) {
    Json json = {{"id", guide.id},
                 {"title", json_of(guide.title)},
                 {"intro", json_of(guide.intro)},
                 {"topics", guide.topics},
                 {"quiz", guide.quiz}};
    put_list(json, "step", guide.steps,
             [&](const Step& step) { return json_of_step(step, drawings); });
    return json;
}

Json json_of_question(const Question& question) {
    Json json = {{"id", question.id},
                 {"ask", json_of(question.ask)},
                 {"why", json_of(question.why)},
                 {"must_pass", question.must_pass},
                 {"footing", question.footing}};
    put_list(json, "choice", question.choices, [](const Choice& choice) {
        return Json{{"text", json_of(choice.text)}, {"right", choice.right}};
    });
    return json;
}

Json json_of_quiz(const Quiz& quiz) {
    Json json = {{"id", quiz.id},
                 {"title", json_of(quiz.title)},
                 {"draw", quiz.draw},
                 {"pass_percent", quiz.pass_percent},
                 {"cut_basis", json_of(quiz.cut_basis)}};
    put_list(json, "question", quiz.questions, json_of_question);
    return json;
}

Json json_of_reading(const Reading& reading, Drawings& drawings) {
    Json json = {{"id", reading.id},
                 {"label", json_of(reading.label)},
                 {"outcome", name_of(reading.outcome)}};
    put_id(json, "drawing", reading.drawing);
    put_text(json, "finding", reading.finding);
    put_id(json, "sheet", reading.sheet);
    drawings.add_drawing(reading.drawing);
    return json;
}

Json json_of_number(const NumberPoint& number) {
    Json json = {{"unit", number.unit},
                 {"min", tenths_text(number.min_tenths)},
                 {"max", tenths_text(number.max_tenths)},
                 {"check", number.check == NumberCheck::none ? "none" : "not-below-last"},
                 {"most_rise", tenths_text(number.most_rise_tenths)},
                 {"outside", name_of(number.outside)}};
    put_id(json, "keeps", number.keeps);
    if (number.low_tenths >= 0) json["low"] = tenths_text(number.low_tenths);
    put_text(json, "finding", number.finding);
    return json;
}

Json json_of_point(const Point& point, Drawings& drawings) {
    Json json = {{"id", point.id},
                 {"question", json_of(point.question)},
                 {"look", json_of(point.look)},
                 {"topic", point.topic},
                 {"footing", point.footing},
                 {"hazard", name_of(point.hazard)},
                 {"takeover", point.takeover}};
    put_text(json, "why", point.why);
    put_picture(json, point.picture, drawings);
    put_warnings(json, point.warnings);
    put_list(json, "reading", point.readings,
             [&](const Reading& reading) { return json_of_reading(reading, drawings); });
    if (point.number) json["number"] = json_of_number(*point.number);
    return json;
}

Json json_of_round(const Round& round, Drawings& drawings) {
    Json json = {{"id", round.id},
                 {"kind", name_of(round.kind)},
                 {"class", round.machine_class},
                 {"title", json_of(round.title)}};
    put_list(json, "station", round.stations, [&](const Station& station) {
        Json below = {{"id", station.id},
                      {"name", json_of(station.name)},
                      {"place", json_of(station.place)},
                      {"engine", station.engine}};
        put_list(below, "point", station.points,
                 [&](const Point& point) { return json_of_point(point, drawings); });
        return below;
    });
    return json;
}

Json json_of_sheet(const Sheet& sheet, Drawings& drawings) {
    const auto line = [](const Text& text) { return Json{{"text", json_of(text)}}; };
    Json json = {{"id", sheet.id},
                 {"order", sheet.order},
                 {"title", json_of(sheet.title)},
                 {"first", json_of(sheet.first)},
                 {"tell", json_of(sheet.tell)},
                 {"footing", sheet.footing}};
    if (sheet.eyewash) json["eyewash"] = true;
    put_id(json, "drawing", sheet.drawing);
    put_list(json, "act", sheet.act, line);
    put_list(json, "never", sheet.never, line);
    drawings.add_drawing(sheet.drawing);
    return json;
}

Json json_of_topic(const Topic& topic) {
    Json json = {{"id", topic.id},
                 {"name", json_of(topic.name)},
                 {"kind", name_of(topic.kind)},
                 {"footing", topic.footing},
                 {"valid_months", topic.valid_months}};
    put_id(json, "guide", topic.guide);
    if (!topic.jobs.empty()) json["jobs"] = topic.jobs;
    return json;
}

// Figures as text: RFC 8785 would need one way to round them.
std::string figure(double value) { return fmt::format("{}", value); }

Json json_of_engine(const EngineFigures& engine) {
    Json json = {{"co_upper_lmin", figure(engine.co_upper_lmin)},
                 {"burn_kg_h", figure(engine.burn_kg_h)},
                 {"footing", engine.footing}};
    if (engine.cylinder_kg > 0) json["cylinder_kg"] = figure(engine.cylinder_kg);
    return json;
}

Json json_of_hopper(const HopperFigures& hopper) {
    return {{"hopper_kg", figure(hopper.hopper_kg)},
            {"arm_m", figure(hopper.arm_m)},
            {"prop_m", figure(hopper.prop_m)},
            {"prop_angle_deg", figure(hopper.prop_angle_deg)},
            {"pin_mm", figure(hopper.pin_mm)},
            {"shear_planes", hopper.shear_planes},
            {"yield_mpa", figure(hopper.yield_mpa)},
            {"footing", hopper.footing}};
}

Json json_of_work(const WorkFigures& work) {
    return {{"solution_l", figure(work.solution_l)},
            {"flow_lmin", figure(work.flow_lmin)},
            {"recovery_l", figure(work.recovery_l)},
            {"pickup_percent", figure(work.pickup_percent)},
            {"width_m", figure(work.width_m)},
            {"speed_kmh", figure(work.speed_kmh)},
            {"overlap_percent", figure(work.overlap_percent)}};
}

Json json_of_class(const MachineClass& machine) {
    Json json = {{"id", machine.id},
                 {"name", json_of(machine.name)},
                 {"short_name", json_of(machine.short_name)},
                 {"is_truck", machine.is_truck},
                 {"has_engine", machine.has_engine},
                 {"round_before", machine.round_before},
                 {"round_after", machine.round_after}};
    if (machine.engine) json["engine"] = json_of_engine(*machine.engine);
    if (machine.hopper) json["hopper"] = json_of_hopper(*machine.hopper);
    if (machine.work) json["work"] = json_of_work(*machine.work);
    for (const ProcedureText& one : kProcedureTexts) {
        json["procedure"][std::string(one.key)] = json_of(machine.procedure.*one.text);
    }
    put_list(json, "topic", machine.topics, json_of_topic);
    put_list(json, "energy", machine.energies, [](const Energy& energy) {
        Json one{{"id", energy.id},
                 {"name", json_of(energy.name)},
                 {"isolate", json_of(energy.isolate)},
                 {"verify", json_of(energy.verify)},
                 {"stored", energy.stored},
                 {"before_an_arm", energy.before_an_arm},
                 {"reverify_minutes", energy.reverify_minutes}};
        if (energy.tag_only) one["extra_measure"] = json_of(energy.extra_measure);
        return one;
    });
    put_list(json, "prop", machine.props, [](const Prop& prop) {
        return Json{{"id", prop.id}, {"name", json_of(prop.name)}, {"part", prop.part}};
    });
    put_list(json, "part", machine.parts, [](const Part& part) {
        return Json{{"id", part.id}, {"name", json_of(part.name)}};
    });
    return json;
}

Json json_of_footing(const Footing& footing) {
    return {{"id", footing.id},
            {"kind", name_of(footing.kind)},
            {"region", footing.region},
            {"status", footing.status},
            {"trucks_only", footing.trucks_only},
            {"citation", json_of(footing.citation)}};
}

Json json_of_hold(const HoldRule& hold) {
    return {{"code", hold.code},
            {"lug", name_of(hold.lug)},
            {"self", hold.self},
            {"overridable", hold.overridable},
            {"lifted_by", names_of(hold.lifted_by)},
            {"title", json_of(hold.title)},
            {"reason", json_of(hold.reason)},
            {"lift", json_of(hold.lift)}};
}

Json json_of_duty(const DutyRule& duty) {
    return {{"id", name_of(duty.duty)},
            {"name", json_of(duty.name)},
            {"rights", names_of(duty.rights)}};
}

// Readers let nothing through that has no canonical form; no bytes at all would show a fault of
// this file in every test.
std::string bytes_of(const Json& json) {
    auto bytes = canonical(json);
    return bytes.ok() ? std::move(bytes).value() : std::string{};
}

// Items of one kind that may name drawings.
template <typename Item>
void freeze(FrozenItems& frozen, const std::string& kind, const std::vector<Item>& items,
            const Files& assets, Json (*write)(const Item&, Drawings&)) {
    for (const auto& item : items) {
        Drawings drawings(assets);
        Json json = write(item, drawings);
        drawings.put(json);
        frozen[kind + "/" + item.id] = bytes_of(json);
    }
}

}  // namespace

FrozenItems frozen_pack(const Pack& pack, const Files& assets) {
    FrozenItems frozen;
    freeze(frozen, "guide", pack.guides, assets, json_of_guide);
    freeze(frozen, "round", pack.rounds, assets, json_of_round);
    freeze(frozen, "sheet", pack.sheets, assets, json_of_sheet);
    freeze(frozen, "work", pack.works, assets, json_of_work);
    for (const auto& quiz : pack.quizzes) frozen["quiz/" + quiz.id] = bytes_of(json_of_quiz(quiz));
    for (const auto& machine : pack.classes) {
        frozen["class/" + machine.id] = bytes_of(json_of_class(machine));
    }
    Json footings = Json::object();
    put_list(footings, "footing", pack.footings, json_of_footing);
    Json holds = Json::object();
    put_list(holds, "hold", pack.holds, json_of_hold);
    Json duties = Json::object();
    put_list(duties, "duty", pack.duties, json_of_duty);
    Json strings = Json::object();
    for (const auto& [key, text] : pack.strings) strings[key] = json_of(text);
    frozen["ruleset/footings"] = bytes_of(footings);
    frozen["ruleset/holds"] = bytes_of(holds);
    frozen["ruleset/duties"] = bytes_of(duties);
    if (!pack.retention.empty()) frozen["ruleset/retention"] = frozen_retention(pack);
    frozen["strings/all"] = bytes_of(strings);
    return frozen;
}

std::map<std::string, std::string> digests_of(const FrozenItems& frozen) {
    std::map<std::string, std::string> digests;
    for (const auto& [key, bytes] : frozen) digests[key] = hex(sha256(bytes));
    return digests;
}

}  // namespace holdpin
