#include "devices/meter_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/text.hpp"
#include "devices/meter.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kHeader = "time,ppm";
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr std::string_view kDigits = "0123456789";
constexpr std::int64_t kMinuteMs = 60'000;
constexpr const char* kTimeMend = "write 2026-11-25T05:40:12-06:00, or without offset in site time";

Error bad_time(std::string what) {
    return {ErrorKind::invalid, std::move(what), "", kTimeMend};
}

// "05:40" or "05:40:12" as milliseconds of the day.
Result<std::int64_t> time_of_day(std::string_view text) {
    const auto minute = parse_minute(text.substr(0, 5));
    const bool has_seconds = text.size() == 8 && text[5] == ':' && text[6] >= '0' &&
                             text[6] <= '5' && kDigits.find(text[7]) != kDigits.npos;
    if (!minute || minute.value() == 1440 || (text.size() != 5 && !has_seconds)) {
        return bad_time(fmt::format("\"{}\" is no time of day", text));
    }
    const int second = has_seconds ? (text[6] - '0') * 10 + (text[7] - '0') : 0;
    return std::int64_t{minute.value()} * kMinuteMs + second * 1000;
}

// "Z", "+01:00", "-06:00" in minutes; absent: none is written.
Result<std::optional<int>> offset_of(std::string_view text) {
    if (text.empty()) return std::optional<int>();
    if (text == "Z") return std::optional(0);
    const auto minutes = parse_minute(text.substr(1));
    if (text.front() == 'Z' || !minutes || minutes.value() > 14 * 60) {
        return bad_time(fmt::format("\"{}\" is no offset", text));
    }
    return std::optional(text.front() == '-' ? -minutes.value() : minutes.value());
}

// A wall time of the site. One that a clock change skips or repeats cannot be told.
Result<std::int64_t> site_instant(Date date, std::int64_t of_day_ms, const Zone& zone) {
    const int minute = static_cast<int>(of_day_ms / kMinuteMs);
    const std::int64_t instant = zone.instant(date, minute);
    const LocalTime shown = zone.local(instant);
    if (shown.date != date || shown.minute != minute) {
        return bad_time("the clock change leaves this time out");
    }
    const LocalTime later = zone.local(instant + 180 * kMinuteMs);
    const int back = shown.offset_min - later.offset_min;
    if (back > 0) {
        const LocalTime again = zone.local(instant + back * kMinuteMs);
        if (again.date == date && again.minute == minute) {
            return bad_time("the clock change brings this time twice");
        }
    }
    return instant + of_day_ms % kMinuteMs;
}

Result<std::int64_t> instant_of(std::string_view text, const Zone& zone) {
    if (text.size() < 16 || (text[10] != 'T' && text[10] != ' ')) {
        return bad_time(fmt::format("\"{}\" is no time", text));
    }
    const auto date = parse_date(text.substr(0, 10));
    if (!date) return bad_time(fmt::format("\"{}\" is no date", text.substr(0, 10)));
    const std::string_view rest = text.substr(11);
    const std::size_t end = std::min(rest.find_first_of("Z+-"), rest.size());
    const std::int64_t of_day = TRY(time_of_day(rest.substr(0, end)));
    const auto offset = TRY(offset_of(rest.substr(end)));
    if (!offset) return site_instant(date.value(), of_day, zone);
    return day_number(date.value()) * 1440 * kMinuteMs + of_day - *offset * kMinuteMs;
}

Result<void> check_ppm(std::string_view text) {
    const auto dot = std::min(text.find('.'), text.size());
    const auto all_digits = [](std::string_view part) {
        return !part.empty() && part.find_first_not_of(kDigits) == part.npos;
    };
    const bool plain =
        all_digits(text.substr(0, dot)) && (dot == text.size() || all_digits(text.substr(dot + 1)));
    if (!plain) {
        return Error{ErrorKind::invalid, fmt::format("\"{}\" is no reading in ppm", text), "",
                     "write digits with a decimal point, not below 0: 0, 12, 12.5"};
    }
    if (TRY(parse_decimal(text)) > kMostPpm) {
        return Error{ErrorKind::invalid, fmt::format("{} ppm is more than any meter shows", text),
                     "", "look at the unit: ppm, not mg/m³ or percent"};
    }
    return {};
}

class LogReader {
  public:
    explicit LogReader(const Zone& zone) : zone_(zone) {}

    void line(int number, std::string_view text) {
        const auto reading = read(number, text);
        if (!reading) {
            log_.faults.push_back({number, reading.error().what, reading.error().mend});
        } else {
            log_.readings.push_back(reading.value());
        }
    }
    MeterLog take() { return std::move(log_); }

  private:
    Result<LogReading> read(int number, std::string_view text) const {
        const auto cells = split(text, ',');
        if (cells.size() != 2) {
            return Error{ErrorKind::invalid,
                         fmt::format("the line has {} cells in place of 2", cells.size()), "",
                         "write time,ppm with a comma between and a point in decimals"};
        }
        const std::int64_t read_ms = TRY(instant_of(cells[0], zone_));
        TRY(check_ppm(cells[1]));
        if (!log_.readings.empty() && read_ms <= log_.readings.back().read_ms) {
            return Error{ErrorKind::invalid,
                         fmt::format("this time is not after that of line {}",
                                     log_.readings.back().line),
                         "", "put the readings in the order of their times, each time once"};
        }
        return LogReading{number, read_ms, cells[1]};
    }

    const Zone& zone_;
    MeterLog log_;
};

}  // namespace

MeterLog read_meter_log(std::string_view text, const Zone& zone) {
    if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
    auto lines = split(text, '\n');
    if (!lines.empty() && lines.back().empty()) lines.pop_back();
    for (std::string& line : lines) {
        if (line.ends_with('\r')) line.pop_back();
    }
    MeterLog log;
    if (lines.empty() || lines.front() != kHeader) {
        log.faults.push_back({1, "the first line is not time,ppm", "write it as the header"});
        return log;
    }
    if (lines.size() == 1) {
        log.faults.push_back({1, "the log has no reading", "write one line a reading"});
        return log;
    }
    LogReader reader(zone);
    for (std::size_t i = 1; i < lines.size(); ++i) {
        reader.line(static_cast<int>(i) + 1, lines[i]);
    }
    return reader.take();
}

}  // namespace holdpin
