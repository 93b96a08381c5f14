// The canonical form of a job at a machine.
#include <array>
#include <nlohmann/json.hpp>

#include "content/digest_parts.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

// In the order of the enumerations, as files write them.
constexpr std::array kAskNames{"act", "choose", "place", "drain", "cylinder", "product"};
static_assert(kAskNames.size() == static_cast<std::size_t>(WorkAsk::product) + 1);
constexpr std::array kDoesNames{"nothing",      "cylinder-out", "cylinder-in", "cylinder-aside",
                           "fitted-aside", "floor-wet",    "floor-dry",   "coupling-tight",
                           "hopper-up",    "hopper-down"};
static_assert(kDoesNames.size() == static_cast<std::size_t>(WorkDoes::hopper_down) + 1);
constexpr std::array kEndsNames{"no", "stop", "leave"};
constexpr std::array kNeedsNames{"engine", "tank", "raised-hopper"};
static_assert(kNeedsNames.size() == static_cast<std::size_t>(WorkNeeds::raised_hopper) + 1);

void put_word(Json& json, const char* key, const std::string& word) {
    if (!word.empty()) json[key] = word;
}
void put_words(Json& json, const char* key, const Text& text) {
    if (!text.empty()) json[key] = text.by_language;
}

Json json_of_answer(const WorkAnswer& answer, Drawings& drawings) {
    Json json = {{"id", answer.id},
                 {"does", kDoesNames[static_cast<std::size_t>(answer.does)]},
                 {"ends", kEndsNames[static_cast<std::size_t>(answer.ends)]},
                 {"hazard", name_of(answer.hazard)},
                 {"ladder", answer.ladder}};
    put_words(json, "label", answer.label);
    put_words(json, "finding", answer.finding);
    put_words(json, "remark", answer.remark);
    put_word(json, "drawing", answer.drawing);
    put_word(json, "then", answer.then);
    put_word(json, "sheet", answer.sheet);
    put_word(json, "lockout", answer.lockout);
    drawings.add_drawing(answer.drawing);
    return json;
}

Json json_of_work_step(const WorkStep& step, Drawings& drawings) {
    Json json = {{"id", step.id},
                 {"ask", kAskNames[static_cast<std::size_t>(step.ask)]},
                 {"footing", step.footing},
                 {"with_hopper", step.with_hopper}};
    if (step.with_raised_hopper) json["with_raised_hopper"] = true;
    put_words(json, "action", step.action);
    put_words(json, "key_point", step.key_point);
    put_words(json, "reason", step.reason);
    put_word(json, "then", step.then);
    put_picture(json, step.picture, drawings);
    put_warnings(json, step.warnings);
    json["answer"] = Json::array();
    for (const WorkAnswer& answer : step.answers) {
        json["answer"].push_back(json_of_answer(answer, drawings));
    }
    return json;
}

}  // namespace

Json json_of_work(const Work& work, Drawings& drawings) {
    Json json = {{"id", work.id},
                 {"title", work.title.by_language},
                 {"short_title", work.short_title.by_language},
                 {"finished", work.finished.by_language},
                 {"needs", kNeedsNames[static_cast<std::size_t>(work.needs)]},
                 {"endorsement", work.endorsement},
                 {"step", Json::array()}};
    for (const WorkStep& step : work.steps) {
        json["step"].push_back(json_of_work_step(step, drawings));
    }
    return json;
}

}  // namespace holdpin
