// The widget kit: everything on a screen is drawn through a Ui, which also records it
// (recorder.hpp) and decides what a finger means. A target acts when the finger is lifted on it and
// does nothing when it has slid off or dragged a list. Text states its type and colour; what is
// behind it is looked up among the surfaces filled before it, so its contrast is measured, not
// claimed. Positions are absolute pixels. More: widgets.hpp (tiles, rows, warnings, pictures),
// keys.hpp (PIN pad, number pad, keyboard), plate.hpp (plate, lugs, pins). Knows no page, no rule,
// no ledger.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "kiosk/fonts.hpp"
#include "kiosk/paging.hpp"
#include "kiosk/rect.hpp"
#include "kiosk/recorder.hpp"
#include "kiosk/scale.hpp"
#include "kiosk/texture.hpp"
#include "kiosk/theme.hpp"
#include "kiosk/ui_state.hpp"

struct ImDrawList;

namespace holdpin {

enum class Align { left, middle, right };

struct TextSpec {
    Type type = Type::body;
    Token ink = Token::ink;
    Align align = Align::left;
    bool exempt = false;  // signal word in standard colours
    bool over = false;    // laid over the page on purpose: a notice
    float leading = 1;    // from line to line, in line heights
};

// A thing that can be touched.
struct Target {
    std::string id;     // action
    std::string label;  // what a person would call it
    float min_mm = kOperatorTargetMm;
    bool enabled = true;
    std::string why_not;  // becomes the notice when a disabled target is touched
    bool main = false;
};
struct Tap {
    bool tapped = false;  // finger lifted on it, and it is enabled
    bool down = false;    // finger is on it: draw it pressed
};

// What a frame starts from.
struct FrameStart {
    float width = 0;
    float height = 0;
    std::int64_t mono_ms = 0;
    bool night = false;
    bool motion = true;
    bool silent = false;  // an alarm that nothing sounds
};

class Ui {
  public:
    Ui(const Fonts& fonts, TextureSource& textures);

    // ---- one frame: between ImGui::NewFrame and ImGui::Render --------------------------------
    void begin(const FrameStart& start, UiState& state);
    void end();

    // ---- where and how large ----------------------------------------------------------------
    Rect display() const { return recorder_.display; }
    bool portrait() const { return display().h > display().w; }
    Rect area() const { return area_; }  // what the body may fill: between strip and bar
    void set_area(Rect area) { area_ = area; }
    // The same without the page tiles, where the body has any: what is laid over it keeps off them.
    Rect area_beside_page_tiles() const;
    float mm(float millimetres) const { return scale_.mm(millimetres); }
    float sketch(float pixels) const { return scale_.sketch(pixels); }
    bool night() const { return start_.night; }
    // Milliseconds since the page first stood there.
    std::int64_t elapsed_ms() const;
    // 0 to 1 over `duration_ms` since the page appeared; 1 at once where motion is off. Frames
    // follow until it is 1.
    float motion(std::int64_t duration_ms);
    bool wants_frame() const { return wants_frame_; }

    // ---- surfaces ---------------------------------------------------------------------------
    void fill(Rect rect, Token token, float radius = 0);
    void edge(Rect rect, Token token, float thickness, float radius = 0);
    void panel(Rect rect, Token ground = Token::plate, Token edge = Token::ink);  // round corners
    void hairline(Dot from, Dot to, Token token = Token::line);
    void line(Dot from, Dot to, Token token, float thickness);
    void disc(Dot middle, float radius, Token token);
    void ring(Dot middle, float radius, Token token, float thickness);
    // Shapes that no call above offers. What is drawn this way is not recorded: no text, no target.
    ImDrawList& draw() const { return *draw_; }
    std::uint32_t packed(Token token) const;  // ImU32

    // ---- text -------------------------------------------------------------------------------
    float line_height(Type type) const;
    float capitals(Type type) const { return fonts_.capitals(type); }
    // From the top of a line to the top of its capitals.
    float above_capitals(Type type) const { return fonts_.above_capitals(type); }
    float text_width(std::string_view text, Type type) const;
    // One line; `at` is its top at the left, in the middle or at the right, as aligned.
    void text(Dot at, std::string_view text, const TextSpec& spec);
    // Wrapped at spaces; a line feed starts a new line. Returns the height.
    float paragraph(Dot at, float width, std::string_view text, const TextSpec& spec);
    float paragraph_height(float width, std::string_view text, const TextSpec& spec) const;
    // True when no single word is wider than the width.
    bool holds_words(float width, std::string_view text, Type type) const;
    // Wrapped into a room, centred in its height; takes smaller types rather than run over, and is
    // recorded as clipped when the smallest still does.
    void fitted(Rect room, std::string_view text, TextSpec spec);
    // The same, starting at the top of the room. Returns the height used.
    float fitted_top(Rect room, std::string_view text, TextSpec spec);
    // At most 50 characters of this type, or `width` when that is less: a column of reading.
    float column(float width, Type type) const;

    // ---- touch ------------------------------------------------------------------------------
    Tap target(Rect rect, const Target& target);
    void set_notice(std::string notice) { state_->notice = std::move(notice); }
    // What a physical keyboard or scanner typed since the last frame (UTF-8). A pad takes it; what
    // nobody takes goes to the frame.
    std::string take_typed();
    bool take_enter();
    int take_backspaces();
    Dot finger() const { return pointer_.at; }
    bool finger_went_down() const { return finger_came_; }
    void forget_finger();  // until it comes down again it touches nothing
    bool somebody_typed() const { return typed_; }

    // ---- scrolling: content taller than its room --------------------------------------------
    // `rows_in` lays the rows out in a room; it is asked again for the narrower one beside the page
    // tiles, which stand at the right when the rows do not fit. Returns where the content starts
    // and how wide it may be (h: of all rows). Draw the content there, then end.
    using RowsIn = std::function<std::vector<ScrollRow>(Rect)>;
    Rect begin_scroll(Rect room, const RowsIn& rows_in);
    void end_scroll();
    // What the page tiles say under their counts.
    void set_scroll_words(std::string above, std::string below) {
        scroll_words_ = {std::move(above), std::move(below)};
    }

    // ---- pictures ---------------------------------------------------------------------------
    // Centred in the room, aspect kept; named parts get a dashed frame and their name beside it.
    // False when there is no such picture.
    bool picture(Rect room, std::string_view file, const std::vector<PartMark>& parts = {});
    // Width to height of a picture; 1 where there is none.
    float picture_aspect(std::string_view file) const;
    // Stretched to the room: a PNG file that has its shape.
    bool paper(Rect room, const std::string& path);
    // Fills the room, in the colours that belong on a plate.
    bool chart(Rect room, const ChartData& chart);

    Recorder& recorder() { return recorder_; }
    const Recorder& recorder() const { return recorder_; }
    UiState& state() { return *state_; }

  private:
    struct Surface {
        Rect rect;
        Token token;
    };
    struct Pointer {
        Dot at;
        Dot pressed_at;
        bool down = false;
        bool pressed = false;   // went down in this frame
        bool released = false;  // went up in this frame
        bool dragging = false;  // moved further than a finger trembles
    };
    struct Scroll {
        bool open = false;
        Rect room;
        bool held = false;   // the finger went down inside
        float from = 0;      // scroll when it went down
        float tiles = 0;     // width at the right that the page tiles take
    };
    struct ScrollWords {
        std::string above;
        std::string below;
    };

    void sample_pointer();
    void sample_keys();
    Token behind(Dot at) const;
    Rect visible_part(Rect rect) const;
    void record_text(Rect rect, std::string_view text, const TextSpec& spec, bool clipped);
    float draw_lines(Dot at, float width, std::string_view text, const TextSpec& spec,
                     bool clipped);
    Rect page_tiles(Rect room, const Paging& paging);

    const Fonts& fonts_;
    TextureSource& textures_;
    Scale scale_;
    FrameStart start_;
    Rect area_;
    Recorder recorder_;
    std::vector<Surface> surfaces_;
    Pointer pointer_;
    Scroll scroll_;
    ScrollWords scroll_words_;
    UiState* state_ = nullptr;
    ImDrawList* draw_ = nullptr;
    bool finger_came_ = false;
    bool typed_ = false;
    std::string typed_now_;
    bool enter_now_ = false;
    int backspaces_now_ = 0;
    bool wants_frame_ = false;
};

}  // namespace holdpin
