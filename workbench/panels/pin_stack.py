"""Panel: where must the pin's hole lie, and does it still meet the slot when the stack comes out thick or thin?"""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Refused, Shown
from workbench.screws.pin_hole import centre_mm, from_end_mm, hole, room_mm
from workbench.screws.slotted_nut import nut
from workbench.screws.split_pin import pin
from workbench.tables import table

THREAD, LENGTH_MM = "M12", 50
PLACE = Quantity("mm", 0.1, (0, 100))
START = {"parts": 22, "washers": 1, "place": 34, "tolerance": 0}


def pin_stack():
    """The board: parts, washers, place of the hole, tolerance of the stack."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        row, washer = nut(THREAD), table("iso_7089_washers").row(f"normal {THREAD}")["thickness_mm"]
        floor, height = row["floor_mm"], row["height_mm"]
        parts, washers, place = values["parts"], washer * values["washers"], values["place"]
        middle = centre_mm(parts, washers, floor, height)
        room = room_mm(floor, height, pin(row["pin_mm"])["shank_max_mm"])
        try:
            end = from_end_mm(THREAD, LENGTH_MM, place)
        except ValueError:
            raise Refused(f"A hole {place:g} mm from the head leaves {LENGTH_MM - place:g} mm to the bolt's end. "
                          f"Less than {hole(THREAD)['end_mm']:g} mm, and it breaks out.") from None
        if parts + washers + height > LENGTH_MM:
            raise Refused(f"A stack of {parts + washers:g} mm and the nut of {height:g} mm are longer than the bolt.")
        off, tolerance = place - middle, values["tolerance"]
        goes_in, always = abs(off) <= room + 1e-9, abs(off) + tolerance <= room + 1e-9
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.pin_stack import PinStack

            drawing = PinStack(THREAD)
        drawing.show(parts, washers, washer, place, LENGTH_MM, goes_in, tolerance)
        if place == START["place"] and values["parts"] == START["parts"] and values["washers"] == START["washers"]:
            message = f"You said {prediction}. Move the hole until it lies in the middle of the slot."
        elif always:
            message = "The pin goes in, with every stack within the tolerance."
        elif goes_in:
            message = "The pin goes in here, but not with every stack within the tolerance."
        else:
            remedy = "a washer less, or a thinner one" if off < 0 else "one more washer, or a thicker one"
            message = f"The pin does not go in. The hole is drilled for good: try {remedy}."
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, for 22 mm and one washer", prediction), ("Middle of the slot", f"{middle:g} mm"),
             ("Hole off the middle by", f"{off:+.1f} mm".replace("-", "−")), ("Room each way", f"{room:.2f} mm"),
             ("Hole to the bolt's end", f"{end:g} mm, least {hole(THREAD)['end_mm']:g} mm")),
            message,
            "G: parts, w: washers, h: floor of the slot, m: top of the nut, both above the nut's face.\n"
            f"Middle of the slot = G + w + (h + m) ÷ 2 = {parts:g} + {washers:g} + ({floor:g} + {height:g}) ÷ 2 "
            f"= {middle:g} mm.\n"
            f"Room = (m − h) ÷ 2 − pin ÷ 2 = {(height - floor) / 2:g} − {pin(row['pin_mm'])['shank_max_mm'] / 2:g} "
            f"= {room:.2f} mm each way.\n"
            f"Worst case: {abs(off):.1f} mm off + {tolerance:g} mm of stack = {abs(off) + tolerance:.1f} mm; "
            f"room {room:.2f} mm.\n"
            "Drill the hole square through the axis, on a V-block, with the real parts stacked.",
        )

    return Board(
        "Where must the hole lie?",
        "A bolt M12 × 50 goes through parts of 22 mm and one washer of 2.5 mm. The slotted nut is 15 mm high; the "
        "floor of its slots lies at 10 mm. How far from under the head must the middle of the pin's hole lie?",
        "Your prediction (mm)",
        (Control("parts", "Parts G", "mm", 10, 34, 0.5, START["parts"]),
         Control("washers", "Washers", "pieces", 0, 3, 1, START["washers"]),
         Control("place", "Hole from under the head", "mm", 20, 49, 0.5, START["place"]),
         Control("tolerance", "Stack may differ by ±", "mm", 0, 1.5, 0.1, START["tolerance"])),
        lambda text: f"{read(text, PLACE, {}).value:g} mm", moved,
    )
