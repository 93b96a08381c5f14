#include "content/fault.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

namespace holdpin {

std::string Fault::sentence() const {
    std::string text = line > 0 ? fmt::format("{}:{}:{}: {}", file, line, column, what)
                                : fmt::format("{}: {}", file, what);
    return mend.empty() ? text : text + "; " + mend;
}

void put_in_order(Faults& faults) {
    const auto rank = [](const Fault& f) {
        return std::tie(f.file, f.line, f.column, f.what, f.mend);
    };
    std::sort(faults.begin(), faults.end(),
              [&](const Fault& a, const Fault& b) { return rank(a) < rank(b); });
    const auto end = std::unique(faults.begin(), faults.end(), [&](const Fault& a, const Fault& b) {
        return rank(a) == rank(b);
    });
    faults.erase(end, faults.end());
}

}  // namespace holdpin
