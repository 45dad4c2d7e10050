"""Stills: a picture that a lesson shows without a question and without controls."""

import base64
import html
from importlib import import_module

STILLS = {  # name: drawing, its arguments
    "screw_words": ("measuring_screw_words", {"gap": 12.84, "work": 12.84}),
    "thread_triangle": ("thread_triangle", {}),
    "rivet_head_marks": ("rivet_head_marks", {}),
    "blind_rivet_set": ("blind_rivet", {"body_mm": 4, "length_mm": 10, "stack_mm": 5.5}),
    "blind_rivet_words": ("blind_rivet", {"body_mm": 4, "length_mm": 10, "stack_mm": 5.5, "sawn": False}),
    "solid_rivet_words": ("solid_rivet_words", {}),
    "lock_wire_heads": ("lock_wire_heads", {}),
}


class Still:
    """A picture of that name; it is drawn when it is shown, and never in a marking run."""

    def __init__(self, name):
        self.drawing, self.arguments = STILLS[name]

    def picture(self):
        """PNG bytes and the text equivalent."""
        return import_module(f"workbench.drawings.{self.drawing}").picture(**self.arguments)

    def _repr_mimebundle_(self, include=None, exclude=None):
        from workbench import session

        if session.current().marking:
            return {"text/plain": "A picture."}
        png, text = self.picture()
        data = base64.b64encode(png).decode()
        return {
            "text/plain": text,
            "text/html": f'<img src="data:image/png;base64,{data}" alt="{html.escape(text)}" style="max-width:100%">',
        }
