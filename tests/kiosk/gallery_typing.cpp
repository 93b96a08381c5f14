#include "gallery_pieces.hpp"

namespace holdpin::gallery {

namespace {

Exhibit number(W w) {
    NumberBody body;
    body.progress = {18, 30};
    body.picture = {"machine-side", {{"hour-meter", w("hour meter", "horómetro")}}, ""};
    body.question = w("What does the hour meter show?", "¿Qué marca el horómetro?");
    body.look = w("Key to the first position, engine off. Read it with its decimal.",
                  "Llave en la primera posición, motor apagado. Léalo con su decimal.");
    body.unit = "h";
    body.start = "1284.6";
    body.last = w("Last value 1\u202f284.6\u00a0h", "Último valor 1\u202f284.6\u00a0h");
    body.remark = w("More than 26 h since yesterday. Read it again.",
                    "Más de 26 h desde ayer. Léalo de nuevo.");
    body.footing = w("Site policy", "Política del sitio");
    return {"number", page_of(w, "number", body)};
}

Exhibit below_zero(W w) {
    NumberBody body;
    body.question = w("Gas temperature", "Temperatura");
    body.look = w("From \u221240 to 60.", "De \u221240 a 60.");
    body.unit = "°C";
    body.start = "-12";
    body.decimal = false;
    body.sign = true;
    return {"number-below-zero", page_of(w, "number-below-zero", body)};
}

Exhibit gauge(W w) {
    NumberBody body;
    body.progress = {19, 30};
    body.picture = {"machine-side", {{"fuel-gauge", w("gauge", "indicador")}}, ""};
    body.question = w("How full is the LP cylinder?", "¿Qué tan lleno está el cilindro de gas LP?");
    body.look = w("Read the gauge on the cylinder. Between two marks: the lower one.",
                  "Lea el indicador del cilindro. Entre dos marcas: la menor.");
    body.unit = "%";
    body.start = "80";
    body.decimal = false;
    for (int mark = 0; mark <= 100; mark += 10) body.marks.push_back(std::to_string(mark));
    return {"gauge", page_of(w, "gauge", body)};
}

Exhibit pin(W w) {
    PinBody body{
        .heading = w("Sign: round of SW-14", "Firme: revisión de la SW-14"),
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

// As much as the field takes.
Exhibit long_text(W w) {
    TextBody body{
        .heading = w("What did you find?", "¿Qué encontró?"),
        .hint = "",
        .start =
            w("The brake lets go slowly on the ramp at door four. It was worse with a full tank. "
              "I noticed it twice this week and told the late shift. The pedal feels soft and "
              "comes up late after I let it go.",
              "El freno cede poco a poco en la rampa de la puerta cuatro. Peor con el tanque "
              "lleno. Lo noté dos veces esta semana y avisé al turno de tarde. El pedal se siente "
              "blando y sube tarde al soltarlo."),
        .remark = w("Stays out of the permanent record; only its seal is kept there.",
                    "No entra en el registro permanente; allí solo queda su sello."),
        .codes = false,
        .most = 200};
    return {"text-long", page_of(w, "text-long", body)};
}

TextBody badge_body(W w) {
    return {.heading = w("Hold your badge to the reader", "Acerque su gafete al lector"),
            .hint = w("or type its code", "o escriba su código"),
            .start = "",
            .remark = "",
            .codes = true,
            .most = 12};
}

Exhibit badge(W w) { return {"badge", page_of(w, "badge", badge_body(w))}; }

Exhibit unknown_badge(W w) {
    TextBody body = badge_body(w);
    body.remark = w("No badge 7Q40 is known here. Ask your supervisor to enter you.",
                    "Aquí no se conoce el gafete 7Q40. Pida a su supervisor que lo registre.");
    body.remark_is_held = true;
    return {"badge-unknown", page_of(w, "badge-unknown", body)};
}

}  // namespace

std::vector<Exhibit> typing_pages(W w) {
    return {number(w), gauge(w),     below_zero(w), pin(w),
            text(w),   long_text(w), badge(w),      unknown_badge(w)};
}

}  // namespace holdpin::gallery
