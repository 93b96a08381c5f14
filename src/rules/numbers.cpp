#include "rules/numbers.hpp"

namespace holdpin {

NumberJudgement judge(const NumberPoint& point, std::int64_t value, std::int64_t last) {
    if (value < point.min_tenths || value > point.max_tenths) return NumberJudgement::out_of_range;
    if (last >= 0 && point.check == NumberCheck::not_below_last && value < last) {
        return NumberJudgement::below_last;
    }
    if (last >= 0 && point.most_rise_tenths > 0 && value - last > point.most_rise_tenths) {
        return NumberJudgement::risen_too_far;
    }
    if (point.low_tenths >= 0 && value < point.low_tenths) return NumberJudgement::low;
    return NumberJudgement::fine;
}

Outcome outcome_of(const NumberPoint& point, NumberJudgement judgement) {
    return judgement == NumberJudgement::fine ? Outcome::fine : point.outside;
}

}  // namespace holdpin
