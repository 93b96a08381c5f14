#include "gallery_pieces.hpp"

namespace holdpin::gallery {

namespace {

PictureView hopper(W w) {
    return {"hopper-raised",
            {{"prop-left", w("left prop", "puntal izquierdo")},
             {"prop-right", w("right prop", "puntal derecho")}},
            w("Both sides have a prop. Fit both.", "Cada lado tiene un puntal. Ponga los dos.")};
}

WarningView crush(W w) {
    return {Signal::danger, w("DANGER", "PELIGRO"),
            w("A raised hopper falls if a hose fails or a lever moves. It will crush you. Stay out "
              "from under it "
              "until both props are in, key in your pocket, locks on, and it was tried.",
              "La tolva levantada cae si falla una manguera o se mueve una palanca. La tolva le "
              "aplastará. No se "
              "ponga debajo hasta tener los dos puntales, la llave en su bolsillo, los candados y "
              "la prueba hecha.")};
}

WarningView oil_jet(W w) {
    return {Signal::warning, w("WARNING", "ADVERTENCIA"),
            w("A pin-hole leak shoots oil through skin. A small mark can cost the hand or the "
              "life. Look only, never "
              "feel. Hit by a jet: hospital at once.",
              "Una fuga fina mete aceite a través de la piel. Una marca pequeña puede costar la "
              "mano o la vida. Solo "
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
    body.key_point =
        w("First: battery on, cylinder valve opened slowly. After lifting: engine off, brake on, "
          "key in your pocket.",
          "Antes: batería conectada, válvula abierta despacio. Después de subir: motor apagado, "
          "freno puesto, llave al bolsillo.");
    body.reason_label = w("Because", "Porque");
    body.reason =
        w("A prop under load cannot be moved. With the key in your pocket nobody lowers on you.",
          "Un puntal con carga no se puede mover. Con la llave en su bolsillo nadie le baja la "
          "tolva encima.");
    body.footing =
        w("Law (US): 29 CFR 1910.147(d)(5): stored energy made harmless before work",
          "Ley (EE. UU.): 29 CFR 1910.147(d)(5): energía almacenada sin peligro antes del trabajo");
    return body;
}

Exhibit step_danger(W w) {
    Page page = page_of(w, "step", step_body(w));
    page.left = w("Raised hopper · guide", "Tolva levantada · guía");
    page.middle = w("Step 5 of 14", "Paso 5 de 14");
    page.main = button("done", w("I have done this", "Ya lo hice"),
                       w("a second person follows", "sigue otra persona"));
    return {"step", page};
}

Exhibit step_calm(W w) {
    StepBody body = step_body(w);
    body.warnings.clear();
    body.picture = {"machine-side",
                    {{"parking-brake", w("parking brake", "freno de estacionamiento")},
                     {"key-switch", w("key switch", "interruptor de llave")}},
                    ""};
    body.action = w("Neutral, brake on, engine off, key in your pocket.",
                    "Neutro, freno puesto, motor apagado, llave en su bolsillo.");
    body.key_point = w("Get off. Nobody stays at the controls.",
                       "Baje de la máquina. Nadie se queda en los controles.");
    return {"step-calm", page_of(w, "step-calm", body)};
}

ChoiceBody hose_body(W w) {
    ChoiceBody body;
    body.progress = {5, 30};
    body.picture = {"cylinder-cradle",
                    {{"lp-hose", w("LP hose", "manguera de gas LP")},
                     {"hose-coupling", w("hose coupling", "acople de la manguera")}},
                    w("Rear, above the tank", "Atrás, sobre el tanque")};
    body.question = w("How are hose and coupling?", "¿Cómo están la manguera y el acople?");
    body.look = w(
        "Follow the hose with your eyes, end to end. Look for cuts, rubbing, frost, wet spots.",
        "Siga la manguera con la vista, de punta a punta. Busque cortes, roce, escarcha, humedad.");
    body.tiles = {
        tile("whole", w("Whole, dry, clear of hot parts", "Entera, seca, lejos de lo caliente"),
             "hose-good"),
        tile("worn", w("Cut or rubbed", "Cortada o rozada"), "hose-worn"),
        tile("frost", w("Frost or wet", "Escarcha o humedad"), "hose-wet"),
        tile("unseen", w("Cannot see", "No se ve"), "cannot-see")};
    body.footing = w("Guidance: LP-gas lift trucks, changing cylinders",
                     "Guía: montacargas a gas LP, cambio de cilindros");
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
    body.picture = {"machine-side",
                    {{"hydraulic-hoses", w("hydraulic hoses", "mangueras hidráulicas")},
                     {"hopper", w("hopper", "tolva")}},
                    ""};
    body.warnings = {oil_jet(w)};
    body.question = w("How are hoses and cylinders of the hopper?",
                      "¿Cómo están mangueras y cilindros de la tolva?");
    body.look = w("Hopper down, engine off. Look along each hose, hands away.",
                  "Tolva abajo, motor apagado. Mire cada manguera, sin tocar.");
    body.tiles[1].state = TileState::chosen;
    body.remark =
        w("Oil in these hoses holds the hopper up. If one bursts, it falls. The machine is held.",
          "El aceite de estas mangueras sostiene la tolva. Si una revienta, la tolva cae. La "
          "máquina queda retenida.");
    body.remark_is_held = true;
    return {"choice-full", page_of(w, "choice-full", body)};
}

// A question of a lockout: what kills above it, three answers, and a way off it below them.
Exhibit choice_aside(W w) {
    ChoiceBody body;
    body.progress = {1, 15};
    body.picture = hopper(w);
    body.warnings = {crush(w)};
    body.question = w("How is the left prop?", "¿Cómo está el puntal izquierdo?");
    body.look = w("From outside the fall zone, nobody at the controls.",
                  "Desde fuera de la zona de caída, nadie en los controles.");
    body.tiles = {tile("fine", w("Fitted, seat and lock seen", "Puesto, asiento y seguro vistos")),
                  tile("not-fine", w("Does not fit", "No entra")),
                  tile("damaged", w("Bent or cracked", "Doblado o agrietado"))};
    body.aside = button("board", w("Others, turn back", "Otros, regresar"),
                        w("who is on, hand over, stop here", "quién está, entregar, parar aquí"));
    return {"choice-aside", page_of(w, "choice-aside", body)};
}

ChoiceBody quiz_body(W w) {
    ChoiceBody body;
    body.progress = {2, 6};
    body.question =
        w("A hold for room air comes up while your machine runs. What stops the engine?",
          "Aparece una retención por el aire y su máquina está en marcha. ¿Qué apaga el motor?");
    body.tiles = {
        tile("kiosk", w("The kiosk, as soon as it shows", "El quiosco, en cuanto aparece")),
        tile("monitor", w("The air monitor, at the alarm", "El monitor de aire, con la alarma")),
        tile("person", w("Only a person: I switch it off", "Solo una persona: la apago yo"))};
    return body;
}

Exhibit quiz_question(W w) { return {"quiz", page_of(w, "quiz", quiz_body(w))}; }

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
    body.look =
        w("One LP engine runs in Dock hall.", "Hay un motor LP en marcha en la Nave de muelles.");
    body.tiles = {tile("dock", w("Dock hall", "Nave de muelles")),
                  tile("hall-2", w("Hall 2", "Nave 2")),
                  tile("cold", w("Cold store", "Cámara fría")), tile("yard", w("Yard", "Patio"))};
    body.tiles[0].second = w("home room", "lugar habitual");
    body.tiles[2].enabled = false;
    body.tiles[2].second = w("closed to engines", "cerrado a motores");
    body.tiles[2].why_not =
        w("Closed to engines since 05:10.", "Cerrado a motores desde las 05:10.");
    return {"choice-plain", page_of(w, "choice-plain", body)};
}

}  // namespace

std::vector<Exhibit> asking_pages(W w) {
    return {step_danger(w),   step_calm(w),   choice_point(w), choice_full(w), choice_aside(w),
            quiz_question(w), quiz_answer(w), plain_choice(w)};
}

}  // namespace holdpin::gallery
