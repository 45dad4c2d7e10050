"""What keeps draws alike: no draw may be easier than another because its figures come out rounder."""

import math


def decimals_of(value: float) -> int:
    """Decimals that a value needs when written out: 2 for 3.25, 0 for 4.0.

    >>> decimals_of(3.25), decimals_of(4.0)
    (2, 0)
    """
    return len(f"{value:.6f}".rstrip("0").split(".")[1])


def as_round(draws, value, decimals: int) -> list[dict]:
    """The draws whose value(draw) needs exactly so many decimals.

    >>> as_round([{"n": 38}, {"n": 40}], lambda d: d["n"] / 100, 2)
    [{'n': 38}]
    """
    return [draw for draw in draws if decimals_of(value(draw)) == decimals]


def third_figure(value: float) -> float:
    """Half a unit in the third figure of a value: what is lost when it is rounded to three figures.

    >>> third_figure(38.8), round(third_figure(9.61), 4)
    (0.05, 0.005)
    """
    whole_places = len(str(int(abs(value)))) if abs(value) >= 1 else 0
    return 0.5 * 10 ** (whole_places - 3)


def up(value: float, step: float = 0.001) -> float:
    """A width rounded up to a whole step, so that it can be printed beside a question.

    >>> up(0.01125), up(0.33, 0.1)
    (0.012, 0.4)
    """
    return round(math.ceil(value / step - 1e-9) * step, 6)
