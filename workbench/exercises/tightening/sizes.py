"""Bolts that the questions ask about, of ISO 898-1, and what rounding on the way may lose."""

from workbench.exercises.draws import third_figure
from workbench.tables import table
from workbench.threads.property_classes import property_class
from workbench.threads.strength import loads_of, shank_area_mm2

SIZES = (8, 10, 12, 14, 16, 18, 20)
CLASSES = ("8.8", "10.9", "12.9")


def bolts():
    """Size, pitch, class, stress area, shank area, proof stress and tensile strength, as the questions print them."""
    for size in SIZES:
        for name in CLASSES:
            row = _row(size, name)
            strength = property_class(name, size)
            yield {
                "size": size,
                "pitch": float(row["thread"].split("x")[1]),
                "class": name,
                "area": row["stress_area_mm2"],
                "shank_area": round(shank_area_mm2(size), 1),
                "proof": strength.proof_mpa,
                "tensile": strength.tensile_mpa,
            }


def loads(bolt):
    """Proof and yield load of such a bolt: stress area x stress."""
    return loads_of(bolt["area"], property_class(bolt["class"], bolt["size"]))


def clamp_n(bolt):
    """A usual clamp: three quarters of the proof load, rounded to 100 N as a job card has it."""
    return round(0.75 * loads(bolt).proof_n, -2)


def lost(*values):
    """Share of a product that is lost when each of its parts is kept to three figures.

    >>> round(lost(100, 200), 4)
    0.0075
    """
    return sum(third_figure(value) / abs(value) for value in values)


def _row(size, name):
    rows = table("iso_898_1_loads_coarse").rows.values()
    return next(row for row in rows if row["thread"].startswith(f"M{size}x") and f"{row['property_class']:.1f}" == name)
