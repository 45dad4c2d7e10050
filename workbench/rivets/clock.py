"""Clock times past midnight: minutes since Monday 00:00 of the plan, and how they are written."""

import re

from workbench.refusals import one_number, refuse

DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
DAY_MIN = 1440
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})")


def minute_of_day(text):
    """"23:50" as minutes since midnight: 1430. "24:00" is refused: it is 00:00 of the next day.

    >>> minute_of_day("23:50")
    1430
    """
    found = _CLOCK.fullmatch(str(text).strip())
    if found is None or int(found[1]) > 23 or int(found[2]) > 59:
        refuse("time", text, "must be a clock time from 00:00 to 23:59", "midnight is 00:00 of the new day")
    return 60 * int(found[1]) + int(found[2])


def minute(text):
    """"Tue 00:10" as minutes since Monday 00:00.

    >>> minute("Tue 00:10")
    1450
    """
    day, _, clock = str(text).strip().partition(" ")
    if day[:3].capitalize() not in DAYS or not clock:
        refuse("time", text, "must be a day and a clock time, such as Tue 00:10")
    return DAY_MIN * DAYS.index(day[:3].capitalize()) + minute_of_day(clock)


def written(minutes):
    """Minutes since Monday 00:00 as day and clock, to the minute; the second week's days bear a +.

    >>> written(1450), written(-30), written(7 * 1440)
    ('Tue 00:10', 'Sun- 23:30', 'Mon+ 00:00')
    """
    week, rest = divmod(round(one_number("minutes", minutes)), 7 * DAY_MIN)
    day, clock = divmod(rest, DAY_MIN)
    mark = "+" if week > 0 else "-" if week < 0 else ""
    return f"{DAYS[day]}{mark} {clock // 60:02d}:{clock % 60:02d}"


def after(start_of_day_min, minutes):
    """The clock some minutes later, as minutes since midnight: (start + minutes) mod 1440.

    >>> after(minute_of_day("23:50"), 20)
    10
    """
    return (one_number("start_of_day_min", start_of_day_min) + one_number("minutes", minutes)) % DAY_MIN
