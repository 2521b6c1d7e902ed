#!/usr/bin/env python3
"""A printed calendar read back by a library of the registries (icalendar), and its times by another (the standard library's zoneinfo).

    pip install icalendar
    cargo run -- --kitchen sample-data --today 2026-11-27 print --only calendar --into SOME-FOLDER/calendar
    python3 tests/outside/calendar_check.py SOME-FOLDER/calendar/week-2026-11-30.ics

It lists the events, and fails where the library finds an error, a line is over 75 octets, a UID is there twice, or the zone that is written
into the file gives another time than the IANA tz database.
"""

import pathlib
import sys
import zoneinfo

import icalendar


def main(path):
    raw = path.read_bytes()
    wrong = [line for line in raw.split(b"\r\n") if len(line) > 75 or b"\n" in line]
    calendar = icalendar.Calendar.from_ical(raw)
    zones = {str(zone["TZID"]): zone.to_tz() for zone in calendar.walk("VTIMEZONE")}
    uids = set()
    for event in calendar.walk("VEVENT"):
        wrong += event.errors
        start = event.decoded("DTSTART")
        if event["UID"] in uids:
            wrong.append(f"twice: {event['UID']}")
        uids.add(event["UID"])
        zone = event["DTSTART"].params.get("TZID")
        if zone:
            wall = start.replace(tzinfo=None)
            ours, theirs = zones[zone].utcoffset(wall), wall.replace(tzinfo=zoneinfo.ZoneInfo(zone)).utcoffset()
            if ours != theirs:
                wrong.append(f"{wall}: {ours} in the file, {theirs} in the tz database")
        print(start, event["STATUS"], event["SEQUENCE"], event["SUMMARY"], sep="  ")
    print("\n".join(map(str, wrong)) or "holds")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1])))
