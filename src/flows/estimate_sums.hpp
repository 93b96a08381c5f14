// What can be estimated, and what comes out: for each subject the dials with the site's own figures
// to begin with, and the curve, results and sentences for what the dials say. The formulas are
// those of hazard/; time to a limit is rounded down, airing time up. A planning estimate in every
// case: no measurement, no clearance to enter. Gas in a room is no subject: it lies on the floor.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "flows/estimate_units.hpp"
#include "flows/session.hpp"

namespace holdpin {

enum class Subject { room_air, blood, airing, cylinder, props, run };
inline constexpr Subject kSubjects[] = {Subject::room_air, Subject::blood, Subject::airing,
                                        Subject::cylinder, Subject::props, Subject::run};
std::string_view name_of(Subject subject);  // "room-air"
bool asks_for_room(Subject subject);

struct EstimateDial {
    std::string id;
    Quantity quantity = Quantity::ppm;
    double start = 0;  // metric, as least and most
    double least = 0;
    double most = 0;
    double step = 0;     // as shown in metric units; 0: along 1, 1.2, 1.5, 2 …
    double us_step = 0;  // as shown in US units; 0: the same as `step`
    std::vector<std::string> words;  // keys; a dial of words counts from 0
};
// Error where the site has no figures for it.
Result<std::vector<EstimateDial>> estimate_dials(const Session& session, Subject subject,
                                                 const std::string& room);

struct EstimateAsk {
    const Session& session;
    std::string room;            // empty where the subject asks for none
    Units units;
    std::vector<double> values;  // metric, in the order of the dials
};
// Error where a figure is outside what its formula holds for.
Result<EstimateBody> estimate(const EstimateAsk& ask, Subject subject);

// The subjects, one function each.
Result<std::vector<EstimateDial>> room_air_dials(const Session& session, const Room& room);
Result<std::vector<EstimateDial>> airing_dials(const Session& session, const Room& room);
Result<EstimateBody> estimate_room_air(const EstimateAsk& ask);
Result<EstimateBody> estimate_airing(const EstimateAsk& ask);
std::vector<EstimateDial> blood_dials();
Result<EstimateBody> estimate_blood(const EstimateAsk& ask);
std::vector<EstimateDial> cylinder_dials();
Result<EstimateBody> estimate_cylinder(const EstimateAsk& ask);
Result<std::vector<EstimateDial>> prop_dials(const Session& session);
Result<EstimateBody> estimate_props(const EstimateAsk& ask);
Result<std::vector<EstimateDial>> run_dials(const Session& session, const Room& room);
Result<EstimateBody> estimate_run(const EstimateAsk& ask);

// Shared by the subjects.
double engine_source_lmin(const Session& session, const Room& room);
double airflow_doors_open(const Room& room);
// "Two pins: 816 N each …": what a prop has to carry by the figures of a class; empty without them.
std::string prop_load_note(const Session& session, const HopperFigures& hopper);

}  // namespace holdpin
