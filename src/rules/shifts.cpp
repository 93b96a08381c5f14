#include "rules/shifts.hpp"

namespace holdpin {

std::optional<ShiftWindow> shift_at(const std::vector<Shift>& shifts, const Zone& zone,
                                    std::int64_t now_ms) {
    const Date today = zone.local(now_ms).date;
    for (const Shift& shift : shifts) {
        const bool over_midnight = shift.end_min <= shift.start_min;
        for (const int back : {0, 1}) {
            const Date date = add_days(today, -back);
            const std::int64_t start = zone.instant(date, shift.start_min);
            const std::int64_t end =
                zone.instant(over_midnight ? add_days(date, 1) : date, shift.end_min);
            if (start <= now_ms && now_ms < end) return ShiftWindow{shift.id, start, end, date};
        }
    }
    return std::nullopt;
}

}  // namespace holdpin
