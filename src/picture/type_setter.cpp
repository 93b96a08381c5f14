#include "picture/type_setter.hpp"

#include <cairo.h>

namespace holdpin {
namespace {

constexpr std::size_t kMostKept = 2048;
constexpr std::size_t kLongest = 240;  // bytes; what is longer seldom comes again

struct OptionsFree {
    void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
};

void add_number(std::string& key, double number) {
    key += std::to_string(static_cast<long>(number * PANGO_SCALE));
    key += ' ';
}

PaperWords made(PangoContext* context, const std::string& text, const PaperType& type,
                double width) {
    PaperWords words(pango_layout_new(context));
    PangoFontDescription* font = pango_font_description_from_string(
        type.mono ? "B612 Mono, Noto Sans" : "B612, Noto Sans");
    pango_font_description_set_absolute_size(font, type.points * PANGO_SCALE);
    pango_font_description_set_weight(font, type.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(words.get(), font);
    pango_font_description_free(font);
    if (width > 0) {
        pango_layout_set_width(words.get(), static_cast<int>(width * PANGO_SCALE));
        pango_layout_set_wrap(words.get(), PANGO_WRAP_WORD_CHAR);
    }
    // A digest that is broken into lines has no hyphen in it.
    PangoAttrList* attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes, pango_attr_insert_hyphens_new(0));
    pango_layout_set_attributes(words.get(), attributes);
    pango_attr_list_unref(attributes);
    pango_layout_set_text(words.get(), text.data(), static_cast<int>(text.size()));
    return words;
}

}  // namespace

// Letters stand where the type designer wants them; on a grid of pixels they drift apart, and a
// reader of the file takes the gaps for blanks.
PangoContext* TypeSetter::context_for(const std::string& language) {
    Context& context = contexts_[language];
    if (context != nullptr) return context.get();
    context.reset(pango_font_map_create_context(pango_cairo_font_map_get_default()));
    const std::unique_ptr<cairo_font_options_t, OptionsFree> options(cairo_font_options_create());
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context.get(), options.get());
    pango_context_set_round_glyph_positions(context.get(), 0);
    pango_context_set_language(context.get(), pango_language_from_string(language.c_str()));
    return context.get();
}

PaperWords TypeSetter::set(const std::string& text, const PaperType& type, double width,
                           const std::string& language) {
    key_ = language;
    key_ += type.bold ? " b" : " -";
    key_ += type.mono ? "m " : "- ";
    add_number(key_, type.points);
    add_number(key_, width);
    key_ += text;
    const auto known = kept_.find(key_);
    if (known != kept_.end()) return PaperWords(PANGO_LAYOUT(g_object_ref(known->second.get())));
    PaperWords words = made(context_for(language), text, type, width);
    if (text.size() > kLongest) return words;
    if (kept_.size() >= kMostKept) kept_.clear();
    kept_.emplace(key_, PaperWords(PANGO_LAYOUT(g_object_ref(words.get()))));
    return words;
}

}  // namespace holdpin
