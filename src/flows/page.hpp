// What a screen shows, as plain data: already translated, formatted and decided. A flow makes a
// Page; kiosk/ draws it and gives back an Action; the flow acts on it. Nothing here knows drawing,
// nothing in kiosk/ knows rules. The same page is shown on a tablet and asserted in a test.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/chart.hpp"

namespace holdpin {

// What the person did. `id` is that of the button or tile touched; `arg` is what was typed, where
// the page takes typing (PIN, number, text). Two ids come without a target: "scan", when a scanner
// sends a code in `arg` on a page that takes no typing, and "stay", a touch during a countdown.
struct Action {
    std::string id;
    std::string arg;
};

struct Button {
    std::string id;      // empty: there is no such button
    std::string label;
    std::string second;  // what follows; may be empty
    bool enabled = true;
    std::string why_not;  // shown when a grey button is touched
};

// ---- the plate ----------------------------------------------------------------------------

enum class LugState {
    unasked,  // dotted lugs: nobody has asked yet
    open,     // two empty lugs: no hold
    due,      // orange pin half-way in: you can act now
    held,     // red pin fully in: somebody else must act
};
struct LugView {
    LugState state = LugState::unasked;
    std::string name;  // "Findings"
    std::string word;  // "no hold", "hold", "you can act", "not asked yet"
};
struct PlateView {
    std::string plate;       // "SW-14"
    std::string class_name;  // "Ride-on scrubber-sweeper, LP"
    std::string hours;       // "1 284.6 h"; may be empty
    std::vector<LugView> lugs;  // seven, in the order of the table
    std::string state;       // "ready to check", "out of service", "R. Okafor-Lind, to 14:00"
    bool is_held = false;    // the state word is drawn in the colour of refusals
    std::string action;      // what touching the plate does; empty: it is no target
};

// ---- pieces -------------------------------------------------------------------------------

struct PartMark {
    std::string id;    // SVG element id
    std::string name;  // written beside its frame
};
struct PictureView {
    std::string file;  // assets/illustrations/<file>.svg; empty: no picture
    std::vector<PartMark> parts;
    std::string caption;
};

enum class Signal { danger, warning, caution, notice };
struct WarningView {
    Signal signal = Signal::warning;
    std::string word;  // "DANGER", "PELIGRO"
    std::string text;  // hazard, consequence, how to avoid, as one paragraph
};

enum class TileState { plain, chosen, right, wrong };
struct Tile {
    std::string id;  // action
    std::string label;
    std::string second;   // small line; may be empty
    std::string drawing;  // assets/illustrations/tiles/<drawing>.svg; may be empty
    TileState state = TileState::plain;
    bool enabled = true;
    std::string why_not;
};

// Progress as a row of segments: done, current, to come.
struct Progress {
    int done = 0;
    int total = 0;  // 0: no progress row
};

// ---- bodies -------------------------------------------------------------------------------

// Nobody signed on, or choosing a machine: all plates, and a large tile.
struct FloorBody {
    std::vector<PlateView> plates;
    Button large;  // "Sign on" / "badge, then PIN"; id empty: none
};

// A machine and what holds it.
struct HoldCard {
    bool self = false;  // orange: you can act now
    std::string title;
    std::string reason;
    std::string lift;
};
struct HoldsBody {
    PlateView plate;
    std::string heading;  // "Not handed over. Two holds:"
    std::vector<HoldCard> holds;  // empty: ready
    std::string remark;           // when there are none: what to do next
    Button jobs = {};             // what else is done at the machine; id empty: none
};

// The plate turned: who has the machine.
struct HandedBody {
    PlateView plate;
    std::string heading;  // "Handed to"
    std::string name;
    std::vector<std::string> lines;  // window, rooms, conditions
    std::string entry;               // "Entry 48 213"
    std::string remark;
    Button jobs = {};  // as in HoldsBody
    bool turn = false;  // just released: the last pin is drawn and the plate turns
};

// One step of a guide.
struct StepBody {
    Progress progress;
    PictureView picture;
    std::vector<WarningView> warnings;
    std::string action;
    std::string key_point_label;
    std::string key_point;
    std::string reason_label;
    std::string reason;
    std::string note;     // what this machine's own figures add; may be empty
    std::string footing;  // small line: why it applies and its source
};

// A question with large tiles: a point of a round, a quiz question, any choice.
struct ChoiceBody {
    Progress progress;
    PictureView picture;
    std::vector<WarningView> warnings;
    std::string question;
    std::string look;
    std::vector<Tile> tiles;
    std::string remark;   // shown under the tiles: what the chosen reading means, why an answer
    bool remark_is_held = false;
    std::string footing;
    Button aside = {};    // a way off the question, no answer to it; id empty: none
};

// A number, typed on a pad.
struct NumberBody {
    Progress progress;
    PictureView picture;
    std::string question;
    std::string look;
    std::string unit;
    std::string start;   // what stands there at first; may be empty
    std::string last;    // "Last value 1 284.6 h"
    std::string remark;
    bool decimal = true;
    bool sign = false;  // may be below zero; then whole numbers only
    std::vector<std::string> marks = {};  // of a gauge: one touch gives "mark:<value>"
    std::string footing;
};

// A PIN under a stated meaning.
struct PinBody {
    std::string heading;    // "Sign: round of SW-14"
    std::string name;       // who is signing
    std::string statement;  // what the signature means
    std::string remark;     // "wrong PIN, 5 s"
    bool remark_is_held = false;
    int digits = 6;         // most digits the pad takes
};

// A text, typed on our own keyboard.
struct TextBody {
    std::string heading;
    std::string hint;
    std::string start;
    std::string remark;
    bool remark_is_held = false;  // it says what was wrong with the text typed before
    bool codes = false;  // capitals, digits and a dash only: badges, codes
    int most = 200;      // characters
};

// Rows to choose from or to read; scrolls by drag and by page buttons.
struct Row {
    std::string id;  // action; empty: only to read
    std::string label;
    std::string second;
    std::string word;  // at the right end
    LugState mark = LugState::unasked;  // pin drawn at the left; unasked: no mark
    bool chosen = false;                // a tick is drawn
    bool enabled = true;
    std::string why_not;
    bool to_read = false;  // `second` is a text of its own, as large as the label
};
struct ListBody {
    std::string heading;
    std::string remark;
    std::vector<Row> rows;
    bool desk = false;  // down to 12 mm where many stand; else operator sizes (20 mm)
};

// Tiles in a grid: the emergency page, what to report, the desk.
struct GridBody {
    std::string heading;
    std::string remark;
    std::vector<Tile> tiles;
    int first = 0;  // so many tiles come before all others: larger, with a red edge
};

// An emergency sheet.
struct SheetBody {
    std::string call;  // whom to call: "Emergency: 911"; may be empty
    std::string title;
    std::string first;
    std::vector<std::string> act;
    std::string never_label;
    std::vector<std::string> never;
    std::string tell_label;
    std::string tell;
    std::string drawing;
};

// Something to read: a result, a refusal, a failure.
struct MessageBody {
    LugState mark = LugState::unasked;  // a large pin or pair of empty lugs; unasked: none
    std::string heading;
    std::vector<std::string> lines;
};

// Work that takes its time and goes on by itself.
struct ProgressBody {
    std::string heading;
    int percent = 0;   // 0 to 100
    std::string word;  // "40 %", beside the bar
    std::vector<std::string> lines;
};

// The tag of a machine out of service, in large: to be written off, or printed.
struct TagBody {
    std::string heading;     // "DANGER · DO NOT START"
    std::string plate;
    std::string code_label;
    std::string code;        // six characters, ASCII
    std::string reason;      // the finding
    std::vector<std::string> lines;  // when and who
    std::string hint;        // where it is fixed
    std::string qr;          // what its QR code says; empty: none
    Button print = {};       // id empty: none
    std::string remark;      // what became of printing
    bool remark_is_held = false;
};

// One figure of an estimate: less and more by touch, the value itself to be typed or picked. Its
// actions are "less:<id>", "more:<id>" and "value:<id>".
struct Dial {
    std::string id;
    std::string label;
    std::string value;  // with its unit
    bool less = true;   // there is something below
    bool more = true;
    std::string why_not;  // shown when one that is not is touched
};

// A sum: figures that can be changed, the curve that follows, and what it is not.
struct EstimateBody {
    std::vector<Dial> dials;  // at most four
    ChartData chart;
    std::vector<std::string> results;  // the first one is the largest
    std::string advice;   // what to do
    std::string caution;  // what this is not
    std::string source;
};

// One page of a document, drawn beforehand into a PNG file: as wide as the screen, and scrolled.
struct PaperBody {
    std::string remark;  // one line above it
    std::string png;     // path
    int width = 0;       // of the picture, in its pixels
    int height = 0;
};

using Body = std::variant<FloorBody, HoldsBody, HandedBody, StepBody, ChoiceBody, NumberBody,
                          PinBody, TextBody, ListBody, GridBody, SheetBody, MessageBody,
                          EstimateBody, ProgressBody, TagBody, PaperBody>;

// ---- the page -----------------------------------------------------------------------------

// An alarm to be heard.
enum class Sound { none, leave_zone, air };

struct Page {
    std::string id;  // stays the same while the same thing is asked: "round/SW-14/12"
    std::string language = "en";
    std::string left;    // top strip
    std::string middle;
    std::string right;
    std::string example;  // "example data"; empty on a real site
    Body body;
    Button back;    // bottom left
    Button help;    // bottom middle: "Problem or emergency"
    Button main;    // bottom right: the one main action; carries what was typed
    bool night = false;
    bool motion = true;
    // UTC; the page is made again then (clock, countdown); 0: never
    std::int64_t next_change_ms = 0;
    Sound sound = Sound::none;  // each time this page is made
    std::string silent;         // said, with an edge that flashes, where nothing can sound it
    // Of a list that must be read whole: until its end was shown the main action is grey, and why.
    std::string read_first;
    std::string more_above;     // of a list that does not fit: said under the count of its rows
    std::string more_below;
    std::string countdown;  // "Signing off in 20 s"; shown over the strip; empty: none
};

// What the kiosk drives: the whole program behind the glass.
class Stage {
  public:
    virtual ~Stage() = default;
    virtual Page page() = 0;
    virtual void act(const Action& action) = 0;
};

}  // namespace holdpin
