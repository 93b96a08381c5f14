#include "kiosk/paging.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace holdpin {

namespace {

constexpr float kSamePlace = 0.5F;
constexpr float kPiece = 0.85F;  // of the room, where a row is taller than it

std::vector<float> stops_of(const std::vector<ScrollRow>& rows, float room, float last) {
    std::vector<float> stops;
    for (const ScrollRow& row : rows) {
        const float rest = row.bottom() - room;
        for (float at = row.top; at < rest; at += room * kPiece) {
            stops.push_back(at);
        }
        stops.push_back(std::max(row.top, rest));
    }
    const auto first_with_the_rest = std::find_if(
        stops.begin(), stops.end(), [&](float stop) { return stop >= last - kSamePlace; });
    if (first_with_the_rest == stops.end()) {
        stops.push_back(last);
    } else {
        stops.erase(first_with_the_rest + 1, stops.end());
    }
    return stops;
}

}  // namespace

Paging::Paging(std::vector<ScrollRow> rows, float room) : rows_(std::move(rows)), room_(room) {
    for (const ScrollRow& row : rows_) {
        height_ = std::max(height_, row.bottom());
    }
    stops_ = stops_of(rows_, room_, std::max(0.0F, height_ - room_));
}

bool Paging::is_needed() const { return height_ > room_ + kSamePlace; }

float Paging::nearest(float scroll) const {
    return *std::min_element(stops_.begin(), stops_.end(), [scroll](float a, float b) {
        return std::abs(a - scroll) < std::abs(b - scroll);
    });
}

float Paging::next(float scroll) const {
    const auto cut = std::find_if(rows_.begin(), rows_.end(), [&](const ScrollRow& row) {
        return row.bottom() > scroll + room_ + kSamePlace;
    });
    if (cut != rows_.end() && cut->top > scroll + kSamePlace) {
        return std::min(cut->top, last());
    }
    const auto after = std::find_if(stops_.begin(), stops_.end(),
                                    [&](float stop) { return stop > scroll + kSamePlace; });
    return after == stops_.end() ? last() : *after;
}

float Paging::previous(float scroll) const {
    float before = 0;
    for (const ScrollRow& row : rows_) {
        if (row.top < scroll - kSamePlace) {
            before = row.bottom();
        }
    }
    float nearest_before = 0;
    for (const float stop : stops_) {
        if (stop >= scroll - kSamePlace) {
            break;
        }
        if (before - stop <= room_ + kSamePlace) {
            return stop;
        }
        nearest_before = stop;
    }
    return nearest_before;
}

float Paging::filled(float scroll) const {
    float filled = 0;
    for (const ScrollRow& row : rows_) {
        const bool fits = row.bottom() <= scroll + room_ + kSamePlace;
        if (!fits && row.top <= scroll + kSamePlace) {
            return room_;
        }
        if (fits) {
            filled = row.bottom() - scroll;
        }
    }
    return std::clamp(filled, 0.0F, room_);
}

int Paging::above(float scroll) const {
    int count = 0;
    for (const ScrollRow& row : rows_) {
        count += row.top < scroll - kSamePlace ? row.things : 0;
    }
    return count;
}

int Paging::below(float scroll) const {
    int count = 0;
    for (const ScrollRow& row : rows_) {
        count += row.bottom() > scroll + room_ + kSamePlace ? row.things : 0;
    }
    return count;
}

}  // namespace holdpin
