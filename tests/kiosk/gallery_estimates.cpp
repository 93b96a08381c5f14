#include <cmath>

#include "gallery_pieces.hpp"

namespace holdpin::gallery {

namespace {

Dial dial(std::string id, std::string label, std::string value) {
    return {std::move(id), std::move(label), std::move(value), true, true, {}};
}

ChartData room_air_curve(W w) {
    ChartData chart;
    chart.x = {w("from now", "desde ahora"), "h:min", 0, 480, ChartTicks::clock};
    chart.left = {"CO", "ppm", 0, 250, ChartTicks::decimal};
    ChartLine air{w("air of the room", "aire del local"), ChartStyle::solid, false, {}};
    ChartLine mean{w("8-hour average so far", "promedio de 8 h"), ChartStyle::dashed, false, {}};
    for (int minute = 0; minute <= 480; minute += 5) {
        const double x = minute;
        const double end = 230 * (1 - std::exp(-150.0 / 70));
        air.points.push_back(
            {x, x <= 150 ? 230 * (1 - std::exp(-x / 70)) : end * std::exp(-(x - 150) / 40)});
        mean.points.push_back({x, 70 * x / 480});
    }
    chart.lines = {air, mean};
    chart.levels = {{200, w("200 ppm: at no time over", "200 ppm: nunca por encima"), false}};
    chart.bands = {{0, 480, 35,
                    w("35 ppm as an average over 8 h", "35 ppm como promedio de 8 h")}};
    chart.marks = {{150, 205, w("engines off", "motores apagados"), false}};
    return chart;
}

Exhibit room_air(W w) {
    EstimateBody body;
    body.dials = {dial("volume", w("Room", "Local"), "317 833 ft³"),
                  dial("airflow", w("Outdoor air", "Aire de afuera"), "12 000 m³/h"),
                  dial("source", w("CO from engines", "CO de motores"), "61 L/min"),
                  dial("stay", w("Inside, airing", "Adentro, ventilando"), "2 h 45 min")};
    body.dials[3].less = false;
    body.dials[3].why_not = w("This figure goes no further.", "Esta cifra no va más allá.");
    body.chart = room_air_curve(w);
    body.results = {w("8-hour average of 35 ppm used up after 1 h 34 min",
                      "Promedio de 8 h de 35 ppm agotado tras 1 h 34 min"),
                    w("Below 200 ppm: 187 ppm when engines stop",
                      "Menos de 200 ppm: 187 ppm al parar los motores")};
    body.advice = w("Plan for less than 1 h 34 min, or for more air. Meter on.",
                    "Planee menos de 1 h 34 min, o más aire. Lleve medidor.");
    body.caution = w(
        "Planning estimate, no measurement, no diagnosis, no clearance to enter. A meter and a "
        "competent person decide.",
        "Estimación para planear: no es medición, diagnóstico ni permiso para entrar. Deciden el "
        "medidor y una persona competente.");
    body.source = w("ACGIH manual (from memory). NIOSH limits for carbon monoxide",
                    "Manual ACGIH (de memoria). Límites de NIOSH para monóxido de carbono");
    Page page = page_of(w, "estimate", body);
    page.main = {};
    return {"estimate", page};
}

Exhibit cylinder(W w) {
    EstimateBody body;
    body.dials = {dial("temperature", w("Gas temperature", "Temperatura del gas"), "−20 °C")};
    body.chart.x = {w("temperature of the gas", "temperatura del gas"), "°C", -40, 60,
                    ChartTicks::decimal};
    body.chart.left = {w("pressure on the gauge", "presión en el manómetro"), "bar", 0, 22,
                       ChartTicks::decimal};
    body.chart.lines = {{w("pure propane", "propano puro"), ChartStyle::solid, false,
                         {{-40, 0.1}, {0, 3.7}, {30, 9.8}, {60, 20.2}}}};
    body.results = {w("1.4 bar on the gauge at −20 °C", "1.4 bar en el manómetro a −20 °C"),
                    w("16.1 bar at 50 °C, as in full sun", "16.1 bar a 50 °C, como a pleno sol")};
    body.advice = w("So cold, little gas leaves the cylinder. Bring a warmer one. Never warm a "
                    "cylinder.",
                    "Con tanto frío sale poco gas. Traiga uno menos frío. Nunca caliente un "
                    "cilindro.");
    body.caution = w("Planning estimate, no measurement. A real gauge may read more.",
                     "Estimación para planear, no es medición. Un manómetro puede marcar más.");
    body.source = w("Lemmon, McLinden, Wagner 2009: vapour pressure of propane",
                    "Lemmon, McLinden, Wagner 2009: presión de vapor del propano");
    Page page = page_of(w, "estimate-short", body);
    page.main = {};
    return {"estimate-short", page};
}

}  // namespace

std::vector<Exhibit> estimate_pages(W w) { return {room_air(w), cylinder(w)}; }

}  // namespace holdpin::gallery
