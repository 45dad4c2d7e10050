"""A nut in two halves closing on its screw, in section through the axis, and one ridge enlarged.

Left: screw and both halves to scale; each half stands out from its seat by an opening, and the screw may stand wrong
along the axis. The screw is whole (ISO 128-3: shafts are not cut lengthwise); below the axis its ridges stand half a
pitch further. Right: one ridge cut, with the flanks' play. Outlines come from `workbench.threads.profile`; a worn nut's
grooves are wider by the play.
"""

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.hatching import FALLING, RISING, hatching
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, SATIN, STEEL, WIDE, Sheet
from workbench.drawings.thread_section import edge

AXIS, MIDDLE, PX = 212.0, 300.0, 8.0  # px: the screw's axis, middle of the nut; a mm
DETAIL, DETAIL_PX, DETAIL_FOOT = 735.0, 52.0, 130.0  # px: middle of the enlarged ridge, a mm, its root
TURNS, BODY = 6, 44.0  # ridges in the nut; px of nut beyond its grooves
_NONE = outline([(0, 0)])


def _worn(points, pitch_mm, play_mm):
    """The nut's outline with each groove wider by the play: every point moves away from the groove's middle."""
    x, r = points.T
    groove = np.round(x / pitch_mm) * pitch_mm
    return np.column_stack([x + np.sign(x - groove) * play_mm / 2, r])


class NutHalves:
    """One drawing for all forms: `show(...)` moves it."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        self.close = close = self.sheet.view(590, 40, 290, 330, 1, 590, 40)
        moving, still = self.sheet.moving, self.sheet.still
        self.screw = moving(view, PathPatch(_NONE, fc=STEEL, ec=INK, lw=WIDE))
        self.halves = moving(view, PathPatch(_NONE, fc=SATIN, ec=INK, lw=WIDE))
        self.helix = moving(view, Line2D([], [], color=INK, lw=NARROW))
        self.hatch = moving(view, Line2D([], [], color=INK, lw=0.55 * NARROW))
        moving(view, Line2D([30, 575], [AXIS, AXIS], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        self.ridge = moving(close, PathPatch(_NONE, fc=STEEL, ec=INK, lw=WIDE))
        self.groove = moving(close, PathPatch(_NONE, fc=SATIN, ec=INK, lw=WIDE))
        self.close_hatch = moving(close, Line2D([], [], color=INK, lw=0.55 * NARROW))
        for text, x in (("screw, and two halves cut through the axis", MIDDLE), ("one ridge, enlarged", DETAIL)):
            still(view, PathPatch(words(text, x, 14), fc=INK, lw=0))
        self.dimensions = Dimensions(self.sheet, view)

    def show(self, thread, out_mm, wrong_mm, play_mm):
        """Show a Profile: each half out_mm from its seat (below 0: closed further), the screw standing wrong_mm along
        the axis, the grooves of the nut worn wider by play_mm."""
        self.thread, self.out_mm, self.wrong_mm, self.play_mm = thread, out_mm, wrong_mm, play_mm
        self.dimensions.clear()
        self._show_whole()
        self._show_ridge()
        self.dimensions.show()

    def _show_whole(self):
        one, pitch = self.thread, self.thread.pitch_mm
        left, right = -(TURNS / 2) * pitch - pitch / 2, (TURNS / 2) * pitch + pitch / 2
        sides, lines, rims = [], [], []
        for side, ahead in ((1, 0.0), (-1, pitch / 2)):  # one start: half a turn is half a pitch
            screw = edge(one, "screw", left - pitch - ahead, right + pitch - ahead) + (self.wrong_mm + ahead, 0)
            nut = _worn(edge(one, "nut", left - ahead, right - ahead), pitch, self.play_mm) + (ahead, 0)
            rims.append(np.column_stack([MIDDLE + PX * screw[:, 0], AXIS + side * PX * screw[:, 1]]))
            bottom = np.column_stack([MIDDLE + PX * nut[:, 0], AXIS + side * PX * (nut[:, 1] + self.out_mm)])
            back = AXIS + side * (PX * (one.nut_major_mm / 2 + self.out_mm) + BODY)
            half = [*bottom, (bottom[-1, 0], back), (bottom[0, 0], back)]
            sides.append(outline(half))
            lines.append(hatching(half, 8, FALLING))
        self.halves.set_path(Path.make_compound_path(*sides))
        self.screw.set_path(outline(np.vstack([rims[0], rims[1][::-1]])))
        self._show_helix(rims[0], rims[1])
        self.hatch.set_data(*np.concatenate(lines, axis=1))
        marks = self.dimensions
        edge_px = MIDDLE + PX * right
        if self.out_mm:
            seat = AXIS + PX * one.nut_major_mm / 2 + BODY
            way = f"{self.out_mm:+g}".replace("-", "−")
            marks.up(seat, seat + PX * self.out_mm, edge_px + 20, way, edge_px, edge_px)
        for way in (1, -1):
            marks.word("half of the nut", MIDDLE, AXIS + way * (PX * (one.nut_major_mm / 2 + self.out_mm) + BODY + 12))

    def _show_helix(self, above, below):
        """Edges of the crests across the screw's near side, as straight lines: half a pitch on, right-handed."""
        on, end = PX * self.thread.pitch_mm / 2, below[:, 0].max()
        crest, low = above[:, 1].max(), below[:, 1].min()
        begin = above[np.isclose(above[:, 1], crest), 0]
        pieces = [[(x, crest), (x + on, low), (np.nan, np.nan)] for x in begin if x + on <= end]
        self.helix.set_data(*np.concatenate(pieces).T)

    def _show_ridge(self):
        one, pitch = self.thread, self.thread.pitch_mm
        root = one.screw_minor_mm / 2

        def at(points, lift=0.0):
            return np.column_stack([DETAIL + DETAIL_PX * points[:, 0],
                                    DETAIL_FOOT + DETAIL_PX * (points[:, 1] + lift - root)])

        ridge = at(edge(one, "screw", -1.5 * pitch, 1.5 * pitch) + (self.wrong_mm, 0))
        groove = at(_worn(edge(one, "nut", -1.5 * pitch, 1.5 * pitch), pitch, self.play_mm), self.out_mm)
        screw = [*ridge, (ridge[-1, 0], 40), (ridge[0, 0], 40)]
        nut = [*groove, (groove[-1, 0], 600), (groove[0, 0], 600)]
        self.ridge.set_path(outline(screw))
        self.groove.set_path(outline(nut))
        self.close_hatch.set_data(*np.concatenate([hatching(screw, 12, RISING), hatching(nut, 12, FALLING)], axis=1))

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        way = "on its seat"
        if self.out_mm:
            way = f"{abs(self.out_mm):g} mm {'out from' if self.out_mm > 0 else 'further in than'} its seat"
        wrong = f", the screw standing {self.wrong_mm:g} mm wrong" if self.wrong_mm else ""
        return (f"A screw {self.thread.major_mm:g} × {self.thread.pitch_mm:g} of the form {self.thread.form} between "
                f"two halves of a nut in section, each half {way}{wrong}. Beside it one ridge enlarged, in a groove "
                f"worn wider by {self.play_mm:g} mm.")
