"""Reads due.ics with Debian's icalendar and says each date: python3 read_calendar.py FILE."""
import sys

import icalendar

data = open(sys.argv[1], "rb").read()
# RFC 5545 section 3.1: CRLF at the end of each line, at most 75 octets before it.
lines = data.split(b"\r\n")
assert lines[-1] == b"" and b"\n" not in b"".join(lines), "a line end that is not CRLF"
assert all(len(line) <= 75 for line in lines), "a line that is too long"
for line in lines:
    line.decode("utf-8")  # no letter is cut in two
calendar = icalendar.Calendar.from_ical(data)
assert calendar["version"] == "2.0" and calendar["prodid"]
events = calendar.walk("VEVENT")
assert len({str(event["uid"]) for event in events}) == len(events), "a UID stands twice"
for event in events:
    assert event["dtstamp"].dt.utcoffset().total_seconds() == 0
    assert not event.errors, event.errors
    print(event["dtstart"].dt.isoformat(), event["summary"], "|",
          event["description"].replace("\n", " / "))
