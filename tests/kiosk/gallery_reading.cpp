#include "gallery_pieces.hpp"

namespace holdpin::gallery {

namespace {

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
        body.rows.push_back(row(
            "a" + number,
            w("Parking brake creeps on the ramp", "El freno de estacionamiento cede en la rampa"),
            "R. Okafor-Lind · 25 Nov 05:51", w("hold", "retención"), H));
        body.rows.push_back(row("b" + number, w("Squeegee blade worn", "Goma del jalador gastada"),
                                "T. Mbeki-Rao · 24 Nov 21:40",
                                w("fix by 28 Nov", "reparar antes del 28 nov"), D));
        body.rows.push_back(row("", w("Beacon replaced", "Baliza cambiada"),
                                "M. Haugen · 23 Nov 10:12", w("no hold", "sin retención"), O));
    }
    body.rows[1].chosen = true;
    return body;
}

Exhibit list(W w) { return {"list", page_of(w, "list", list_body(w, false))}; }

Exhibit desk_list(W w) { return {"list-desk", page_of(w, "list-desk", list_body(w, true))}; }

Exhibit emergency(W w) {
    GridBody body;
    body.heading = w("What is happening?", "¿Qué pasa?");
    body.tiles = {
        tile("sheet/smell-of-gas", w("Smell of gas", "Olor a gas"), "sheet-gas"),
        tile("sheet/fire", w("Fire", "Incendio"), "sheet-fire"),
        tile("sheet/carbon-monoxide", w("Carbon monoxide", "Monóxido de carbono"), "sheet-co"),
        tile("sheet/crushed-or-trapped", w("Crushed or trapped", "Persona aplastada o atrapada"),
             "sheet-crush"),
        tile("sheet/cold-burn", w("Cold burn from LP gas", "Quemadura fría por gas LP"),
             "sheet-cold"),
        tile("sheet/chemical-splash", w("Chemical splash", "Salpicadura química"), "sheet-splash"),
        tile("sheet/hydraulic-injection",
             w("Oil jet under the skin", "Chorro de aceite bajo la piel"), "sheet-injection"),
        tile("sheet/no-start", w("The engine will not start", "El motor no arranca"),
             "sheet-no-start"),
        tile("report", w("Report a problem", "Reportar un problema"), "hand-raised"),
        tile("no-start", w("No start: what to do", "No arranca: qué hacer"), "start-none")};
    Page page = page_of(w, "emergency", body);
    page.main = {};
    return {"emergency", page};
}

Exhibit desk(W w) {
    GridBody body;
    body.heading = w("Supervisor desk", "Escritorio del supervisor");
    body.tiles = {tile("people", w("People", "Personas")),
                  tile("findings", w("Findings", "Hallazgos")),
                  tile("records", w("Records", "Registros")),
                  tile("air", w("Room air", "Aire del lugar")),
                  tile("locks", w("Locks", "Candados")),
                  tile("binder", w("Binder", "Carpeta de auditoría"))};
    for (auto& one : body.tiles) {
        one.second = w("two need a decision", "dos esperan una decisión");
    }
    return {"desk", page_of(w, "desk", body)};
}

Exhibit sheet(W w) {
    SheetBody body;
    body.title = w("Carbon monoxide", "Monóxido de carbono");
    body.first = w("Everyone out to fresh air, now.", "Todos afuera, al aire fresco, ya.");
    body.act = {
        w("Switch the engine off only if your hand is on it.",
          "Apague el motor solo si ya tiene la mano ahí."),
        w("Go out and take everyone with you. Count them outside.",
          "Salga y lleve a todos con usted. Cuéntelos afuera."),
        w("Call the emergency number. Say: carbon monoxide.",
          "Llame al número de emergencia. Diga: monóxido de carbono."),
        w("Someone is down inside? Do not enter. Send the fire service.",
          "¿Alguien cayó adentro? No entre. Que entren los bomberos."),
        w("One ill: stay outside, medical advice, air reading. Two ill: close the room.",
          "Uno mal: quédese afuera, consejo médico, lectura del aire. Dos mal: cierre el lugar."),
        w("Back in only from the door, meter on, two people. Otherwise the fire service.",
          "Volver a entrar: desde la puerta, con medidor, dos personas. Si no, los bomberos.")};
    body.never_label = w("Never", "Nunca");
    body.never = {w("Never go back for a person, a tool or a switch.",
                    "Nunca vuelva por una persona, una herramienta o un interruptor."),
                  w("Never send an ill person home alone or let them drive.",
                    "Nunca mande sola a casa a una persona enferma ni la deje manejar."),
                  w("Never restart the machine before the air and the engine are tested.",
                    "Nunca arranque la máquina antes de probar el aire y el motor.")};
    body.tell_label = w("Tell them", "Dígales");
    body.tell =
        w("For clinicians: possible carbon monoxide. An ordinary finger oximeter can read normal "
          "and mislead. "
          "Please measure blood carboxyhaemoglobin. Note when the exposure began and ended.",
          "Para personal médico: posible monóxido de carbono. Un oxímetro de dedo común puede "
          "verse normal y engañar. "
          "Mida la carboxihemoglobina en sangre. Anote cuándo empezó y terminó la exposición.");
    body.drawing = "sheet-co";
    return {"sheet", page_of(w, "sheet", body)};
}

Exhibit short_sheet(W w) {
    SheetBody body;
    body.title = w("Smell of gas", "Olor a gas");
    body.first = w("Smell gas here? Leave this screen. Walk upwind.",
                   "¿Huele a gas aquí? Deje esta pantalla. Camine contra el viento.");
    body.act = {
        w("Stop the machine. Turn the key off.", "Pare la máquina. Gire la llave a apagado."),
        w("Close the cylinder valve if you can reach it without danger.",
          "Cierre la válvula del cilindro si puede llegar sin peligro."),
        w("Take everyone out. Walk upwind, away from drains, pits and docks.",
          "Saque a todos. Camine contra el viento, lejos de desagües, fosas y andenes."),
        w("Call the emergency number from outside, far from the gas.",
          "Llame al número de emergencia desde afuera, lejos del gas."),
        w("Keep others out until the fire service lets you back in.",
          "No deje entrar a nadie hasta que los bomberos lo permitan.")};
    body.never_label = w("Never", "Nunca");
    body.never = {
        w("Never start an engine or crank it.", "Nunca arranque un motor ni lo intente."),
        w("Never use a switch, a phone, a charger or a flame near the gas.",
          "Nunca use un interruptor, un teléfono, un cargador o una llama cerca del gas."),
        w("Never look for this leak yourself.", "Nunca busque usted esta fuga.")};
    body.tell_label = w("Tell them", "Dígales");
    body.tell =
        w("LP gas. Where the machine stands, valve open or shut, drains and pits near it, who is "
          "missing.",
          "Gas LP. Dónde está la máquina, válvula abierta o cerrada, desagües y fosas cerca, quién "
          "falta.");
    body.drawing = "sheet-gas";
    return {"sheet-gas", page_of(w, "sheet-gas", body)};
}

Exhibit paper(W w) {
    PaperBody body{w("Nearest eyewash: at the wash bay, left of dock door 2, 15 m",
                     "Lavaojos más cercano: en la zona de lavado, a la izquierda de la puerta 2"),
                   "", 1545, 2000};
    Page page = page_of(w, "paper", body);
    page.middle = w("FC-20, floor cleaner", "FC-20, limpiador de pisos");
    page.main = button("turn", w("Next page", "Página siguiente"),
                       w("page 1 of 2", "página 1 de 2"));
    return {"paper", page};
}

Exhibit message(W w) {
    MessageBody body{.mark = H,
                     .heading = w("Stored. SW-14 is held.", "Guardado. La SW-14 queda retenida."),
                     .lines = {w("Parking brake creeps on the ramp.",
                                 "El freno de estacionamiento cede en la rampa."),
                               w("Hang the tag on the steering wheel: code 7K-42. A mechanic's "
                                 "repair and a supervisor lift it.",
                                 "Cuelgue la tarjeta en el volante: código 7K-42. La quitan la "
                                 "reparación de un mecánico y un supervisor.")}};
    return {"message", page_of(w, "message", body)};
}

Exhibit failure(W w) {
    MessageBody body{
        .mark = U,
        .heading = w("The disk did not take the entry", "El disco no aceptó el registro"),
        .lines = {w("Nothing was changed. Use the paper round and call a supervisor, ext. 214.",
                    "Nada cambió. Use la revisión en papel y llame a un supervisor, ext. 214.")}};
    return {"failure", page_of(w, "failure", body)};
}

Exhibit progress(W w) {
    ProgressBody body{w("The binder is being made", "Se está haciendo la carpeta"), 40, "40 %",
                      {w("It is made from a copy. The kiosk can be used meanwhile.",
                         "Se hace de una copia. El quiosco se puede usar mientras tanto."),
                       w("Leave the stick where it is until this page says that it is done.",
                         "Deje la memoria puesta hasta que esta página diga que terminó.")}};
    Page page = page_of(w, "progress", body);
    page.main = button("cancel", w("Cancel", "Cancelar"),
                       w("nothing is left behind", "no queda nada a medias"));
    return {"progress", page};
}

}  // namespace

std::vector<Exhibit> reading_pages(W w) {
    return {list(w),  desk_list(w),   emergency(w), desk(w),
            sheet(w), short_sheet(w), paper(w),     message(w), failure(w), progress(w)};
}

}  // namespace holdpin::gallery
