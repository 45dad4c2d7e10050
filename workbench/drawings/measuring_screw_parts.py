"""The parts of a measuring screw that carry no scale: frame and anvil, lock, thimble's rear, work piece.

Lengths in mm, x = 0 at the sleeve's zero line. Sizes: common practice, no source.
"""

from math import sqrt

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import Circle, PathPatch, Rectangle
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.hatching import hatching
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, SHADE, STEEL, WIDE

SLEEVE_LEFT = -5.0
HUB_FACE = SLEEVE_LEFT - 11.0
FACE_RADIUS = 3.25  # of anvil and spindle: 6.5 mm faces
ARM_BOTTOM = -15.2


def _arm(left, right, top, foot_left, foot_right):
    """An arm of the frame: a rounded head that runs down to the break line (wavy: the bow is left out)."""
    corner, wave = 2.0, np.linspace(0, 1, 13)
    head = [(foot_left, ARM_BOTTOM), (foot_left, -9), (left, -top + 1), (left, top - corner), (left, top),
            (left + corner, top), (right - corner, top), (right, top), (right, top - corner), (right, -top + 1),
            (foot_right, -9), (foot_right, ARM_BOTTOM)]
    codes = [Path.MOVETO, Path.LINETO, Path.LINETO, Path.LINETO, Path.CURVE3, Path.CURVE3, Path.LINETO,
             Path.CURVE3, Path.CURVE3, Path.LINETO, Path.LINETO, Path.LINETO]
    x = foot_right + (foot_left - foot_right) * wave
    y = ARM_BOTTOM + 0.55 * np.sin(2 * np.pi * wave)
    return Path(head, codes), Path(np.column_stack([x, y]))


def draw_frame(sheet, view, anvil):
    """Anvil, both arms of the frame, hub with lock, and the centre line."""
    for arm, broken in (_arm(anvil - 14, anvil - 5, 6.2, anvil - 14, anvil - 5.5),
                        _arm(HUB_FACE, SLEEVE_LEFT, 7.4, HUB_FACE + 0.5, SLEEVE_LEFT - 2)):
        whole = Path(np.vstack([arm.vertices, broken.vertices]), np.concatenate(
            [arm.codes, np.full(len(broken.vertices), Path.LINETO, dtype=Path.code_type)]))
        sheet.still(view, PathPatch(whole, fc=SHADE, lw=0))
        sheet.still(view, PathPatch(arm, fill=False, ec=INK, lw=WIDE))
        sheet.still(view, PathPatch(broken, fill=False, ec=INK, lw=NARROW))
    sheet.still(view, Rectangle((anvil - 5, -FACE_RADIUS), 5, 2 * FACE_RADIUS, fc=STEEL, ec=INK, lw=WIDE))
    lock = (HUB_FACE + SLEEVE_LEFT) / 2
    lever = outline([(lock - 0.9, 0), (lock + 0.9, 0), (lock + 2.0, 5.6), (lock + 0.6, 5.9)])
    sheet.still(view, PathPatch(lever, fc=STEEL, ec=INK, lw=NARROW))
    sheet.still(view, Circle((lock, 0), 2.3, fc=STEEL, ec=INK, lw=NARROW))
    sheet.still(view, Circle((lock, 0), 0.9, fill=False, ec=INK, lw=NARROW))
    sheet.still(view, Line2D([anvil - 17, HUB_FACE], [0, 0], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))


def rear_transform(slide, view):
    """The rear of the thimble travels as one piece with the slide."""
    return slide + view.transData


def draw_rear(sheet, view, radius, bevel, length, moving):
    """What travels without turning into view: bevel line, knurling, ratchet stub, centre line."""
    ratchet = outline([(length, 4.2), (length + 9, 4.2), (length + 9, -4.2), (length, -4.2)])
    sheet.moving(view, PathPatch(ratchet, fc=STEEL, ec=INK, lw=WIDE, transform=moving))
    fine = []
    for y in np.linspace(-3.6, 3.6, 9):
        fine += [(length + 2.5, y), (length + 8, y), (np.nan, np.nan)]
    left, right, half = bevel + 16, length - 3, radius
    for x in np.arange(left - 2 * half, right, 1.5):  # crossed knurling, drawn over a band
        for way in (1, -1):
            ends = [(max(x, left), min(x + 2 * half, right))]
            fine += [(end, way * (end - x - half)) for end in ends[0]] + [(np.nan, np.nan)]
    fine += [(left, -half), (left, half), (np.nan, np.nan), (right, -half), (right, half), (np.nan, np.nan),
             (bevel, -half), (bevel, half)]
    x, y = zip(*fine, strict=True)
    sheet.moving(view, Line2D(x, y, color=INK, lw=0.55 * NARROW, transform=moving))
    sheet.moving(view, Line2D([length + 9.8, length + 14], [0, 0], color=DIMENSION, lw=NARROW, transform=moving))


def _draw_ring(sheet, view, anvil, size_mm):
    """A ring cut along its axis, which stands upright: two hatched walls, the bore between them."""
    half, wall = 5.0, min(0.25 * size_mm, 3.0)
    parts = [Rectangle((anvil, -half), size_mm, 2 * half, fc="white", ec=INK, lw=WIDE)]
    for left in (anvil, anvil + size_mm - wall):
        corners = [(left, -half), (left + wall, -half), (left + wall, half), (left, half)]
        parts += [PathPatch(outline(corners), fill=False, ec=INK, lw=WIDE),
                  Line2D(*hatching(corners, 0.8), color=INK, lw=0.6 * NARROW)]
    for part in parts:
        part.set(gid="work", zorder=3)
        sheet.still(view, part)


def draw_work(sheet, view, anvil, size_mm, ring=False):
    """The work piece against the anvil, in section (hatched): a ring, else round up to 18 mm, above that a plate."""
    for artist in [artist for artist in view.get_children() if artist.get_gid() == "work"]:
        artist.remove()
    if size_mm is None:
        sheet.forget_background()
        return
    if ring:
        _draw_ring(sheet, view, anvil, size_mm)
        return
    middle, height = anvil + size_mm / 2, min(size_mm, 12.0) / 2
    if size_mm <= 18:
        radius = size_mm / 2
        sheet.still(view, Circle((middle, 0), radius, fc="white", ec=INK, lw=WIDE, gid="work", zorder=3))
        chord = [(c, sqrt(max(2 * radius**2 - c**2, 0)) / 2) for c in np.arange(-1.4 * radius, 1.4 * radius, 1.1)]
        hatch = [[(c / 2 - t, c / 2 + t), (c / 2 + t, c / 2 - t)] for c, t in chord if t]
    else:
        sheet.still(view, Rectangle((anvil, -height), size_mm, 2 * height, fc="white", ec=INK, lw=WIDE, gid="work",
                                    zorder=3))
        hatch = []
        for c in np.arange(-height, size_mm + height, 1.6):  # lines x + y = c
            low, high = max(0, c - height), min(size_mm, c + height)
            hatch.append([(low - size_mm / 2, c - low), (high - size_mm / 2, c - high)])
    for (x1, y1), (x2, y2) in hatch:
        sheet.still(view, Line2D([middle + x1, middle + x2], [y1, y2], color=INK, lw=0.6 * NARROW, gid="work",
                                 zorder=3))
    sheet.forget_background()
