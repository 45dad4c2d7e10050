"""How people write units, and what each spelling means.

A spelling is taken only when it has one meaning in the trade; the others are handed back with the reason
(see `AMBIGUOUS`). The factors themselves come from pint.
"""

# spelling -> the name that pint knows
SPELLINGS = {
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "cm": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
    "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    "um": "um", "µm": "um", "μm": "um", "micrometre": "um", "micrometres": "um",
    "in": "inch", "in.": "inch", "inch": "inch", "inches": "inch", '"': "inch", "′′": "inch", "''": "inch",
    "thou": "thou", "thous": "thou", "thousandth": "thou", "thousandths": "thou",
    "ft": "ft", "feet": "ft", "foot": "ft",
    "°": "deg", "deg": "deg", "degree": "deg", "degrees": "deg", "rad": "rad",
    "n": "N", "newton": "N", "newtons": "N", "kn": "kN", "lbf": "lbf",
    "nm": "N*m", "n m": "N*m", "n·m": "N*m", "nmm": "N*mm", "n mm": "N*mm", "n·mm": "N*mm",
    "lbf in": "lbf*inch", "lbf·in": "lbf*inch", "lbf ft": "lbf*ft", "lbf·ft": "lbf*ft",
    "mpa": "MPa", "n/mm2": "MPa", "n/mm²": "MPa", "gpa": "GPa", "psi": "psi",
    "degc": "degC", "°c": "degC", "celsius": "degC", "degf": "degF", "°f": "degF", "k": "K",
    "h": "hour", "hour": "hour", "hours": "hour", "min": "minute", "minute": "minute", "minutes": "minute",
    "s": "second", "sec": "second", "second": "second", "seconds": "second",
    "kg": "kg", "g": "g", "%": "percent", "percent": "percent",
    "mm2": "mm**2", "mm²": "mm**2", "v": "V", "volt": "V", "volts": "V",
}  # fmt: skip

# the name that pint knows -> as printed beside a question and in an echo, where the two differ
PRINTED = {"inch": "in", "deg": "°", "um": "µm", "degC": "°C", "minute": "min", "second": "s", "hour": "h"}

# counts have no factor: the word only says what is counted
COUNTS = {
    "division": "divisions", "divisions": "divisions", "div": "divisions", "divs": "divisions",
    "turn": "turns", "turns": "turns", "rev": "turns", "revs": "turns",
    "line": "lines", "lines": "lines", "thread": "threads", "threads": "threads",
    "rivet": "rivets", "rivets": "rivets",
    "start": "starts", "starts": "starts",
    "cent": "cents", "cents": "cents", "ct": "cents",
}  # fmt: skip

# spelling -> why it is handed back
AMBIGUOUS = {
    "mil": "“mil” is a thousandth of an inch to some and a millimetre to others: write thou or mm",
    "mils": "“mils” are thousandths of an inch to some and millimetres to others: write thou or mm",
    "tenth": "a “tenth” is 0.1 mm to some and 0.0001 in to others: write the figure with mm or in",
    "tenths": "“tenths” are 0.1 mm to some and 0.0001 in to others: write the figure with mm or in",
    "hundredth": "a “hundredth” of what? Write the figure with mm or in",
    "hundredths": "“hundredths” of what? Write the figure with mm or in",
    "lb": "“lb” is a mass to some and a force to others: write lbf for a force or kg for a mass",
    "lbs": "“lbs” are a mass to some and a force to others: write lbf for a force or kg for a mass",
    "'": "one tick is a foot to some and a minute of angle to others: write ft or min",
    "′": "one tick is a foot to some and a minute of angle to others: write ft or min",
    "oz": "“oz” is a mass to some and a force to others: write N or g",
    "µ": "“µ” alone is only a prefix: write µm",
    "μ": "“µ” alone is only a prefix: write µm",
}
