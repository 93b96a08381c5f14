#include "binder/calendar.hpp"

namespace holdpin {
namespace {

constexpr std::size_t kMostOctets = 75;  // of a line without its end; RFC 5545 section 3.1

// RFC 5545 section 3.3.11.
std::string escaped(const std::string& text) {
    std::string safe;
    for (const char c : text) {
        if (c == '\\' || c == ';' || c == ',') safe += '\\';
        if (c == '\n') {
            safe += "\\n";
        } else if (static_cast<unsigned char>(c) >= 0x20) {
            safe += c;
        }
    }
    return safe;
}

// Folded between letters, never within one.
void add_line(std::string& text, const std::string& line) {
    std::size_t used = 0;
    for (std::size_t i = 0; i < line.size();) {
        std::size_t next = i + 1;
        while (next < line.size() && (static_cast<unsigned char>(line[next]) & 0xC0U) == 0x80U) {
            ++next;
        }
        if (used + (next - i) > kMostOctets) {
            text += "\r\n ";
            used = 1;
        }
        text.append(line, i, next - i);
        used += next - i;
        i = next;
    }
    text += "\r\n";
}

std::string without_marks(const std::string& text) {
    std::string plain;
    for (const char c : text) {
        if (c != '-' && c != ':') plain += c;
    }
    return plain;
}

// 2026-11-25T11:40:00.123Z -> 20261125T114000Z
std::string stamp(std::int64_t at_ms) {
    return without_marks(utc_text(at_ms).substr(0, 19)) + "Z";
}

}  // namespace

std::string calendar_text(const std::vector<DueDate>& due, const CalendarPlace& place) {
    std::string text;
    add_line(text, "BEGIN:VCALENDAR");
    add_line(text, "VERSION:2.0");
    add_line(text, "PRODID:-//Holdpin//Binder 1//EN");
    for (const DueDate& item : due) {
        add_line(text, "BEGIN:VEVENT");
        add_line(text, "UID:" + escaped(item.id) + "@" + place.kiosk + ".holdpin.invalid");
        add_line(text, "DTSTAMP:" + stamp(place.now_ms));
        add_line(text, "DTSTART;VALUE=DATE:" + without_marks(iso_date(item.on)));
        add_line(text, "DTEND;VALUE=DATE:" + without_marks(iso_date(add_days(item.on, 1))));
        add_line(text, "SUMMARY:" + escaped(item.what));
        const std::string from = "Entry " + std::to_string(item.entry) + " of the ledger";
        add_line(text, "DESCRIPTION:" +
                           escaped(item.details.empty() ? from : item.details + "\n" + from));
        add_line(text, "TRANSP:TRANSPARENT");
        add_line(text, "END:VEVENT");
    }
    add_line(text, "END:VCALENDAR");
    return text;
}

}  // namespace holdpin
