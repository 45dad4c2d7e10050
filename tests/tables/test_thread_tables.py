"""Tables of threads against their own names, the preferred numbers of their standards, and values from memory."""

import math
import re
from fractions import Fraction

import pytest

from workbench.tables import table

# ISO 3, series R40: what tolerances are rounded to; below 100 to whole numbers
R40 = [100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300, 315, 335,
       355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950]
PREFERRED = {float(number * scale) for number in R40 for scale in (1, 10)} | {
    float(rounded) for number in R40 for rounded in (math.floor(number / 10), math.floor(number / 10 + 0.5))}


def numbers_of(name):
    """The numbers in a row's name, in order: '2 1/4-3' gives 2.25 and 3, '1.4 to 2.8 x 0.35' gives three."""
    parts = re.findall(r"(\d+) (\d+/\d+)|(\d+/\d+)|(\d+(?:\.\d+)?)", name)
    return [float(sum(Fraction(part) for part in found if part)) for found in parts]


@pytest.mark.parametrize(("name", "fields"), [
    ("acme_sizes", ("major_in", "threads_per_inch")), ("whitworth_sizes", ("major_in", "threads_per_inch")),
    ("trapezoidal_sizes", ("diameter_mm", "pitch_mm")), ("iso_261_metric", ("diameter_mm", "pitch_mm")),
    ("iso_2306_tapping_drills", ("diameter_mm", "pitch_mm")), ("iso_273_clearance_holes", ("diameter_mm",)),
    ("iso_2903_crest", ("pitch_mm",)), ("iso_965_crest", ("pitch_mm",)), ("iso_965_deviations", ("pitch_mm",)),
    ("trapezoidal_clearances", ("pitch_mm",)), ("iso_2903_pitch", ("over_mm", "to_mm", "pitch_mm")),
    ("iso_965_pitch", ("over_mm", "to_mm", "pitch_mm")), ("nominal_lengths", ("length_mm",)),
    ("head_heights", ("diameter_mm",)),
])
def test_the_name_of_a_row_says_its_sizes(name, fields):
    """Diameter, pitch or range in a row's name are those in its columns."""
    for row, cells in table(name).rows.items():
        assert numbers_of(row) == [cells[field] for field in fields], row


@pytest.mark.parametrize("name", ["acme_sizes", "whitworth_sizes", "pipe_threads", "unified_sizes"])
def test_the_size_of_an_inch_thread_stands_in_its_name(name):
    """The size by which an inch thread is called is the first part of its name."""
    for row, cells in table(name).rows.items():
        size = str(cells["size"]).removeprefix("#")
        assert row.removeprefix("G ").split("-")[0].split(" B")[0] == size, row


@pytest.mark.parametrize("name", ["iso_965_pitch", "iso_965_crest", "iso_2903_pitch", "iso_2903_crest"])
def test_tolerances_are_preferred_numbers(name):
    """Tolerances of threads are rounded to the series R40 (ISO 3, ISO 965-1); the sums Td3 are not."""
    for row, cells in table(name).rows.items():
        for column in (one for one in cells if one.startswith("T") and not one.startswith("Td3")):
            assert math.isnan(cells[column]) or cells[column] in PREFERRED, (row, column)


@pytest.mark.parametrize("name", ["iso_898_1_loads_coarse", "iso_898_1_loads_fine"])
def test_loads_are_printed_to_three_figures(name):
    """Areas and loads have three figures (ISO 898-1), but for two entries that are printed with four (from memory)."""
    for row, cells in table(name).rows.items():
        for column in ("stress_area_mm2", "proof_load_n", "ultimate_load_n"):
            if (row, column) not in (("M5x0.8 8.8", "ultimate_load_n"), ("M36x3 12.9", "ultimate_load_n")):
                assert float(f"{cells[column]:.3g}") == cells[column], (row, column)


def test_one_thread_has_one_stress_area():
    """Whatever its property class, a thread has the same stress area."""
    for name in ("iso_898_1_loads_coarse", "iso_898_1_loads_fine"):
        areas = {}
        for cells in table(name).rows.values():
            assert areas.setdefault(cells["thread"], cells["stress_area_mm2"]) == cells["stress_area_mm2"]


# ISO 228-1, major diameters in mm, from memory
PIPES = {"1/16": 7.723, "1/8": 9.728, "1/4": 13.157, "3/8": 16.662, "1/2": 20.955, "5/8": 22.911, "3/4": 26.441,
         "7/8": 30.201, "1": 33.249, "1 1/8": 37.897, "1 1/4": 41.910, "1 1/2": 47.803, "1 3/4": 53.746, "2": 59.614,
         "2 1/4": 65.710, "2 1/2": 75.184, "2 3/4": 81.534, "3": 87.884, "3 1/2": 100.330, "4": 113.030,
         "4 1/2": 125.730, "5": 138.430, "5 1/2": 151.130, "6": 163.830}


def test_pipe_threads_have_the_diameters_and_counts_of_the_standard():
    """Diameters of ISO 228-1, and 28, 19, 14 or 11 threads an inch as the pipe grows (from memory)."""
    for cells in table("pipe_threads").rows.values():
        inch = sum(Fraction(part) for part in str(cells["size"]).split())
        assert cells["major_mm"] == PIPES[cells["size"]]
        count = 28 if inch <= Fraction(1, 8) else 19 if inch <= Fraction(3, 8) else 14 if inch < 1 else 11
        assert cells["threads_per_inch"] == count


# greatest head heights; ISO 4014 (hexagon, nominal) and ISO 7046-1 (countersunk), from memory
HEADS = {"hexagon": {4: 2.8, 5: 3.5, 6: 4, 8: 5.3, 10: 6.4, 12: 7.5, 16: 10, 20: 12.5, 24: 15},
         "countersunk": {3: 1.65, 4: 2.7, 5: 2.7, 6: 3.3, 8: 4.65, 10: 5}}


def test_heads_have_the_heights_of_their_standards():
    """Each stored height is the one of ISO 4014 or ISO 7046-1 (from memory)."""
    for cells in table("head_heights").rows.values():
        assert cells["height_mm"] == HEADS[cells["head"]][cells["diameter_mm"]], cells["screw"]


# tensile, proof, yield in MPa and where the row ends; ISO 898-1 table 3, from memory
CLASSES = {"4.6": (400, 225, 240, 39), "4.8": (420, 310, 340, 39), "5.6": (500, 280, 300, 39),
           "5.8": (520, 380, 420, 39), "6.8": (600, 440, 480, 39), "8.8": (800, 580, 640, 16),
           "8.8 over 16": (830, 600, 660, 39), "9.8": (900, 650, 720, 16), "10.9": (1040, 830, 940, 39),
           "12.9": (1220, 970, 1100, 39)}


def test_property_classes_have_the_strengths_of_the_standard():
    """Each row of the property classes is that of ISO 898-1 (from memory)."""
    rows = table("iso_898_1_classes").rows
    assert {row: (cells["tensile_mpa"], cells["proof_mpa"], cells["yield_mpa"], cells["up_to_mm"])
            for row, cells in rows.items()} == CLASSES


def test_stainless_classes_have_the_strengths_of_the_standard():
    """Tensile strength and 0.2 % proof stress of the classes 50, 70, 80 (ISO 3506-1, from memory)."""
    rows = table("iso_3506_1_grades").rows
    assert {row: (cells["tensile_mpa"], cells["yield_mpa"]) for row, cells in rows.items()} == {
        "50": (500, 210), "70": (700, 450), "80": (800, 600)}


def test_inch_grades_begin_at_a_quarter_inch():
    """The first row of each grade of SAE J429 begins at 1/4 in, the second where the first ends (from memory)."""
    ends = {}
    for cells in table("sae_j429_grades").rows.values():
        assert cells["from_in"] == ends.get(cells["grade"], 0.25)
        ends[cells["grade"]] = cells["up_to_in"]
    assert set(ends.values()) == {1, 1.5}


# proof, tensile, yield in ksi; SAE J429, from memory
GRADES = {"1 to 1.5": (33, 60, 36), "2 to 0.75": (55, 74, 57), "2 to 1.5": (33, 60, 36), "4 to 1.5": (65, 115, 100),
          "5 to 1": (85, 120, 92), "5 to 1.5": (74, 105, 81), "5.2 to 1": (85, 120, 92), "7 to 1.5": (105, 133, 115),
          "8 to 1.5": (120, 150, 130), "8.2 to 1": (120, 150, 130)}


def test_inch_grades_have_the_strengths_of_the_standard():
    """Each row of the inch grades is that of SAE J429 (from memory)."""
    assert {row: (cells["proof_ksi"], cells["tensile_ksi"], cells["yield_ksi"])
            for row, cells in table("sae_j429_grades").rows.items()} == GRADES


# ISO 273, fine and medium holes above M64, from memory
LARGE_HOLES = {68: (70, 74), 72: (74, 78), 76: (78, 82), 80: (82, 86), 85: (87, 91), 90: (93, 96), 95: (98, 101),
               100: (104, 107), 105: (109, 112), 110: (114, 117), 115: (119, 122), 120: (124, 127), 125: (129, 132),
               130: (134, 137), 140: (144, 147), 150: (155, 158)}


def test_large_clearance_holes_are_those_of_the_standard():
    """Fine and medium holes of M68 to M150 (ISO 273, from memory)."""
    rows = table("iso_273_clearance_holes").rows.values()
    assert {row["diameter_mm"]: (row["fine"], row["medium"]) for row in rows if row["diameter_mm"] > 64} == LARGE_HOLES


@pytest.mark.parametrize(("form", "least", "most"), [
    ("metric", 0.125, math.sqrt(3) / 12), ("unified", 0.108, math.sqrt(3) / 12),
    ("MJ", 0.15011, 5 * math.sqrt(3) / 48), ("UNJ", 0.15011, 5 * math.sqrt(3) / 48)])
def test_root_radii_of_60_degree_threads(form, least, most):
    """Largest root radius H/6, of J threads 5/24 H; least 0.125 P, 0.108 P and 0.15011 P (standards, from memory)."""
    row = table("thread_forms").row(form)
    assert (row["root_radius_least"], row["root_radius_most"]) == (least, round(most, 5))


def test_length_tolerances_are_those_of_js15():
    """The tolerance of a nominal length is IT15 (ISO 286-1, from memory), each range joining the one before."""
    rows = list(table("screw_lengths").rows.values())
    grades = [0.4, 0.48, 0.58, 0.7, 0.84, 1.0, 1.2, 1.4, 1.6, 1.85, 2.1, 2.3, 2.5]
    assert [row["tolerance_mm"] for row in rows] == grades
    assert [row["over_mm"] for row in rows[1:]] == [row["up_to_mm"] for row in rows[:-1]]
    assert all(numbers_of(row["length"]) == [row["up_to_mm"]] for row in rows)


def test_unified_sizes_are_those_of_their_names():
    """A number size n is 0.060 in + 0.013 in n (ASME B1.1); a fraction is itself; the threads per inch end the name."""
    for row, cells in table("unified_sizes").rows.items():
        size, threads = row.rsplit("-", 1)
        number = str(cells["size"]).removeprefix("#")
        inches = 0.060 + 0.013 * float(number) if str(cells["size"]).startswith("#") else float(sum(
            Fraction(part) for part in size.split()))
        assert cells["major_in"] == pytest.approx(inches, abs=5e-5), row
        assert cells["threads_per_inch"] == float(threads), row
