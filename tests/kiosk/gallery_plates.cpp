#include "gallery_pieces.hpp"

namespace holdpin::gallery {

namespace {

std::vector<LugView> lugs(W w, std::vector<LugState> states) {
    const std::vector<std::string> names = {
        w("Person", "Persona"),     w("Round", "Revisión"),
        w("Findings", "Hallazgos"), w("Room air", "Aire del lugar"),
        w("Service", "Servicio"),   w("Locks", "Candados"),
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
    body.plates = {
        plate(w, "SW-14", {U, U, O, O, O, O, O}, w("ready to check", "lista para revisar")),
        plate(w, "SW-15", {U, U, H, O, O, O, O}, w("out of service", "fuera de servicio"), true),
        plate(w, "BW-03", {U, U, O, O, D, O, O}, w("service due", "servicio pendiente")),
        plate(w, "LT-21", {O, O, O, O, O, O, O},
              w("T. Mbeki-Rao, to 14:00", "T. Mbeki-Rao, hasta 14:00")),
        plate(w, "LT-22", {U, U, O, O, O, H, O}, w("locked out", "bloqueada"), true)};
    body.large = button("sign-on", w("Sign on", "Iniciar sesión"),
                        w("badge, then PIN", "gafete, luego clave"));
    return body;
}

Exhibit floor_few(W w) {
    Page page = page_of(w, "floor", floor_body(w));
    page.left = "Ash Lane";
    page.middle = w("Early shift 06:00 – 14:00", "Turno de mañana 06:00 – 14:00");
    page.right = w("Wed 25 Nov · 05:40", "mié 25 nov · 05:40");
    page.back = button("language", w("Español", "English"));
    page.main = button("desk", w("Supervisor desk", "Escritorio"),
                       w("people, findings, records", "personas, hallazgos, registros"));
    return {"floor", page};
}

Exhibit floor_many(W w) {
    FloorBody body = floor_body(w);
    for (const char* number : {"SW-16", "SW-17", "LT-23"}) {
        body.plates.push_back(
            plate(w, number, {U, U, O, O, O, O, O}, w("ready to check", "lista para revisar")));
    }
    return {"floor-many", page_of(w, "floor-many", body)};
}

HoldCard brake_hold(W w) {
    return {
        false,
        w("Parking brake creeps on the ramp", "El freno de estacionamiento cede en la rampa"),
        w("A machine that rolls away on its own is stopped by whatever stands behind it. Found at "
          "05:51.",
          "Una máquina que rueda sola se detiene contra lo que tenga detrás. Hallado a las 05:51."),
        w("Lifted by: a mechanic's repair, then a supervisor",
          "La quita: reparación de un mecánico y un supervisor")};
}

HoldCard return_hold(W w) {
    return {true, w("Not returned", "Sin devolver"),
            w("T. Mbeki-Rao had SW-14 until 22:00 and did not return it. Close it: valve, key, "
              "hopper, brake.",
              "T. Mbeki-Rao tenía SW-14 hasta las 22:00 y no la devolvió. Ciérrela: válvula, "
              "llave, tolva, freno."),
            w("Lifted by: you, with the round after use",
              "La quita: usted, con la revisión después del uso")};
}

HoldCard room_hold(W w) {
    return {false, w("Closed to engines: Dock hall", "Cerrado a motores: Nave de muelles"),
            w("No engine is started in this room now. This hold stops no running engine: switch it "
              "off and go out.",
              "No se arranca ningún motor aquí por ahora. Esta retención no apaga motores: "
              "apáguelos y salga."),
            w("Lifted by: a supervisor, after an air reading",
              "La quita: un supervisor, tras medir el aire")};
}

Button jobs(W w) {
    return button("jobs", w("Jobs at this machine", "Trabajos en esta máquina"),
                  w("guided, step by step", "guiados, paso por paso"));
}

Exhibit holds_two(W w) {
    HoldsBody body{.plate = plate(w, "SW-14", {O, O, H, O, O, O, D}, ""),
                   .heading = w("Not handed over. Two holds:", "No se entrega. Dos retenciones:"),
                   .holds = {brake_hold(w), return_hold(w)},
                   .remark = {}};
    body.jobs = jobs(w);
    Page page = page_of(w, "holds", body);
    page.main = button("call", w("Call supervisor", "Llamar al supervisor"),
                       w("ext. 214 · A. Brandt", "ext. 214 · A. Brandt"));
    return {"holds", page};
}

Exhibit holds_four(W w) {
    HoldsBody body{
        .plate = plate(w, "SW-14", {O, D, H, H, O, O, D}, ""),
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
    body.jobs = jobs(w);
    return {"holds-none", page_of(w, "holds-none", body)};
}

Exhibit tag(W w) {
    TagBody body;
    body.heading = w("DANGER · DO NOT START", "PELIGRO · NO ARRANCAR");
    body.plate = "SW-14";
    body.code_label = w("Code of this tag", "Código de esta tarjeta");
    body.code = "K4PX7H";
    body.reason = w("Leak at the cylinder valve or the relief valve",
                    "Fuga en la válvula del cilindro o de alivio");
    body.lines = {w("Wed 25 Nov, 05:51 · R. Okafor-Lind", "mié 25 nov, 05:51 · R. Okafor-Lind")};
    body.hint = w("No printer here: copy it by hand with a thick marker. Key out. Fix the tag on "
                  "the start control so that it cannot come off.",
                  "Aquí no hay impresora: cópiela a mano con marcador grueso. Saque la llave. Fije "
                  "la tarjeta en el mando de arranque para que no se suelte.");
    body.qr = "HPTAG:SW-14:K4PX7H:512";
    return {"tag", page_of(w, "tag", body)};
}

Exhibit tag_not_printed(W w) {
    Exhibit exhibit = tag(w);
    TagBody& body = std::get<TagBody>(exhibit.page.body);
    body.print = {"print", w("Print the tag", "Imprimir la tarjeta"),
                  w("on the printer of this kiosk", "en la impresora de este puesto"), true, ""};
    body.remark = w("The printer did not take it. Copy the tag by hand with a thick marker. As a "
                    "file: SW-14-K4PX7H.pdf",
                    "La impresora no la tomó. Copie la tarjeta a mano con marcador grueso. Como "
                    "archivo: SW-14-K4PX7H.pdf");
    body.remark_is_held = true;
    exhibit.name = "tag-not-printed";
    return exhibit;
}

Exhibit handed(W w) {
    HandedBody body{.plate = plate(w, "SW-14", {O, O, O, O, O, O, O}, ""),
                    .heading = w("Handed to", "Entregada a"),
                    .name = "R. Okafor-Lind",
                    .lines = {w("05:58 to 14:00 · Dock hall, Hall 2",
                                "05:58 a 14:00 · Nave de muelles, Nave 2"),
                              w("Not on ramps over 8 %", "No en rampas de más de 8 %")},
                    .entry = w("Entry 48\u202f213", "Registro 48\u202f213"),
                    .remark = w("Drive as you were trained. Stop and report anything new.",
                                "Maneje como aprendió. Pare y reporte todo lo nuevo."),
                    .turn = false};
    body.jobs = jobs(w);
    Page page = page_of(w, "handed", body);
    page.main = button("done", w("Done", "Listo"), w("signs you off", "cierra su sesión"));
    return {"handed", page};
}

}  // namespace

std::vector<Exhibit> plate_pages(W w) {
    return {floor_few(w), floor_many(w), holds_two(w), holds_four(w), holds_none(w), handed(w),
            tag(w),       tag_not_printed(w)};
}

}  // namespace holdpin::gallery
