// Sets words in B612 for printing. Most words of a paper recur, on it and on the next one; they
// are set once and then only drawn, since setting is most of the work. What is kept is bounded, so
// memory does not grow with what is printed. For one thread.
#pragma once

#include <pango/pangocairo.h>

#include <map>
#include <memory>
#include <string>
#include <unordered_map>

namespace holdpin {

struct GObjectGone {
    void operator()(PangoLayout* layout) const { g_object_unref(layout); }
    void operator()(PangoContext* context) const { g_object_unref(context); }
};
using PaperWords = std::unique_ptr<PangoLayout, GObjectGone>;

struct PaperType {
    double points = 10;
    bool bold = false;
    bool mono = false;
};

class TypeSetter {
  public:
    // `width` in points; 0: on one line.
    PaperWords set(const std::string& text, const PaperType& type, double width,
                   const std::string& language);

  private:
    using Context = std::unique_ptr<PangoContext, GObjectGone>;
    PangoContext* context_for(const std::string& language);

    // One a language: when the language of a context changes, its words are set anew.
    std::map<std::string, Context> contexts_;
    std::unordered_map<std::string, PaperWords> kept_;
    std::string key_;
};

}  // namespace holdpin
