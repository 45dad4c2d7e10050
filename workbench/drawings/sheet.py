"""The drawing sheet: a figure that is built once; afterwards only its moving artists are drawn again.

Line weights follow the two-weights rule of technical drawings (ISO 128-2: wide to narrow 2 : 1). A view
is an area of the sheet with its own scale, in pixels to the millimetre. No pyplot, no global settings.
"""

from struct import pack
from zlib import compress, crc32

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

WIDE, NARROW = 1.3, 0.65  # points
# neutral inks only: what can be read here can be read on a grey print
INK, DIMENSION = "#141414", "#444444"
CENTRE_LINE = (0, (14, 3, 2, 3))  # long dash, dot
STEEL, SATIN, SHADE, PAPER = "#f0f0f0", "#dedede", "#c8c8c8", "#ffffff"
DOTS_PER_INCH = 100


class Sheet:
    """A figure of `width_px` x `height_px`, laid out on a grid of `layout` pixels that is scaled to fit.

    Add artists to a view with `still` (drawn once) or `moving` (drawn for each picture, in this order, above
    everything still). `png()` gives the picture.
    """

    def __init__(self, width_px, height_px, layout=(900, 400)):
        self.zoom = min(width_px / layout[0], height_px / layout[1])
        self._left = (width_px - layout[0] * self.zoom) / 2
        self._bottom = (height_px - layout[1] * self.zoom) / 2
        self._size = (width_px, height_px)
        dots = DOTS_PER_INCH * self.zoom
        self.figure = Figure(figsize=(width_px / dots, height_px / dots), dpi=dots, facecolor=PAPER)
        self.canvas = FigureCanvasAgg(self.figure)
        self._moving = []
        self._background = None

    def view(self, left, bottom, width, height, px_per_mm, x_mm, y_mm):
        """An area of the layout (pixels), whose lower left corner shows the point (x_mm, y_mm)."""
        width_px, height_px = self._size
        axes = self.figure.add_axes((
            (self._left + left * self.zoom) / width_px, (self._bottom + bottom * self.zoom) / height_px,
            width * self.zoom / width_px, height * self.zoom / height_px,
        ))
        axes.set_xlim(x_mm, x_mm + width / px_per_mm)
        axes.set_ylim(y_mm, y_mm + height / px_per_mm)
        axes.set_axis_off()
        axes.set_autoscale_on(False)
        return axes

    def still(self, view, artist):
        """Put an artist into the background of a view."""
        view.add_artist(artist)
        artist.set_clip_path(view.patch)
        self.forget_background()
        return artist

    def moving(self, view, artist):
        """Put an artist into a view that is drawn again for each picture."""
        artist.set_animated(True)
        artist.set_snap(False)  # a line stays where geometry puts it, not on the nearest pixel
        view.add_artist(artist)
        artist.set_clip_path(view.patch)
        self._moving.append(artist)
        return artist

    def forget_background(self):
        """Something still has changed: draw the background anew with the next picture."""
        self._background = None

    def png(self, area=None):
        """The picture as PNG bytes; `area` = (left, top, right, bottom) in layout pixels cuts a part out."""
        if self._background is None:
            self.canvas.draw()
            self._background = self.canvas.copy_from_bbox(self.figure.bbox)
        self.canvas.restore_region(self._background)
        renderer = self.canvas.get_renderer()
        for artist in self._moving:
            artist.draw(renderer)
        grey = np.asarray(self.canvas.buffer_rgba())[..., 1]  # the inks are neutral: one channel says it all
        if area:
            left, top, right, bottom = (round(edge * self.zoom) for edge in area)
            grey = grey[round(self._bottom) + top:round(self._bottom) + bottom,
                        round(self._left) + left:round(self._left) + right]
        return _grey_png(grey)


def _grey_png(grey):
    """8-bit grey PNG. Each row is stored as its difference from the row above (filter 2), which packs a
    line drawing several times quicker than the general encoder does."""
    height, width = grey.shape
    rows = np.full((height, width + 1), 2, dtype=np.uint8)
    rows[0, 1:] = grey[0]
    np.subtract(grey[1:], grey[:-1], out=rows[1:, 1:])
    parts = (b"IHDR", pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)), (b"IDAT", compress(rows.data, 1)), (b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        pack(">I", len(body)) + kind + body + pack(">I", crc32(kind + body)) for kind, body in parts)
