// Where a list that is taller than its room may stand still: always at the top of a row, so that no
// row is cut, and how many rows are above and below. A row taller than the room is gone through in
// pieces that overlap. Pure: knows neither finger nor drawing. Lengths in pixels, from the top of
// the content.
#pragma once

#include <vector>

namespace holdpin {

struct ScrollRow {
    float top = 0;
    float height = 0;
    int things = 1;  // that are counted in it; 0: it is no list
    float bottom() const { return top + height; }
};

class Paging {
  public:
    Paging(std::vector<ScrollRow> rows, float room);

    float height() const { return height_; }
    bool is_needed() const;
    float last() const { return stops_.back(); }
    float nearest(float scroll) const;
    // A page on and a page back; nothing is skipped on the way.
    float next(float scroll) const;
    float previous(float scroll) const;
    // Of the room, what whole rows fill from here.
    float filled(float scroll) const;
    // Things that are not wholly shown from here.
    int above(float scroll) const;
    int below(float scroll) const;

  private:
    std::vector<ScrollRow> rows_;
    float room_;
    float height_ = 0;
    std::vector<float> stops_;
};

}  // namespace holdpin
