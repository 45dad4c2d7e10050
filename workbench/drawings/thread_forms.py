"""Thread forms in section through the axis, to true geometry: one large with its dimensions, all small beside it.

The screw is hatched one way, the nut the other; a head would be to the left. Drawn without play: both
flanks touch, the one that carries the load is drawn heavy. In pixels of the sheet; the sizes come from
`workbench.threads.profile`. Hatching follows the outline only (ISO 128-3 allows it on large faces).
"""

from math import cos, pi, radians, sin, tan

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch, Rectangle
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.hatching import FALLING, RISING, hatching
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, SATIN, STEEL, WIDE, Sheet
from workbench.drawings.thread_section import edge, flank
from workbench.threads.profile import profile

SAID = {"metric": "metric 60°", "acme": "Acme 29°", "trapezoidal": "trapezoidal 30°",
        "buttress 3/30": "buttress 3°/30°", "buttress 7/45": "buttress 7°/45°", "square": "square"}
AXIS, LEFT, WIDEST, HIGHEST = 34.0, 84.0, 76.0, 312.0  # px: centre line, ridge 0, longest pitch, tallest nut
SMALL = (20, 4)  # mm, diameter and pitch of the small sections: all forms have this size, few have every pitch
WALL = 0.95  # of nut above the crests, x pitch
ROOM = 15.0  # px above the pitch line that its name needs below the crests
BODY = 30.0  # px of the screw's body that is hatched below the roots
START, NUT_FROM, NUT_TO, END = -0.5, 0.5, 3.5, 5.5  # pitches along the axis
_NONE = outline([(0, 0)])


def _band(line, level):
    """The face between an edge and a straight level."""
    return np.vstack([line, [(line[-1, 0], level), (line[0, 0], level)]])


class ThreadForms:
    """The forms in SAID for one diameter and pitch: `show(form, ...)` moves the picture."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        self.view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        sheet, view = self.sheet, self.view
        sheet.still(view, Line2D([12, 570], [AXIS, AXIS], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        self.faces = {of: sheet.moving(view, PathPatch(_NONE, fc=PAPER, lw=0)) for of in ("nut", "screw")}
        self.hatches = {of: sheet.moving(view, Line2D([], [], color=INK, lw=0.55 * NARROW)) for of in self.faces}
        self.edges = {of: sheet.moving(view, Line2D([], [], color=INK, lw=WIDE)) for of in self.faces}
        self.breaks = sheet.moving(view, Line2D([], [], color=INK, lw=NARROW))
        self.pitch_line = sheet.moving(view, Line2D([], [], color=INK, lw=NARROW, ls=CENTRE_LINE))
        self.contact = sheet.moving(view, Line2D([], [], color=INK, lw=4.2, solid_capstyle="butt"))
        self.load_arrow = sheet.moving(view, PathPatch(_NONE, fc=INK, lw=0))
        self._draw_small()
        self.helix = sheet.moving(view, Line2D([], [], color=INK, lw=WIDE))
        self.forces = sheet.moving(view, Line2D([], [], color=INK, lw=WIDE))
        self.dimensions = Dimensions(sheet, view)
        self._fitted = None
        self.show("metric")

    def _draw_small(self):
        """Places of the small sections, two columns of three; `cells`: lower left corners."""
        sheet, view = self.sheet, self.view
        self.cells = {form: (596 + 152 * (n % 2), 316 - 80 * (n // 2)) for n, form in enumerate(SAID)}
        for form, (x, y) in self.cells.items():
            sheet.still(view, PathPatch(words(SAID[form], x + 72, y + 65.5, 8.5), fc=INK, lw=0))
        scale, parts = 36 / SMALL[1], {"nut": [], "screw": []}
        for form, (x, y) in self.cells.items():
            one, middle = profile(form, *SMALL), y + 34
            for of, level in (("nut", middle + 23), ("screw", middle - 31)):
                line = edge(one, of, -1.5 * one.pitch_mm, 2.5 * one.pitch_mm, 4)
                line = np.column_stack([x + 56 + scale * line[:, 0],
                                        middle + scale * (line[:, 1] - one.pitch_diameter_mm / 2)])
                parts[of].append(outline(_band(line, level)))
        self.small = {of: sheet.still(view, PathPatch(Path.make_compound_path(*parts[of]), fc=shade, ec=INK, lw=NARROW))
                      for of, shade in (("nut", SATIN), ("screw", STEEL))}
        self.frame = sheet.moving(view, Rectangle((0, 0), 148, 76, fill=False, ec=INK, lw=1.6 * WIDE))
        for text, x in (("one turn unrolled", 660), ("outward push", 820)):
            sheet.still(view, PathPatch(words(text, x, 9, 8.5), fc=INK, lw=0))

    def _fit(self, major_mm, pitch_mm):
        """Another diameter or pitch: the large section anew."""
        if (major_mm, pitch_mm) == self._fitted:
            return
        self._fitted, self._sections = (major_mm, pitch_mm), {}
        self.scale = min(WIDEST / pitch_mm, (HIGHEST - AXIS) / (major_mm / 2 + WALL * pitch_mm))

    def px(self, points):
        """Pixels of points (x, r) in mm."""
        return np.asarray(points) * self.scale + (LEFT, AXIS)

    def show(self, form, major_mm=20.0, pitch_mm=4.0, starts=1, away=True, figures=True, loaded=False):
        """Show a form. away: the load pushes the nut to the right (else to the left).

        figures=False leaves values, load and starts out, so that the section may stand beside a question; loaded=True
        then shows load and flank angles, and no sizes.
        """
        self._fit(major_mm, pitch_mm)
        self.shown, self.side = profile(form, major_mm, pitch_mm, starts), "load" if away else "clearance"
        one, pitch = self.shown, pitch_mm
        x, y = self.cells[form]
        self.frame.set_xy((x - 2, y))
        self._show_faces(one, pitch)
        middle = AXIS + one.pitch_diameter_mm / 2 * self.scale
        (left, _), (right, _) = self.px([(START * pitch, 0), (END * pitch, 0)])
        self.pitch_line.set_data([left - 14, right + 14], [middle, middle])
        self.pitch_line.set_visible(figures or not loaded)
        pieces = []
        for ridge in (1, 2, 3):
            pieces += [*self.px(flank(one, self.side, [one.nut_minor_mm / 2, one.major_mm / 2], ridge)),
                       (np.nan, np.nan)]
        self.contact.set_data(*(np.array(pieces) if figures or loaded else np.full((1, 2), np.nan)).T)
        self.alone, self.loaded = not figures, figures or loaded
        self._show_load(one, away)
        marks = self.dimensions
        marks.clear()
        self._dimension(one, figures)
        if figures:
            self._show_starts(one)
            self._show_triangles(one)
        marks.show()

    def _show_faces(self, one, pitch):
        if one.form not in self._sections:  # kept until diameter or pitch change
            self._sections[one.form] = self._section(one, pitch)
        faces, hatches, edges, torn, self.top, self.root = self._sections[one.form]
        for of in faces:
            self.faces[of].set_path(faces[of])
            self.hatches[of].set_data(*hatches[of])
            self.edges[of].set_data(*edges[of])
        self.breaks.set_data(*torn)

    def _section(self, one, pitch):
        """Faces, hatching and edges of nut and screw, break lines, heights of the nut's wall and the screw's root."""
        top = AXIS + (one.major_mm / 2 + WALL * pitch) * self.scale
        screw = self.px(edge(one, "screw", START * pitch, END * pitch))
        nut = self.px(edge(one, "nut", NUT_FROM * pitch, NUT_TO * pitch))
        root = screw[:, 1].min()
        along = np.linspace(screw[0, 0], screw[-1, 0], 121)
        freehand = np.column_stack([along, root - BODY + 1.6 * np.sin((along - along[0]) / 11)])
        faces = {"nut": _band(nut, top), "screw": np.vstack([screw, freehand[::-1]])}
        edges = {"nut": np.vstack([faces["nut"], faces["nut"][:1]]).T, "screw": screw.T}
        hatches = {of: hatching(faces[of], 7.5, way) for of, way in (("nut", FALLING), ("screw", RISING))}
        wave, torn = np.linspace(0, 1, 21), []
        for x, height in (screw[0], screw[-1]):
            torn += [*zip(x + 3 * np.sin(4 * pi * wave), AXIS - 12 + (height - AXIS + 12) * wave, strict=True),
                     (np.nan, np.nan)]
        torn += [*map(tuple, freehand)]  # a part section ends in a freehand line (ISO 128-3)
        return {of: outline(face) for of, face in faces.items()}, hatches, edges, np.array(torn).T, top, root

    def _show_load(self, one, away):
        """The arrow F on the nut's face."""
        if not self.loaded:
            self.load_arrow.set_path(_NONE)
            return
        (left, _), (right, _) = self.px([(NUT_FROM * one.pitch_mm, 0), (NUT_TO * one.pitch_mm, 0)])
        at, way = (left, -1) if away else (right, 1)
        y = self.top - 11  # clear of the angles
        self.load_arrow.set_path(outline([
            (at, y), (at + way * 20, y + 8), (at + way * 20, y + 3), (at + way * 46, y + 3), (at + way * 46, y - 3),
            (at + way * 20, y - 3), (at + way * 20, y - 8)]))
        self._load_at = (at + way * 34, y + 15)

    def _dimension(self, one, figures):
        marks, pitch, scale = self.dimensions, one.pitch_mm, self.scale

        def sized(symbol, value):
            return f"{symbol} = {value:.4g}" if figures else symbol

        if self.loaded:
            marks.word("F", *self._load_at, height=11)
        (left, crest), (bore_x, bore), (root_x, root) = self.px([
            (0, one.major_mm / 2), (NUT_FROM * pitch, one.nut_minor_mm / 2), (END * pitch, one.screw_minor_mm / 2)])
        if figures or not self.loaded:
            marks.up(bore, crest, left - 0.5 * pitch * scale - 22, sized("H₁", one.engagement_mm), bore_x - 1,
                     left - one.pitch_mm / 8 * scale)
            marks.up(root, crest, root_x + 74, sized("h₃", one.screw_depth_mm), root_x + 4,
                     root_x - 0.45 * pitch * scale)
            middle = AXIS + one.pitch_diameter_mm / 2 * scale
            if crest - middle > ROOM:
                marks.word("pitch line", root_x + 4, middle + 9, "left", 8)
            else:  # below the thread, clear of the arrows of h3
                marks.leader((root_x + 12, middle), (root_x + 20, root - 38), "pitch line")
        # both stand in one groove, one above the other
        if not self.loaded:
            return
        for ridge, side, over, aside in ((5, "load", 40, 4), (4, "clearance", 22, -12)):
            angle = one.flank_deg(side)
            (x, y), (far_x, far_y) = self.px(flank(one, side, [one.pitch_diameter_mm / 2, one.major_mm / 2], ridge))
            radius = crest - y + over
            lean = radians(angle) * (1 if side == "load" else -1)
            marks.line((x, y), (x, y + radius + 4))
            marks.line((far_x, far_y), (x + (radius + 4) * sin(lean), y + (radius + 4) * cos(lean)))
            span = (90 - angle, 90) if side == "load" else (90, 90 + angle)
            marks.angle(x, y, radius, *span, f"{angle:g}°", (aside, 13))

    def _show_starts(self, one):
        """Numbers under the ridges, one for each start; the lead from the first start to itself; the pitch."""
        marks, y = self.dimensions, self.root - BODY - 12
        for ridge in range(0, 6):
            x = LEFT + ridge * one.pitch_mm * self.scale
            marks.word(str(ridge % one.starts + 1), x, y, height=8.5)
        step = one.pitch_mm * self.scale
        marks.across(LEFT, LEFT + one.starts * step, y - 34, f"lead = {one.lead_mm:.4g}", y - 8, y - 8)
        marks.across(LEFT + 4 * step, LEFT + 5 * step, y - 34, f"P = {one.pitch_mm:.4g}", y - 8, y - 8)
        marks.word("start", LEFT - 0.5 * one.pitch_mm * self.scale - 8, y, "right", 8)

    def _show_triangles(self, one):
        marks, left, base = self.dimensions, 598.0, 38.0
        wide = 118.0
        rise = wide * tan(radians(one.lead_angle_deg))
        self.helix.set_data([left, left + wide, left + wide, left], [base, base, base + rise, base])
        marks.word("π d₂", left + wide / 2, base - 10)
        marks.word("lead", left + wide + 5, base + rise / 2, "left")
        marks.word(f"{one.lead_angle_deg:.2f}°", left + 4, base + 0.25 * rise + 22, "left")
        left, along = 770.0, 84.0
        out = along * tan(radians(one.flank_deg(self.side)))
        marks.word("F", left + along / 2, base - 10)
        self.forces.set_data([left, left + along, left + along], [base, base, base + out])
        marks.line((left, base), (left + along, base + out))
        marks.arrow(left + along, base, 0)
        if out > 14:
            marks.arrow(left + along, base + out, pi / 2)
        marks.word("out" if out else "none", left + along + 6, base + out / 2, "left", 8.5)

    def png(self):
        """The picture as PNG bytes; beside a question the section alone."""
        return self.sheet.png((0, 0, 592, 400) if self.alone else None)

    def text(self):
        """What is drawn, in words, without sizes that could be asked for."""
        one = self.shown
        thread = "one start" if one.starts == 1 else f"{one.starts} starts"
        section = (f"Section through screw and nut, {SAID[one.form]} form, {one.major_mm:g} mm over the crests, pitch "
                   f"{one.pitch_mm:g} mm")
        if self.alone and self.loaded:
            way = "right" if self.side == "load" else "left"
            return (f"{section}. The load F pushes the nut to the {way}; "
                    f"the flanks of {one.flank_deg(self.side):g}° carry it.")
        if self.alone:
            return (f"{section}. H₁ is the depth that screw and nut share, h₃ the depth of the screw's thread.")
        way, faces = ("right", "left") if self.side == "load" else ("left", "right")
        return (f"{section}, {thread}. The load F pushes the nut to the {way}; the flanks of the screw "
                f"that face {faces} carry it. Beside it, small, all forms: {', '.join(SAID.values())}; one "
                "turn unrolled as a triangle; the load and its outward push as arrows.")


def picture(form, major_mm=20.0, pitch_mm=4.0, starts=1, away=True, figures=False, loaded=False):
    """A still for a question: (PNG bytes, alternative text); dimensions carry letters, or values with `figures`."""
    drawing = ThreadForms()
    drawing.show(form, major_mm, pitch_mm, starts, away, figures, loaded)
    return drawing.png(), drawing.text()
