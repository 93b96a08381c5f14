#include "gallery.hpp"

#include <utility>

namespace holdpin::gallery {

namespace {

class Words {
  public:
    explicit Words(std::string_view language) : spanish_(language == "es") {}
    std::string operator()(const char* english, const char* spanish) const {
        return spanish_ ? spanish : english;
    }
    bool spanish() const { return spanish_; }

  private:
    bool spanish_;
};
using W = const Words&;

Button button(std::string id, std::string label, std::string second = {}) {
    return {std::move(id), std::move(label), std::move(second), true, {}};
}

Page page_of(W w, std::string id, Body body) {
    Page page;
    page.id = std::move(id);
    page.language = w.spanish() ? "es" : "en";
    page.left = w("SW-14 · round before use", "SW-14 · revisión antes del uso");
    page.middle = w("Station 2 of 9 · LP cylinder", "Estación 2 de 9 · cilindro LP");
    page.right = "R. Okafor-Lind · 05:44";
    page.example = w("example data", "datos de ejemplo");
    page.body = std::move(body);
    page.back = button("back", w("Back", "Atrás"));
    page.help = button("help", w("Problem or emergency", "Problema o emergencia"));
    page.main = button("main", w("Next", "Siguiente"), w("to the next point", "al punto siguiente"));
    return page;
}

// ---- plates ---------------------------------------------------------------------------------

std::vector<LugView> lugs(W w, std::vector<LugState> states) {
    const std::vector<std::string> names = {
        w("Person", "Persona"),          w("Round", "Revisión"),   w("Findings", "Hallazgos"),
        w("Room air", "Aire del lugar"), w("Service", "Servicio"), w("Locks", "Candados"),
        w("Site", "Sitio")};
    std::vector<LugView> views;
    for (std::size_t index = 0; index < names.size(); ++index) {
        const LugState state = states[index];
        const std::string word = state == LugState::held  ? w("hold", "retención")
                                 : state == LugState::due ? w("you can act", "usted puede actuar")
                                 : state == LugState::open
                                     ? w("no hold", "sin retención")
                                     : w("not asked yet", "aún no consultado");
        views.push_back({state, names[index], word});
    }
    return views;
}

constexpr auto U = LugState::unasked;
constexpr auto O = LugState::open;
constexpr auto D = LugState::due;
constexpr auto H = LugState::held;

PlateView plate(W w, std::string number, std::vector<LugState> states, std::string state,
                bool held = false) {
    return {.plate = number,
            .class_name = w("Ride-on scrubber-sweeper, LP", "Fregadora-barredora con asiento, LP"),
            .hours = "1\u202f284.6\u00a0h",
            .lugs = lugs(w, std::move(states)),
            .state = std::move(state),
            .is_held = held,
            .action = "plate/" + number};
}

FloorBody floor_body(W w) {
    FloorBody body;
    body.plates = {plate(w, "SW-14", {U, U, O, O, O, O, O}, w("ready to check", "lista para revisar")),
                   plate(w, "SW-15", {U, U, H, O, O, O, O}, w("out of service", "fuera de servicio"), true),
                   plate(w, "BW-03", {U, U, O, O, D, O, O}, w("service due", "servicio pendiente")),
                   plate(w, "LT-21", {O, O, O, O, O, O, O}, w("T. Mbeki-Rao, to 14:00", "T. Mbeki-Rao, hasta 14:00")),
                   plate(w, "LT-22", {U, U, O, O, O, H, O}, w("locked out", "bloqueada"), true)};
    body.large = button("sign-on", w("Sign on", "Iniciar sesión"), w("badge, then PIN", "gafete, luego clave"));
    return body;
}

Exhibit floor_few(W w) {
    Page page = page_of(w, "floor", floor_body(w));
    page.left = "Ash Lane";
    page.middle = w("Early shift 06:00 – 14:00", "Turno de mañana 06:00 – 14:00");
    page.right = w("Wed 25 Nov · 05:40", "mié 25 nov · 05:40");
    page.back = button("language", w("Español", "English"));
    page.main = button("desk", w("Supervisor desk", "Escritorio"), w("people, findings, records", "personas, hallazgos, registros"));
    return {"floor", page};
}

Exhibit floor_many(W w) {
    FloorBody body = floor_body(w);
    for (const char* number : {"SW-16", "SW-17", "LT-23"}) {
        body.plates.push_back(plate(w, number, {U, U, O, O, O, O, O}, w("ready to check", "lista para revisar")));
    }
    return {"floor-many", page_of(w, "floor-many", body)};
}

HoldCard brake_hold(W w) {
    return {false, w("Parking brake creeps on the ramp", "El freno de estacionamiento cede en la rampa"),
            w("A machine that rolls away on its own is stopped by whatever stands behind it. Found at 05:51.",
              "Una máquina que rueda sola se detiene contra lo que tenga detrás. Hallado a las 05:51."),
            w("Lifted by: a mechanic's repair, then a supervisor", "La quita: reparación de un mecánico y un supervisor")};
}

HoldCard return_hold(W w) {
    return {true, w("Not returned", "Sin devolver"),
            w("T. Mbeki-Rao had SW-14 until 22:00 and did not return it. Close it: valve, key, hopper, brake.",
              "T. Mbeki-Rao tenía SW-14 hasta las 22:00 y no la devolvió. Ciérrela: válvula, llave, tolva, freno."),
            w("Lifted by: you, with the round after use", "La quita: usted, con la revisión después del uso")};
}

HoldCard room_hold(W w) {
    return {false, w("Closed to engines: Dock hall", "Cerrado a motores: Nave de muelles"),
            w("No engine is started in this room now. This hold stops no running engine: switch it off and go out.",
              "No se arranca ningún motor aquí por ahora. Esta retención no apaga motores: apáguelos y salga."),
            w("Lifted by: a supervisor, after an air reading", "La quita: un supervisor, tras medir el aire")};
}

Exhibit holds_two(W w) {
    HoldsBody body{.plate = plate(w, "SW-14", {O, O, H, O, O, O, D}, ""),
                   .heading = w("Not handed over. Two holds:", "No se entrega. Dos retenciones:"),
                   .holds = {brake_hold(w), return_hold(w)},
                   .remark = {}};
    Page page = page_of(w, "holds", body);
    page.main = button("call", w("Call supervisor", "Llamar al supervisor"), w("ext. 214 · A. Brandt", "ext. 214 · A. Brandt"));
    return {"holds", page};
}

Exhibit holds_four(W w) {
    HoldsBody body{.plate = plate(w, "SW-14", {O, D, H, H, O, O, D}, ""),
                   .heading = w("Not handed over. Four holds:", "No se entrega. Cuatro retenciones:"),
                   .holds = {brake_hold(w), room_hold(w), return_hold(w), room_hold(w)},
                   .remark = {}};
    return {"holds-four", page_of(w, "holds-four", body)};
}

Exhibit holds_none(W w) {
    HoldsBody body{.plate = plate(w, "SW-14", {O, D, O, O, O, O, O}, ""),
                   .heading = w("Ready to check", "Lista para revisar"),
                   .holds = {},
                   .remark = w("Walk the round before use. It takes about four minutes.",
                               "Haga la revisión antes del uso. Toma unos cuatro minutos.")};
    return {"holds-none", page_of(w, "holds-none", body)};
}

Exhibit handed(W w) {
    HandedBody body{.plate = plate(w, "SW-14", {O, O, O, O, O, O, O}, ""),
                    .heading = w("Handed to", "Entregada a"),
                    .name = "R. Okafor-Lind",
                    .lines = {w("05:58 to 14:00 · Dock hall, Hall 2", "05:58 a 14:00 · Nave de muelles, Nave 2"),
                              w("Not on ramps over 8 %", "No en rampas de más de 8 %")},
                    .entry = w("Entry 48\u202f213", "Registro 48\u202f213"),
                    .remark = w("Drive as you were trained. Stop and report anything new.",
                                "Maneje como aprendió. Pare y reporte todo lo nuevo."),
                    .turn = false};
    Page page = page_of(w, "handed", body);
    page.main = button("done", w("Done", "Listo"), w("signs you off", "cierra su sesión"));
    return {"handed", page};
}

// ---- steps ----------------------------------------------------------------------------------

PictureView hopper(W w) {
    return {"hopper-raised",
            {{"prop-left", w("left prop", "puntal izquierdo")}, {"prop-right", w("right prop", "puntal derecho")}},
            w("Both sides have a prop. Fit both.", "Cada lado tiene un puntal. Ponga los dos.")};
}

WarningView crush(W w) {
    return {Signal::danger, w("DANGER", "PELIGRO"),
            w("A raised hopper falls if a hose fails or a lever moves. It will crush you. Stay out from under it "
              "until both props are in, key in your pocket, locks on, and it was tried.",
              "La tolva levantada cae si falla una manguera o se mueve una palanca. La tolva le aplastará. No se "
              "ponga debajo hasta tener los dos puntales, la llave en su bolsillo, los candados y la prueba hecha.")};
}

WarningView oil_jet(W w) {
    return {Signal::warning, w("WARNING", "ADVERTENCIA"),
            w("A pin-hole leak shoots oil through skin. A small mark can cost the hand or the life. Look only, never "
              "feel. Hit by a jet: hospital at once.",
              "Una fuga fina mete aceite a través de la piel. Una marca pequeña puede costar la mano o la vida. Solo "
              "mire, nunca toque. Si le da el chorro: al hospital de inmediato.")};
}

StepBody step_body(W w) {
    StepBody body;
    body.progress = {4, 14};
    body.picture = hopper(w);
    body.warnings = {crush(w)};
    body.action = w("From the seat, the key holder lifts just clear of the props.",
                    "Desde el asiento, quien tiene la llave sube la tolva sin tocar los puntales.");
    body.key_point_label = w("Key point", "Punto clave");
    body.key_point = w("First: battery on, cylinder valve opened slowly. After lifting: engine off, brake on, key in your pocket.",
                       "Antes: batería conectada, válvula abierta despacio. Después de subir: motor apagado, freno puesto, llave al bolsillo.");
    body.reason_label = w("Because", "Porque");
    body.reason = w("A prop under load cannot be moved. With the key in your pocket nobody lowers on you.",
                    "Un puntal con carga no se puede mover. Con la llave en su bolsillo nadie le baja la tolva encima.");
    body.footing = w("Law (US): 29 CFR 1910.147(d)(5): stored energy made harmless before work",
                     "Ley (EE. UU.): 29 CFR 1910.147(d)(5): energía almacenada sin peligro antes del trabajo");
    return body;
}

Exhibit step_danger(W w) {
    Page page = page_of(w, "step", step_body(w));
    page.left = w("Raised hopper · guide", "Tolva levantada · guía");
    page.middle = w("Step 5 of 14", "Paso 5 de 14");
    page.main = button("done", w("I have done this", "Ya lo hice"), w("a second person follows", "sigue otra persona"));
    return {"step", page};
}

Exhibit step_calm(W w) {
    StepBody body = step_body(w);
    body.warnings.clear();
    body.picture = {"machine-side", {{"parking-brake", w("parking brake", "freno de estacionamiento")}, {"key-switch", w("key switch", "interruptor de llave")}}, ""};
    body.action = w("Neutral, brake on, engine off, key in your pocket.", "Neutro, freno puesto, motor apagado, llave en su bolsillo.");
    body.key_point = w("Get off. Nobody stays at the controls.", "Baje de la máquina. Nadie se queda en los controles.");
    return {"step-calm", page_of(w, "step-calm", body)};
}

// ---- choices --------------------------------------------------------------------------------

Tile tile(std::string id, std::string label, std::string drawing = {}, TileState state = TileState::plain) {
    Tile one;
    one.id = std::move(id);
    one.label = std::move(label);
    one.drawing = std::move(drawing);
    one.state = state;
    return one;
}

ChoiceBody hose_body(W w) {
    ChoiceBody body;
    body.progress = {5, 30};
    body.picture = {"cylinder-cradle", {{"lp-hose", w("LP hose", "manguera de gas LP")}, {"hose-coupling", w("hose coupling", "acople de la manguera")}},
                    w("Rear, above the tank", "Atrás, sobre el tanque")};
    body.question = w("How are hose and coupling?", "¿Cómo están la manguera y el acople?");
    body.look = w("Follow the hose with your eyes, end to end. Look for cuts, rubbing, frost, wet spots.",
                  "Siga la manguera con la vista, de punta a punta. Busque cortes, roce, escarcha, humedad.");
    body.tiles = {tile("whole", w("Whole, dry, clear of hot parts", "Entera, seca, lejos de lo caliente"), "hose-good"),
                  tile("worn", w("Cut or rubbed", "Cortada o rozada"), "hose-worn"),
                  tile("frost", w("Frost or wet", "Escarcha o humedad"), "hose-wet"),
                  tile("unseen", w("Cannot see", "No se ve"), "cannot-see")};
    body.footing = w("Guidance: LP-gas lift trucks, changing cylinders", "Guía: montacargas a gas LP, cambio de cilindros");
    return body;
}

Exhibit choice_point(W w) {
    Page page = page_of(w, "choice", hose_body(w));
    page.main.enabled = false;
    page.main.second = w("a reading moves on", "una respuesta avanza");
    page.main.why_not = w("Touch what you see at the machine.", "Toque lo que ve en la máquina.");
    return {"choice", page};
}

// The fullest page there is: two warnings' worth of text, a look line, four tiles and a remark.
Exhibit choice_full(W w) {
    ChoiceBody body = hose_body(w);
    body.picture = {"machine-side", {{"hydraulic-hoses", w("hydraulic hoses", "mangueras hidráulicas")}, {"hopper", w("hopper", "tolva")}}, ""};
    body.warnings = {oil_jet(w)};
    body.question = w("How are hoses and cylinders of the hopper?", "¿Cómo están mangueras y cilindros de la tolva?");
    body.look = w("Hopper down, engine off. Look along each hose, hands away.", "Tolva abajo, motor apagado. Mire cada manguera, sin tocar.");
    body.tiles[1].state = TileState::chosen;
    body.remark = w("Oil in these hoses holds the hopper up. If one bursts, it falls. The machine is held.",
                    "El aceite de estas mangueras sostiene la tolva. Si una revienta, la tolva cae. La máquina queda retenida.");
    body.remark_is_held = true;
    return {"choice-full", page_of(w, "choice-full", body)};
}

ChoiceBody quiz_body(W w) {
    ChoiceBody body;
    body.progress = {2, 6};
    body.question = w("A hold for room air comes up while your machine runs. What stops the engine?",
                      "Aparece una retención por el aire y su máquina está en marcha. ¿Qué apaga el motor?");
    body.tiles = {tile("kiosk", w("The kiosk, as soon as it shows", "El quiosco, en cuanto aparece")),
                  tile("monitor", w("The air monitor, at the alarm", "El monitor de aire, con la alarma")),
                  tile("person", w("Only a person: I switch it off", "Solo una persona: la apago yo"))};
    return body;
}

Exhibit quiz_question(W w) {
    return {"quiz", page_of(w, "quiz", quiz_body(w))};
}

Exhibit quiz_answer(W w) {
    ChoiceBody body = quiz_body(w);
    body.tiles[0].state = TileState::wrong;
    body.tiles[2].state = TileState::right;
    body.remark = w("A hold keeps a machine from its next start. It stops no running engine.",
                    "Una retención impide el próximo arranque. No apaga un motor en marcha.");
    return {"quiz-answer", page_of(w, "quiz-answer", body)};
}

Exhibit plain_choice(W w) {
    ChoiceBody body;
    body.question = w("Where will you use SW-14?", "¿Dónde usará la SW-14?");
    body.look = w("One LP engine runs in Dock hall.", "Hay un motor LP en marcha en la Nave de muelles.");
    body.tiles = {tile("dock", w("Dock hall", "Nave de muelles")), tile("hall-2", w("Hall 2", "Nave 2")),
                  tile("cold", w("Cold store", "Cámara fría")), tile("yard", w("Yard", "Patio"))};
    body.tiles[0].second = w("home room", "lugar habitual");
    body.tiles[2].enabled = false;
    body.tiles[2].second = w("closed to engines", "cerrado a motores");
    body.tiles[2].why_not = w("Closed to engines since 05:10.", "Cerrado a motores desde las 05:10.");
    return {"choice-plain", page_of(w, "choice-plain", body)};
}

// ---- typing ---------------------------------------------------------------------------------

Exhibit number(W w) {
    NumberBody body;
    body.progress = {18, 30};
    body.picture = {"machine-side", {{"hour-meter", w("hour meter", "horómetro")}}, ""};
    body.question = w("What does the hour meter show?", "¿Qué marca el horómetro?");
    body.look = w("Key to the first position, engine off. Read it with its decimal.", "Llave en la primera posición, motor apagado. Léalo con su decimal.");
    body.unit = "h";
    body.start = "1284.6";
    body.last = w("Last value 1\u202f284.6\u00a0h", "Último valor 1\u202f284.6\u00a0h");
    body.remark = w("More than 26 h since yesterday. Read it again.", "Más de 26 h desde ayer. Léalo de nuevo.");
    body.footing = w("Site policy", "Política del sitio");
    return {"number", page_of(w, "number", body)};
}

Exhibit pin(W w) {
    PinBody body{.heading = w("Sign: round of SW-14", "Firme: revisión de la SW-14"),
                 .name = "R. Okafor-Lind",
                 .statement = w("I walked this round myself, at the machine, and entered what I saw.",
                                "Hice esta revisión yo mismo, junto a la máquina, y anoté lo que vi."),
                 .remark = w("That PIN is not right. Wait 5 s.", "Esa clave no es correcta. Espere 5 s."),
                 .remark_is_held = true,
                 .digits = 6};
    Page page = page_of(w, "pin", body);
    page.main = button("sign", w("Sign", "Firmar"), w("ends the round", "termina la revisión"));
    return {"pin", page};
}

Exhibit text(W w) {
    TextBody body{.heading = w("What did you find?", "¿Qué encontró?"),
                  .hint = w("Where, what, since when", "Dónde, qué, desde cuándo"),
                  .start = "",
                  .remark = w("Stays out of the permanent record; only its seal is kept there.",
                              "No entra en el registro permanente; allí solo queda su sello."),
                  .codes = false,
                  .most = 200};
    return {"text", page_of(w, "text", body)};
}

Exhibit badge(W w) {
    TextBody body{.heading = w("Hold your badge to the reader", "Acerque su gafete al lector"),
                  .hint = w("or type its code", "o escriba su código"),
                  .start = "",
                  .remark = "",
                  .codes = true,
                  .most = 12};
    return {"badge", page_of(w, "badge", body)};
}

// ---- lists and grids ------------------------------------------------------------------------

Row row(std::string id, std::string label, std::string second, std::string word, LugState mark) {
    Row one;
    one.id = std::move(id);
    one.label = std::move(label);
    one.second = std::move(second);
    one.word = std::move(word);
    one.mark = mark;
    return one;
}

ListBody list_body(W w, bool desk) {
    ListBody body;
    body.heading = w("Findings of SW-14", "Hallazgos de la SW-14");
    body.remark = w("Touch one to decide.", "Toque uno para decidir.");
    body.desk = desk;
    for (int index = 0; index < 4; ++index) {
        const std::string number = std::to_string(index);
        body.rows.push_back(row("a" + number, w("Parking brake creeps on the ramp", "El freno de estacionamiento cede en la rampa"),
                                "R. Okafor-Lind · 25 Nov 05:51", w("hold", "retención"), H));
        body.rows.push_back(row("b" + number, w("Squeegee blade worn", "Goma del jalador gastada"), "T. Mbeki-Rao · 24 Nov 21:40",
                                w("fix by 28 Nov", "reparar antes del 28 nov"), D));
        body.rows.push_back(row("", w("Beacon replaced", "Baliza cambiada"), "M. Haugen · 23 Nov 10:12", w("no hold", "sin retención"), O));
    }
    body.rows[1].chosen = true;
    return body;
}

Exhibit list(W w) {
    return {"list", page_of(w, "list", list_body(w, false))};
}

Exhibit desk_list(W w) {
    return {"list-desk", page_of(w, "list-desk", list_body(w, true))};
}

Exhibit emergency(W w) {
    GridBody body;
    body.heading = w("What is happening?", "¿Qué pasa?");
    body.tiles = {tile("sheet/smell-of-gas", w("Smell of gas", "Olor a gas"), "sheet-gas"),
                  tile("sheet/fire", w("Fire", "Incendio"), "sheet-fire"),
                  tile("sheet/carbon-monoxide", w("Carbon monoxide", "Monóxido de carbono"), "sheet-co"),
                  tile("sheet/crushed-or-trapped", w("Crushed or trapped", "Persona aplastada o atrapada"), "sheet-crush"),
                  tile("sheet/cold-burn", w("Cold burn from LP gas", "Quemadura fría por gas LP"), "sheet-cold"),
                  tile("sheet/chemical-splash", w("Chemical splash", "Salpicadura química"), "sheet-splash"),
                  tile("sheet/hydraulic-injection", w("Oil jet under the skin", "Chorro de aceite bajo la piel"), "sheet-injection"),
                  tile("sheet/no-start", w("The engine will not start", "El motor no arranca"), "sheet-no-start"),
                  tile("report", w("Report a problem", "Reportar un problema"), "hand-raised"),
                  tile("no-start", w("No start: what to do", "No arranca: qué hacer"), "start-none")};
    Page page = page_of(w, "emergency", body);
    page.main = {};
    return {"emergency", page};
}

Exhibit desk(W w) {
    GridBody body;
    body.heading = w("Supervisor desk", "Escritorio del supervisor");
    body.tiles = {tile("people", w("People", "Personas")), tile("findings", w("Findings", "Hallazgos")),
                  tile("records", w("Records", "Registros")), tile("air", w("Room air", "Aire del lugar")),
                  tile("locks", w("Locks", "Candados")), tile("binder", w("Binder", "Carpeta de auditoría"))};
    for (auto& one : body.tiles) {
        one.second = w("two need a decision", "dos esperan una decisión");
    }
    return {"desk", page_of(w, "desk", body)};
}

// ---- reading --------------------------------------------------------------------------------

Exhibit sheet(W w) {
    SheetBody body;
    body.title = w("Carbon monoxide", "Monóxido de carbono");
    body.first = w("Everyone out to fresh air, now.", "Todos afuera, al aire fresco, ya.");
    body.act = {w("Switch the engine off only if your hand is on it.", "Apague el motor solo si ya tiene la mano ahí."),
                w("Go out and take everyone with you. Count them outside.", "Salga y lleve a todos con usted. Cuéntelos afuera."),
                w("Call the emergency number. Say: carbon monoxide.", "Llame al número de emergencia. Diga: monóxido de carbono."),
                w("Someone is down inside? Do not enter. Send the fire service.", "¿Alguien cayó adentro? No entre. Que entren los bomberos."),
                w("One ill: stay outside, medical advice, air reading. Two ill: close the room.",
                  "Uno mal: quédese afuera, consejo médico, lectura del aire. Dos mal: cierre el lugar."),
                w("Back in only from the door, meter on, two people. Otherwise the fire service.",
                  "Volver a entrar: desde la puerta, con medidor, dos personas. Si no, los bomberos.")};
    body.never_label = w("Never", "Nunca");
    body.never = {w("Never go back for a person, a tool or a switch.", "Nunca vuelva por una persona, una herramienta o un interruptor."),
                  w("Never send an ill person home alone or let them drive.", "Nunca mande sola a casa a una persona enferma ni la deje manejar."),
                  w("Never restart the machine before the air and the engine are tested.", "Nunca arranque la máquina antes de probar el aire y el motor.")};
    body.tell_label = w("Tell them", "Dígales");
    body.tell = w("For clinicians: possible carbon monoxide. An ordinary finger oximeter can read normal and mislead. "
                  "Please measure blood carboxyhaemoglobin. Note when the exposure began and ended.",
                  "Para personal médico: posible monóxido de carbono. Un oxímetro de dedo común puede verse normal y engañar. "
                  "Mida la carboxihemoglobina en sangre. Anote cuándo empezó y terminó la exposición.");
    body.drawing = "sheet-co";
    return {"sheet", page_of(w, "sheet", body)};
}

Exhibit short_sheet(W w) {
    SheetBody body;
    body.title = w("Smell of gas", "Olor a gas");
    body.first = w("Smell gas here? Leave this screen. Walk upwind.", "¿Huele a gas aquí? Deje esta pantalla. Camine contra el viento.");
    body.act = {w("Stop the machine. Turn the key off.", "Pare la máquina. Gire la llave a apagado."),
                w("Close the cylinder valve if you can reach it without danger.", "Cierre la válvula del cilindro si puede llegar sin peligro."),
                w("Take everyone out. Walk upwind, away from drains, pits and docks.", "Saque a todos. Camine contra el viento, lejos de desagües, fosas y andenes."),
                w("Call the emergency number from outside, far from the gas.", "Llame al número de emergencia desde afuera, lejos del gas."),
                w("Keep others out until the fire service lets you back in.", "No deje entrar a nadie hasta que los bomberos lo permitan.")};
    body.never_label = w("Never", "Nunca");
    body.never = {w("Never start an engine or crank it.", "Nunca arranque un motor ni lo intente."),
                  w("Never use a switch, a phone, a charger or a flame near the gas.", "Nunca use un interruptor, un teléfono, un cargador o una llama cerca del gas."),
                  w("Never look for this leak yourself.", "Nunca busque usted esta fuga.")};
    body.tell_label = w("Tell them", "Dígales");
    body.tell = w("LP gas. Where the machine stands, valve open or shut, drains and pits near it, who is missing.",
                  "Gas LP. Dónde está la máquina, válvula abierta o cerrada, desagües y fosas cerca, quién falta.");
    body.drawing = "sheet-gas";
    return {"sheet-gas", page_of(w, "sheet-gas", body)};
}

Exhibit message(W w) {
    MessageBody body{.mark = H,
                     .heading = w("Stored. SW-14 is held.", "Guardado. La SW-14 queda retenida."),
                     .lines = {w("Parking brake creeps on the ramp.", "El freno de estacionamiento cede en la rampa."),
                               w("Hang the tag on the steering wheel: code 7K-42. A mechanic's repair and a supervisor lift it.",
                                 "Cuelgue la tarjeta en el volante: código 7K-42. La quitan la reparación de un mecánico y un supervisor.")}};
    return {"message", page_of(w, "message", body)};
}

Exhibit failure(W w) {
    MessageBody body{.mark = U,
                     .heading = w("The disk did not take the entry", "El disco no aceptó el registro"),
                     .lines = {w("Nothing was changed. Use the paper round and call a supervisor, ext. 214.",
                                 "Nada cambió. Use la revisión en papel y llame a un supervisor, ext. 214.")}};
    return {"failure", page_of(w, "failure", body)};
}

}  // namespace

std::vector<Exhibit> exhibits(std::string_view language) {
    const Words w(language);
    return {floor_few(w),     floor_many(w),  holds_two(w),    holds_four(w), holds_none(w),
            handed(w),        step_danger(w), step_calm(w),    choice_point(w), choice_full(w),
            quiz_question(w), quiz_answer(w), plain_choice(w), number(w),     pin(w),
            text(w),          badge(w),       list(w),         desk_list(w),  emergency(w),
            desk(w),          sheet(w),       short_sheet(w),  message(w),    failure(w)};
}

}  // namespace holdpin::gallery
