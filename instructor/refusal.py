"""A refusal: something that the instructor asked for cannot be done, said in one clear sentence."""

import difflib
from collections.abc import Iterable


class Refusal(Exception):
    """The request cannot be carried out; its text says why and what to do, without a traceback."""


def unknown(what: str, name: str, known: Iterable[str], otherwise: str = "") -> Refusal:
    """A refusal of a name that does not exist, with the nearest that do.

    >>> str(unknown("lesson", "mesuring", ["measuring_screw", "rivets"]))
    "there is no lesson 'mesuring'; nearest: measuring_screw"
    """
    known = sorted(known)
    close = difflib.get_close_matches(name, known, n=3, cutoff=0.4)
    if close:
        hint = f"; nearest: {', '.join(close)}"
    elif known:
        hint = f"; there is: {', '.join(known[:8])}"
    else:
        hint = "; there is none yet"
    return Refusal(f"there is no {what} {name!r}{hint}{'. ' + otherwise if otherwise else ''}")
