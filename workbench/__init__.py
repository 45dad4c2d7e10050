"""A workbench for mechanical fastening: its computations, drawings, panels and exercises.

What a lesson's cells call is here: `start`, `ask`, `check`, `marks`, `panel`. Nothing is loaded before it is used.
"""

_NOTEBOOK = {"start", "ask", "check", "marks", "solution", "answers"}

__all__ = sorted(_NOTEBOOK | {"panel"})


def __getattr__(name):
    if name in _NOTEBOOK:
        from workbench import answering

        return getattr(answering, name)
    if name == "panel":
        from workbench.panels import open_panel

        return open_panel
    raise AttributeError(f"module 'workbench' has no attribute {name!r}")
