"""How long a panel takes from a move to the finished picture, on the kernel's side, at 900 x 400 pixels.

Run as `python -m tests.benchmarks.panels`. A move goes through the board as a browser's does: the values
change, the panel answers with a picture. Beside it, in the same run, the time to draw a new figure of the
same kind. Refuses to report unless all pictures differ, have the asked size, and no move made a Figure.
The last line is JSON: {"panels": {name: {"median_ms", "p95_ms", "new_figure_median_ms", "ratio", "cpu_median_ms",
"cpu_ratio"}}}: on a machine with nothing else to do the medians are close to the processor's times.
"""

import json
import struct
from importlib import import_module
from statistics import median, quantiles
from time import perf_counter, process_time

from matplotlib.figure import Figure

from workbench.panels import open_panel
from workbench.panels.thread_forms import FORMS, SIZES, WAYS
from workbench.panels.torque_scatter import TOOLS

MOVES, NEW_FIGURES = 200, 25


def _measuring_screw():
    from workbench.drawings.measuring_screw import MeasuringScrew

    return MeasuringScrew()


def _feed_dial():
    from workbench.drawings.feed_dial import FeedDial

    return FeedDial()


def _drawing(module, name):
    def new():
        return getattr(import_module(f"workbench.drawings.{module}"), name)()

    return new


def _form(n):
    """Each move another form, load, size or number of starts: 6 x 2 x 4 x 5 places."""
    return {"form": tuple(FORMS)[n % 6], "load": WAYS[n // 6 % 2], "starts": 1 + n // 12 % 4,
            "size": tuple(SIZES)[n // 48 % 5]}


def _zones(n):
    """Each move another pair: 4 screws x 3 nuts x 17 sizes."""
    return {"size": f"M{DIAMETERS[n // 12 % 17]}", "screw": ("6g", "6h", "6e", "4h")[n % 4],
            "nut": ("6H", "5H", "6G")[n // 4 % 3]}


def _wires(n):
    """Each move another wire, thread or form: 10 wires x 4 diameters x 2 pitches x 3 forms."""
    return {"form": ("metric 60°", "Acme 29°", "trapezoidal 30°")[n // 80 % 3], "pitch_mm": ("3", "4")[n // 40 % 2],
            "major_mm": (20, 24, 30, 36)[n // 10 % 4], "thicker_mm": round(0.01 * (n % 10), 2)}


def _seam(n):
    """Another pitch, edge, sheet or rivet: 50 pitches x 2 edges x 2 rivets."""
    return {"diameter": ("4", "5")[n // 100 % 2], "thickness": 1.0, "pitch": 10 + n % 50,
            "edge": (8, 12)[n // 50 % 2]}


def _rivet_row():
    from workbench.drawings.rivet_row import RivetRow
    from workbench.panels.rivet_row import START, seam_of

    drawing = RivetRow()
    drawing.show(seam_of(START), 4.0)
    return drawing


def _joint(n):
    """Another load or preload: 50 loads x 4 preloads."""
    return {"preload": 10 + 6 * (n // 50), "load": n % 50, "grip": 40, "parts": "steel"}


def _joint_diagram():
    from workbench.drawings.joint_diagram import JointDiagram
    from workbench.panels.joint_diagram import START, springs_of

    drawing = JointDiagram()
    drawing.show(START["grip"], springs_of(START), 24, 8, 17.6, 25.6)
    return drawing


def _torque(n):
    """Another torque, surface or class: 67 torques x 3 surfaces."""
    return {"torque": 10 + n % 67, "surface": ("waxed", "oiled", "dry")[n // 67], "class": "8.8",
            "tool": next(iter(TOOLS))}


def _torque_scatter():
    from workbench.drawings.torque_scatter import TorqueScatter

    drawing = TorqueScatter()
    drawing.show(32, 0.04, (1.17, 1.63, 2.10), (0.08, 0.12, 0.16), 31.1, range(15, 25))
    return drawing


def _nut(n):
    """Another turn, thread or grip: 8 turns x 5 threads x 5 grips."""
    return {"joint": "clamped: holds still", "thread": ("M8", "M10", "M12", "M16", "M20")[n // 8 % 5],
            "grip": 100 + 2 * (n // 40), "turn": n % 8}


def _slotted_nut():
    from workbench.drawings.slotted_nut import SlottedNut

    drawing = SlottedNut()
    drawing.show("M12", 22, 0, 29000, (29000, 36000, 54000), 2000)
    return drawing


def _stack(n):
    """Another place of the hole or stack: 40 places x 5 thicknesses."""
    return {"parts": 20 + n // 40, "washers": 1, "place": 24 + 0.5 * (n % 40), "tolerance": 0}


def _pin_stack():
    from workbench.drawings.pin_stack import PinStack

    drawing = PinStack()
    drawing.show(22, 2.5, 2.5, 37, 50, True)
    return drawing


def _setting(n):
    """Another pull, stack or hole: 21 pulls x 5 stacks x 2 holes."""
    return {"rivet": "4 × 12", "stack": 6.5 + 0.5 * (n // 21 % 5), "over": (0.1, 0.2)[n // 105], "pulled": 5 * (n % 21)}


def _blind_rivet():
    from workbench.drawings.blind_rivet import BlindRivetSetting
    from workbench.rivets.setting import blind_rivet, set_rivet

    drawing, rivet = BlindRivetSetting(), blind_rivet("ISO 15977", 4, 12)
    drawing.show(rivet, 7.5, 4.1, set_rivet(rivet, 7.5, 4.1, 0.5))
    return drawing


def _lines(n):
    """Another price or pace: 30 prices x 7 paces."""
    return {"price": 150 + 50 * (n % 30), "seconds": 6 + n // 30, "rate": 40,
            "workers": open_panel("break_even").values["workers"]}


def _break_even():
    from workbench.drawings.break_even import BreakEven

    drawing = BreakEven()
    drawing.show((30, 0.28), (500, 0.19), 5222)
    return drawing


def _ramp(n):
    """Another friction, number of starts or size: 25 coefficients x 4 starts x 2 sizes."""
    return {"form": "trapezoidal 30°", "size": tuple(SIZES)[2 + n // 100], "starts": 1 + n // 25 % 4,
            "friction": round(0.05 + 0.01 * (n % 25), 2)}


def _inclined_thread():
    from workbench.drawings.inclined_thread import InclinedThread

    drawing = InclinedThread()
    drawing.show(56.5, 4, 7.1, 5)
    return drawing


def _halves(n):
    """Another opening, form or wear: 50 openings x 4 forms."""
    return {"form": ("trapezoidal 30°", "Acme 29°", "buttress 3°/30°", "square")[n // 50],
            "out": round(0.08 * (n % 50), 2), "wrong": 0, "play": 0.1}


def _nut_halves():
    from workbench.drawings.nut_halves import NutHalves
    from workbench.threads.profile import profile

    drawing = NutHalves()
    drawing.show(profile("trapezoidal", 20, 4), 0, 0, 0.1)
    return drawing


def _rivet(n):
    """Another pair of sheets: 20 upper x 10 lower."""
    return {"upper": round(1 + 0.1 * (n % 20), 1), "lower": round(2 + 0.1 * (n // 20), 1), "load": 500,
            "needs": "head may stand up"}


def _rivet_selection():
    from workbench.drawings.rivet_selection import RivetSelection
    from workbench.rivets.selection import Job, select

    drawing = RivetSelection()
    drawing.show(select(Job((1.0, 1.6), load_n=500)).rivet, (1.0, 1.6), 6.0)
    return drawing


def _night(n):
    """Another pointer: 200 minutes."""
    return {"document": "Navy manual", "warm": 6, "out": 20, "pointer": n - 25}


def _rivet_clock():
    from workbench.drawings.rivet_clock import RivetClock

    drawing = RivetClock(-30, 180, str)
    drawing.show([(f"row {n}", [(-30, 40, "usable"), (40, 90, "doubtful"), (90, 180, "hard")], (0, 30), "hard")
                  for n in range(4)], 20)
    return drawing


def _baskets(n):
    """Another rate or life: 10 rates x 20 lives."""
    return {"large": 200, "small": 130, "rate": 30 + 5 * (n // 20), "life": 5 + n % 20}


def _batch_plan():
    from workbench.drawings.batch_plan import BatchPlan

    drawing = BatchPlan(1200, 1800, (1320, 1800), str)
    drawing.show([(1260, 200, 0, 1800), (1500, 130, 0, 1800), (1620, 120, 10, 1800)])
    return drawing


DIAMETERS = (3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 27, 30, 36, 42)

# panel: (prediction, values of the n-th move, a new figure of the same kind)
CASES = {
    "measuring_screw": ("0.65 mm", lambda n: {"turns": n // 40, "divisions": n % 40}, _measuring_screw),
    "first_fit": ("B", lambda n: {"turns": 0, "divisions": n % 50} if n < 50 else
                  {"turns": 1, "divisions": n % 50}, _measuring_screw),
    "measuring_screw_board": ("0.04", lambda n: {"pitch_mm": 2, "starts": 1 + n % 2, "dial": 100, "turned": n},
                              _feed_dial),
    "call_out": ("30", lambda n: {"call_out": f"M{(8, 10, 12, 16)[n % 4]}x{60 + n}"}, _drawing("call_out", "CallOut")),
    "thread_forms": ("300 N", _form, _drawing("thread_forms", "ThreadForms")),
    "thread_zones": ("30", _zones, _drawing("thread_zones", "ThreadZones")),
    "rivet_row": ("A", _seam, _rivet_row),
    "joint_diagram": ("32", _joint, _joint_diagram),
    "torque_scatter": ("1.2", _torque, _torque_scatter),
    "slotted_nut": ("38", _nut, _slotted_nut),
    "pin_stack": ("37", _stack, _pin_stack),
    "blind_rivet_setting": ("below", _setting, _blind_rivet),
    "break_even": ("500", _lines, _break_even),
    "inclined_thread": ("2", _ramp, _inclined_thread),
    "nut_halves": ("0.1", _halves, _nut_halves),
    "rivet_selection": ("8", _rivet, _rivet_selection),
    "rivet_clock": ("34", _night, _rivet_clock),
    "batch_plan": ("10", _baskets, _batch_plan),
    "three_wires": ("0.1", _wires, _drawing("three_wires", "ThreeWires")),
}


def _time(act):
    begin = perf_counter()
    act()
    return 1000 * (perf_counter() - begin)


def measure(name):
    """The figures of one panel."""
    prediction, place, new_drawing = CASES[name]
    moves = 100 if name == "first_fit" else MOVES  # the pin leaves no more room
    panel = open_panel(name)
    panel.commit(prediction)
    made, pictures = [], set()
    times, work, news, new_work = [], [], [], []
    begin = Figure.__init__

    def counted(figure, *arguments, **options):
        made.append(figure)
        begin(figure, *arguments, **options)

    for n in range(moves):
        values, spent = place(n), process_time()
        Figure.__init__ = counted
        try:
            times.append(_time(lambda values=values: setattr(panel, "values", values)))
        finally:
            Figure.__init__ = begin
        work.append(1000 * (process_time() - spent))
        pictures.add(panel.picture)
        if n % (moves // NEW_FIGURES) == 0:  # in turns, so that a busy machine slows both alike
            spent = process_time()
            news.append(_time(lambda: new_drawing().png()))
            new_work.append(1000 * (process_time() - spent))
    assert not panel.fault, panel.fault
    assert len(pictures) == moves, f"{name}: {len(pictures)} pictures of {moves} moves differ"
    assert not made, f"{name}: {len(made)} moves made a Figure"
    assert struct.unpack(">II", panel.picture[16:24]) == (900, 400)
    new, middle = median(news), median(times[1:])
    return {"median_ms": round(middle, 2), "p95_ms": round(quantiles(times[1:], n=20)[-1], 2),
            "new_figure_median_ms": round(new, 2), "ratio": round(middle / new, 3),
            "cpu_median_ms": round(median(work[1:]), 2), "cpu_ratio": round(median(work[1:]) / median(new_work), 3)}


def main():
    """Measure all panels, print a table, then the JSON line."""
    figures = {name: measure(name) for name in CASES}
    for name, row in figures.items():
        print(f"{name:24}", *(f"{key} {value:8}" for key, value in row.items()))
    print(json.dumps({"panels": figures}))


if __name__ == "__main__":
    main()
