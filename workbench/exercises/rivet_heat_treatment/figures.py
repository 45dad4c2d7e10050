"""Clock times as printed, the documents' figures, and draws whose answer stands nowhere in the question."""

from workbench.rivets.clock import written
from workbench.rivets.documents import rule


def clock(minutes: int) -> str:
    """Minutes since midnight as a clock time; past midnight it begins anew.

    >>> clock(1450)
    '00:10'
    """
    return written(minutes)[-5:]


def limit_min(document: str, alloy: str) -> int:
    """Minutes to drive by one document.

    >>> limit_min("navy", "2017")
    20
    """
    return int(rule(document, alloy).drive_within_min)


def unprinted(draws, right, also=()) -> list[dict]:
    """The draws whose right answer is no figure of their own (clock times taken apart), nor one of `also`.

    >>> unprinted([{"at": "23:52"}, {"at": "23:50"}], lambda v: 52)
    [{'at': '23:50'}]
    """
    return [draw for draw in draws if right(draw) not in {*also, *_figures(draw)}]


def _figures(draw):
    for value in draw.values():
        if isinstance(value, int | float):
            yield value
        elif isinstance(value, str):
            yield from (int(part) for part in value.replace(":", " ").split() if part.isdecimal())
