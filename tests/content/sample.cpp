#include "sample.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "content/hold_codes.hpp"

namespace holdpin::sample {
namespace {

std::string holds() {
    std::string text;
    for (const auto code : kHoldCodes) {
        text += fmt::format(R"([[hold]]
code = "{}"
lug = "site"
self = false
overridable = false
lifted_by = ["supervisor"]
title = {{ en = "Held: {{machine}}", es = "Retenida: {{machine}}" }}
reason = {{ en = "A reason.", es = "Un motivo." }}
lift = {{ en = "A supervisor lifts it.", es = "La quita un supervisor." }}
)",
                            code);
    }
    return text;
}

std::string duties() {
    std::string text;
    for (const auto* id :
         {"operator", "trainer", "evaluator", "supervisor", "mechanic", "author", "auditor"}) {
        text += fmt::format(
            "[[duty]]\nid = \"{0}\"\nname = {{ en = \"{0}\", es = \"{0}\" }}\n"
            "rights = [\"{1}\"]\n",
            id, std::string_view(id) == "evaluator" ? "evaluate" : "read-records");
    }
    return text;
}

constexpr std::string_view kFootings = R"(
[[footing]]
id = "common-practice"
kind = "site"
region = "any"
status = "CP"
citation = { en = "Common practice, no source", es = "Práctica común, sin fuente" }
[[footing]]
id = "osha-147"
kind = "law"
region = "US"
status = "R2"
trucks_only = true
citation = { en = "A rule", es = "Una norma" }
)";

constexpr std::string_view kClass = R"(
id = "mill"
name = { en = "Mill", es = "Molino" }
short_name = { en = "Mill", es = "Molino" }
is_truck = false
has_engine = true
round_before = "mill-before"
round_after = "mill-after"
[engine]
co_upper_lmin = 61.5
burn_kg_h = 2
footing = "common-practice"
[hopper]
hopper_kg = 120
arm_m = 0.6
prop_m = 0.5
prop_angle_deg = 60.0
pin_mm = 12.0
shear_planes = 1
yield_mpa = 250.0
footing = "osha-147"
[work]
solution_l = 280.0
flow_lmin = 4.0
recovery_l = 300.0
pickup_percent = 90.0
width_m = 1.2
speed_kmh = 6.5
overlap_percent = 10.0
[procedure]
purpose = { en = "For repairs.", es = "Para reparar." }
scope = { en = "The whole mill.", es = "Todo el molino." }
authorisation = { en = "The mechanic.", es = "El mecánico." }
rules = { en = "One person, one lock.", es = "Una persona, un candado." }
techniques = { en = "The switch is locked.", es = "Se bloquea el interruptor." }
enforcement = { en = "Looked at every year.", es = "Se inspecciona cada año." }
shutdown = { en = "Press stop.", es = "Pulse paro." }
block = { en = "A wedge in the wheel.", es = "Una cuña en la rueda." }
place = { en = "Your own lock.", es = "Su propio candado." }
remove = { en = "Only your own.", es = "Solo el suyo." }
transfer = { en = "The new one first.", es = "Primero el nuevo." }
responsible = { en = "Its owner.", es = "Su dueño." }
verify = { en = "Try to start it.", es = "Intente arrancarlo." }
[[energy]]
id = "motor"
name = { en = "Motor", es = "Motor" }
isolate = { en = "Lock the switch.", es = "Bloquee el interruptor." }
verify = { en = "Press start: nothing turns.", es = "Pulse arranque: nada gira." }
stored = true
[[prop]]
id = "left"
name = { en = "Left prop", es = "Puntal izquierdo" }
part = "wheel"
[[topic]]
id = "looking"
name = { en = "Looking", es = "Mirar" }
kind = "workplace"
guide = "look-first"
footing = "common-practice"
valid_months = 36
[[part]]
id = "wheel"
name = { en = "Wheel", es = "Rueda" }
)";

constexpr std::string_view kGuide = R"(
id = "look-first"
title = { en = "Look first", es = "Mire primero" }
intro = { en = "How to look.", es = "Cómo mirar." }
topics = ["looking"]
quiz = "look-first"
[[step]]
id = "lock"
action = { en = "Lock the switch.", es = "Bloquee el interruptor." }
key_point = { en = "Your own lock.", es = "Su propio candado." }
reason = { en = "Nobody starts it.", es = "Nadie la arranca." }
picture = { file = "mill", parts = ["wheel"] }
footing = "osha-147"
[[step]]
id = "reach"
action = { en = "Turn the wheel.", es = "Gire la rueda." }
key_point = { en = "By hand.", es = "Con la mano." }
reason = { en = "It must run free.", es = "Debe girar libre." }
footing = "common-practice"
body_in_zone = true
[[step.warning]]
severity = "death"
probability = "will"
hazard = { en = "The wheel.", es = "La rueda." }
consequence = { en = "It will crush you.", es = "Lo aplastará." }
avoid = { en = "Lock it.", es = "Bloquéela." }
footing = "common-practice"
)";

std::string quiz() {
    std::string text = R"(id = "look-first"
title = { en = "Look first", es = "Mire primero" }
draw = 6
pass_percent = 80
cut_basis = { en = "A starting point.", es = "Un punto de partida." }
)";
    for (int i = 1; i <= 12; ++i) {
        text += fmt::format(R"([[question]]
id = "q{}"
ask = {{ en = "What first?", es = "¿Qué primero?" }}
why = {{ en = "Look first.", es = "Mire primero." }}
must_pass = {}
footing = "common-practice"
[[question.choice]]
text = {{ en = "Look", es = "Mirar" }}
right = true
[[question.choice]]
text = {{ en = "Run", es = "Correr" }}
[[question.choice]]
text = {{ en = "Wait", es = "Esperar" }}
)",
                            i, i < 3);
    }
    return text;
}

constexpr std::string_view kRound = R"(
id = "mill-before"
kind = "before"
class = "mill"
title = { en = "Before use", es = "Antes del uso" }
[[station]]
id = "outside"
name = { en = "Ran", es = "Afuera" }
place = { en = "At the door", es = "En la puerta" }
[[station.point]]
id = "wheel"
question = { en = "How is the wheel?", es = "¿Cómo está la rueda?" }
look = { en = "Look from the side.", es = "Mire de lado." }
why = { en = "A cracked wheel flies apart.", es = "Una rueda rota sale volando." }
picture = { file = "mill", parts = ["wheel"] }
topic = "looking"
footing = "common-practice"
hazard = "guard"
takeover = true
[[station.point.reading]]
id = "whole"
label = { en = "Whole", es = "Entera" }
outcome = "fine"
drawing = "wheel-whole"
[[station.point.reading]]
id = "worn"
label = { en = "Worn", es = "Gastada" }
outcome = "note"
finding = { en = "Wheel worn", es = "Rueda gastada" }
[[station.point.reading]]
id = "cracked"
label = { en = "Cracked", es = "Rota" }
outcome = "stop"
finding = { en = "Wheel cracked", es = "Rueda rota" }
sheet = "crush"
[[station.point]]
id = "hours"
question = { en = "What does the meter show?", es = "¿Qué marca el horómetro?" }
look = { en = "At the panel.", es = "En el tablero." }
topic = "looking"
footing = "common-practice"
[station.point.number]
unit = "h"
min = "0"
max = "99999.9"
keeps = "hours"
check = "not-below-last"
most_rise = "26"
low = "1.5"
outside = "note"
finding = { en = "Hours do not fit", es = "Las horas no cuadran" }
[[station]]
id = "running"
name = { en = "Running", es = "En marcha" }
place = { en = "At the panel", es = "En el tablero" }
engine = true
[[station.point]]
id = "sound"
question = { en = "How does it sound?", es = "¿Cómo suena?" }
look = { en = "Listen.", es = "Escuche." }
topic = "looking"
footing = "common-practice"
[[station.point.reading]]
id = "even"
label = { en = "Even", es = "Parejo" }
outcome = "fine"
[[station.point.reading]]
id = "rough"
label = { en = "Rough", es = "Áspero" }
outcome = "note"
finding = { en = "Runs rough", es = "Suena áspero" }
[[station.point.reading]]
id = "knocks"
label = { en = "Knocks", es = "Golpea" }
outcome = "note"
finding = { en = "Knocks", es = "Golpea" }
)";

constexpr std::string_view kSheet = R"(
id = "crush"
order = 1
title = { en = "Crushed", es = "Aplastado" }
first = { en = "Stop the machine.", es = "Pare la máquina." }
tell = { en = "Where you are.", es = "Dónde está." }
drawing = "wheel-whole"
footing = "common-practice"
[[act]]
text = { en = "Call for help.", es = "Pida ayuda." }
[[never]]
text = { en = "Do not pull.", es = "No jale." }
)";

constexpr std::string_view kStrings = R"(
[floor]
sign-on = { en = "Sign on", es = "Entrar" }
[floor.plate]
held = { en = "{machine} is held", es = "{machine} está retenida" }
)";

constexpr std::string_view kSite = R"(
id = "shed"
name = { en = "Shed", es = "Galpón" }
example = true
zone = "Europe/Madrid"
region = "EU"
language = "es"
emergency_number = "112"
supervisor_on_call = "p-sol"
units = "us"
[policy]
pin_digits = 6
idle_seconds = 120
[air]
average_ppm = 25
ceiling_ppm = 100.5
least_minutes = 20
doors_minutes = 15
tailpipe_months = 3
symptoms_minutes = 45
footing = "common-practice"
[cylinders]
limit_kg = 136.0
first_years = 11
volumetric_years = 10
proof_years = 9
visual_years = 4
footing = "osha-147"
[[shift]]
id = "day"
name = { en = "Day", es = "Día" }
start = "06:00"
end = "24:00"
[[room]]
id = "hall"
name = { en = "Hall", es = "Nave" }
volume_m3 = 900.5
airflow_m3h = 1200
mixing = 2.5
area_m2 = 150
closed = false
[[room.door]]
id = "front"
name = { en = "Front door", es = "Puerta principal" }
airflow_m3h = 600.5
[[room.door]]
id = "back"
name = { en = "Back door", es = "Puerta trasera" }
airflow_m3h = 500
[[meter]]
room = "hall"
instrument = "CO-3"
host = "192.0.2.40"
port = 1502
unit = 7
register = 30
table = "input"
scale = 0.1
[[machine]]
plate = "M-1"
class = "mill"
room = "hall"
hours = "1284.6"
fuel_percent = 80
service_every = "250"
service_done = "1200"
inspection_due = 2027-03-01
approved_as_truck = false
[[drain]]
id = "gully"
name = { en = "Gully", es = "Sumidero" }
room = "hall"
leads_to = { en = "Separator", es = "Separador" }
confirmed_by = "p-sol"
confirmed_on = 2026-05-04
)";

constexpr std::string_view kPeople = R"(
[[person]]
id = "p-sol"
name = "A. Sol"
badge = "B-1"
language = "es"
duties = ["supervisor", "evaluator"]
competence = "Ten years at the mill"
listed_until = 2028-01-01
extension = "21"
[[person]]
id = "p-luz"
name = "B. Luz"
badge = "B-2"
language = "en"
duties = ["operator"]
endorsements = ["lockout"]
example_pin = "407193"
[[record]]
person = "p-luz"
class = "mill"
topics = ["looking"]
days_ago = 120
practised = true
evaluated = true
authorised = true
rooms = ["hall"]
shifts = ["day"]
signed_by = "p-sol"
[[tailpipe]]
machine = "M-1"
co_lmin = 4.25
days_ago = 30
)";

}  // namespace

Files pack() {
    Files files{{"rulesets/footings.toml", std::string(kFootings)},
                {"rulesets/holds.toml", holds()},
                {"rulesets/duties.toml", duties()},
                {"classes/mill.toml", std::string(kClass)},
                {"guides/look-first.toml", std::string(kGuide)},
                {"quizzes/look-first.toml", quiz()},
                {"rounds/mill-before.toml", std::string(kRound)},
                {"sheets/crush.toml", std::string(kSheet)},
                {"strings/floor.toml", std::string(kStrings)}};
    std::string after(kRound);
    after.replace(after.find("mill-before"), 11, "mill-after");
    after.replace(after.find("\"before\""), 8, "\"after\"");
    files["rounds/mill-after.toml"] = after;
    return files;
}

Files assets() {
    return {{"illustrations/mill.svg", "<svg><g id=\"wheel\"/><g id=\"unnamed\"/></svg>"},
            {"illustrations/tiles/wheel-whole.svg", "<svg/>"}};
}

Files site() { return {{"site.toml", std::string(kSite)}, {"people.toml", std::string(kPeople)}}; }

Files with(Files files, const std::string& name, std::string_view from, std::string_view to) {
    std::string& text = files[name];
    const auto at = text.find(from);
    REQUIRE_MESSAGE(at != std::string::npos, std::string(from) << " is not in " << name);
    text.replace(at, from.size(), to);
    return files;
}

Loaded load_with(const std::string& file, std::string_view from, std::string_view to) {
    Files pack = sample::pack();
    Files site = sample::site();
    Files& broken = site.contains(file) ? site : pack;
    broken = with(broken, file, from, to);
    return load_content(pack, assets(), site);
}

void check_breaks(const std::string& file, std::initializer_list<Break> breaks) {
    for (const auto& row : breaks) {
        CAPTURE(row.name);
        const Loaded loaded = load_with(file, row.from, row.to);
        CHECK_MESSAGE(has(loaded.faults, file, row.fault), lines(loaded.faults));
    }
}

bool has(const Faults& faults, std::string_view file, std::string_view words) {
    for (const auto& fault : faults) {
        const std::string text = fault.what + "; " + fault.mend;
        if (fault.file == file && text.find(words) != std::string::npos) return true;
    }
    return false;
}

bool has_at(const Faults& faults, std::string_view file, int line) {
    for (const auto& fault : faults) {
        if (fault.file == file && fault.line == line) return true;
    }
    return false;
}

std::string lines(const Faults& faults) {
    std::string text;
    for (const auto& fault : faults) text += fault.sentence() + "\n";
    return text;
}

}  // namespace holdpin::sample
