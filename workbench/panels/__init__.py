"""Panels: a drawing that the apprentice predicts, then moves. They wire, nothing else.

`open_panel("first_fit")` builds the panel of that name; it draws nothing before a prediction is committed.
`open_panel("screw_words")` gives a still: a picture alone.
"""

from importlib import import_module

from workbench.panels.still import STILLS, Still

PANELS = {  # name: module of this package that holds the function of that name
    "first_fit": "first_fit",
    "measuring_screw": "measuring_screw",
    "measuring_screw_board": "measuring_screw_board",
    "call_out": "call_out",
    "thread_forms": "thread_forms",
    "thread_zones": "thread_zones",
    "nut_halves": "nut_halves",
    "pin_stack": "pin_stack",
    "rivet_clock": "rivet_clock",
    "batch_plan": "batch_plan",
    "rivet_row": "rivet_row",
    "rivet_selection": "rivet_selection",
    "slotted_nut": "slotted_nut",
    "inclined_thread": "inclined_thread",
    "joint_diagram": "joint_diagram",
    "torque_scatter": "torque_scatter",
    "three_wires": "three_wires",
    "blind_rivet_setting": "blind_rivet_setting",
    "break_even": "break_even",
}


def open_panel(name):
    """The panel or still of that name, ready to be shown. Refuses an unknown name with the nearest ones."""
    name = str(name)
    if name in STILLS:
        return Still(name)
    if name not in PANELS:
        from difflib import get_close_matches

        nearest = get_close_matches(name[:60], [*PANELS, *STILLS], n=3, cutoff=0.3) or sorted(PANELS)
        raise ValueError(f"panel {name[:60]!r}: there is none of that name; nearest: {', '.join(nearest)}")
    return getattr(import_module(f"workbench.panels.{PANELS[name]}"), name)()
