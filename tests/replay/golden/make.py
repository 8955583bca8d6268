#!/usr/bin/env python3
"""Works out the golden journals of the DST nights with Python's own zone rules.

The case: binding with a dwell of 10 h, stage 5 min, assembly 4 min, release 5 min, wait 24 h from clamps on; reserved for
19:00, pressed exactly as planned; the shop is open from 6:00 to 22:00 and the clamps come off at the first moment they can.
"""
import pathlib
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

UTC = ZoneInfo("UTC")
MIN = timedelta(minutes=1)


def opening_at_or_after(t, zone, length):
    """The first instant from t on with `length` of open time before it (UTC in, UTC out)."""
    while True:
        local = t.astimezone(zone)
        closing = datetime(local.year, local.month, local.day, 22, tzinfo=zone).astimezone(UTC)
        opening = datetime(local.year, local.month, local.day, 6, tzinfo=zone).astimezone(UTC)
        if t < opening:
            return opening
        if t + length <= closing:
            return t
        tomorrow = local.date() + timedelta(days=1)
        t = datetime(tomorrow.year, tomorrow.month, tomorrow.day, tzinfo=zone).astimezone(UTC)


def journal(name, day):
    zone = ZoneInfo(name)
    stage = datetime(*day, 19, tzinfo=zone).astimezone(UTC)
    opened, clamped = stage + 5 * MIN, stage + 9 * MIN
    off = clamped + 600 * MIN
    release = opening_at_or_after(off, zone, 5 * MIN)
    out = []
    for what, free in [("reserved", release + 5 * MIN), ("started", release + 5 * MIN),
                       ("clamps on", release + 5 * MIN), ("clamps off", release)]:
        out.append(what)
        for word, t in [("stage  ", stage), ("open   ", opened), ("clamped", clamped), ("off from", off),
                        ("release", release), ("free   ", free), ("ready  ", clamped + 24 * 60 * MIN)]:
            out.append(f"  {word} {t.astimezone(zone).isoformat()}")
        out.append(f"  dwell at least 600 min, gear held {(free - stage) // MIN} min")
    return "\n".join(out) + "\n"


here = pathlib.Path(__file__).parent
for file, name, day in [("dublin_spring", "Europe/Dublin", (2026, 3, 28)), ("dublin_autumn", "Europe/Dublin", (2026, 10, 24)),
                        ("new_york_spring", "America/New_York", (2026, 3, 7)),
                        ("new_york_autumn", "America/New_York", (2026, 10, 31))]:
    (here / f"{file}.txt").write_text(journal(name, day))
