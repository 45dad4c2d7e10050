"""A call-out as typed or spoken, read sign by sign, so that every refusal can name its place.

Look-alike signs count as one (× x X, - − –, a decimal comma), number words become figures
("M six by one" reads as M 6 x 1), and each sign remembers where it stood in what was typed.
"""

import re

_LONGEST = 200
_SIGNS = {"×": "x", "✕": "x", "*": "x", "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-", "\u00a0": " ",
          "\u202f": " ", "\t": " ", "⁄": "/", "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8",
          "⅝": "5/8", "⅞": "7/8"}
_UNITS = ("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
          "seventeen eighteen nineteen").split()
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
_PARTS = {"half": 2, "halves": 2, "quarter": 4, "quarters": 4, "eighth": 8, "eighths": 8, "sixteenth": 16,
          "sixteenths": 16, "thirty-second": 32, "thirty-seconds": 32, "sixty-fourths": 64}
_WORDS = {"by": "x", "times": "x", "dash": "-", "slash": "/", "class": "-", "trapezoidal": "Tr", "metric": "M",
          "square": "Sq", "lead": "Ph", "pitch": "P", "number": "#", "left hand": "LH",
          "right hand": "RH"}
_SPELLED = tuple("UNCFEJRTLHM")  # letters of M, MJ, Tr, UNC, UNEF, UNJF and LH, spelled one by one
_WORD = re.compile(r"left hand|right hand|thirty-seconds?|sixty-fourths|[a-z]+(?:-(?=(?:one|two|three|four|five|six|"
                   r"seven|eight|nine)\b)[a-z]+)?", re.IGNORECASE | re.ASCII)


class NotACallOut(ValueError):
    """A call-out that cannot be read: `place` (0 = first sign) and `likely`, what was probably meant.

    >>> error = NotACallOut("M6xx1", 3, "a number is due", "one x is enough")
    >>> print(error)
    call-out 'M6xx1', sign 4 ('x'): a number is due; one x is enough
    """

    def __init__(self, text, place, rule, likely):
        self.text, self.place, self.rule, self.likely = text, place, rule, likely
        shown = text if len(text) <= 60 else f"{text[:57]}..."
        sign = f"sign {place + 1} ({text[place]!r})" if place < len(text) else "after the last sign"
        super().__init__(f"call-out {shown!r}, {sign}: {rule}; {likely}")


def _value(word):
    """The number a word stands for, None where it is no number word."""
    tens, _, unit = word.partition("-")
    if tens in _TENS:
        more = _UNITS.index(unit) if unit in _UNITS else 0
        return 20 + 10 * _TENS.index(tens) + more
    return _UNITS.index(word) if word in _UNITS else None


def _tokens(text):
    """(word or sign, place), letters in runs."""
    found, place = [], 0
    while place < len(text):
        run = _WORD.match(text, place)
        found.append((run.group() if run else text[place], place))
        place = run.end() if run else place + 1
    return found


class _Speech:
    """Turns tokens into signs; number words side by side are told apart as they are spoken."""

    def __init__(self, text):
        self.signs, self.places = [], []
        tokens = _tokens(text)
        at = 0
        while at < len(tokens):
            word, place = tokens[at]
            at = self._number(tokens, at) if _value(word.lower()) is not None else self._other(tokens, at, word, place)

    def _put(self, text, place):
        self.signs += text
        self.places += [place] * len(text)

    def _next_word(self, tokens, at):
        """The word after a blank, and its index; "" where none follows."""
        after = at + 2
        if after < len(tokens) and tokens[at + 1][0] == " ":
            return tokens[after][0].lower(), after
        return "", at

    def _digits(self, tokens, last):
        """Figures spoken one by one after "point", and the index of the last."""
        digits = ""
        digit, there = self._next_word(tokens, last)
        while _value(digit) is not None and _value(digit) < 10:
            if digits and self._next_word(tokens, there)[0] in ("small", "capital"):
                break  # "two five, six small g": the six is the grade of the class
            digits, last = digits + str(_value(digit)), there
            digit, there = self._next_word(tokens, last)
        return digits, last

    def _number(self, tokens, at):
        word, place = tokens[at]
        value = _value(word.lower())
        following, there = self._next_word(tokens, at)
        if value >= 20 and value % 10 == 0 and 0 < (_value(following) or 0) < 10:  # "twenty four"
            value, at = value + _value(following), there
            following, there = self._next_word(tokens, at)
        if value < 10 and following == "hundred":
            value, at = 100 * value, there
            following, there = self._next_word(tokens, at)
            if following == "and":
                following, there = self._next_word(tokens, there)
            if _value(following) is not None:
                value, at = value + _value(following), there
                more, beyond = self._next_word(tokens, at)
                if value % 10 == 0 and _value(following) >= 20 and 0 < (_value(more) or 0) < 10:
                    value, at = value + _value(more), beyond
                following, there = self._next_word(tokens, at)
        text = str(value)
        if following in _PARTS:
            text, at = f"{text}/{_PARTS[following]}", there
        elif following == "point":
            digits, last = self._digits(tokens, there)
            if digits:
                text, at = f"{text}.{digits}", last
        self._put(text, place)
        return at + 1

    def _other(self, tokens, at, word, place):
        low = word.lower()
        if low == "point" and self._digits(tokens, at)[0]:  # "by point five"
            digits, at = self._digits(tokens, at)
            self._put(f"0.{digits}", place)
        elif low in ("capital", "small") and len(self._next_word(tokens, at)[0]) == 1:
            letter, at = self._next_word(tokens, at)
            self._put(letter.upper() if low == "capital" else letter, tokens[at][1])
        elif len(word) > 1 and low in _WORDS:
            self._put(_WORDS[low], place)
        elif low in _PARTS and len(word) > 1:
            self._put(f"1/{_PARTS[low]}", place)
        elif low in ("and", "a") and self._next_word(tokens, at)[0] in ("a", *_PARTS, *_UNITS):
            pass  # "one and a half", "one and three eighths"
        elif len(word) == 1 and word in _SIGNS:
            joined = _SIGNS[word]
            if "/" in joined and len(joined) > 1 and self.signs and self.signs[-1].isdigit():
                joined = " " + joined  # 1½ is 1 1/2
            self._put(joined, place)
        elif word == "," and at + 1 < len(tokens):
            digits = at and tokens[at - 1][0].isdigit() and tokens[at + 1][0].isdigit()
            self._put("." if digits else " ", place)
        else:
            for step, sign in enumerate(word):
                self._put(sign, place + step)
            after, there = self._next_word(tokens, at)
            if word in _SPELLED and after.upper() in _SPELLED and tokens[there][0].isupper():
                return there  # "U N C" is UNC
        return at + 1


class Scanner:
    """Walks along a call-out and takes what fits.

    >>> line = Scanner("M six by one")
    >>> line.take("M"), line.number(), line.take("x"), line.number(), line.done
    ('M', '6', 'x', '1', True)
    """

    def __init__(self, text):
        if not isinstance(text, str):
            raise NotACallOut(str(text)[:40], 0, "a call-out is text", "put it in quotes: 'M6x1'")
        self.text = text
        if len(text) > _LONGEST:
            raise NotACallOut(text, _LONGEST, f"a call-out has at most {_LONGEST} signs", "was a whole page pasted?")
        speech = _Speech(text)
        self.signs = "".join(speech.signs)
        self._places = [*speech.places, len(text)]
        self.at = 0
        self.span = (0, 0)

    def blanks(self):
        """Skip blanks."""
        while self.signs.startswith(" ", self.at):
            self.at += 1

    @property
    def done(self):
        """Nothing but blanks is left."""
        self.blanks()
        return self.at >= len(self.signs)

    def take(self, pattern, case=False):
        """The text that fits the pattern here (blanks skipped), or ""; capitals count only with case=True."""
        self.blanks()
        found = re.compile(pattern, 0 if case else re.IGNORECASE).match(self.signs, self.at)
        if not found or not found.group():
            return ""
        self.span = (self._places[self.at], self._places[found.end()])
        self.at = found.end()
        return found.group()

    def number(self):
        """A number of up to four figures before and six after the point, or ""."""
        return self.take(r"(?:[0-9]{1,4}(?:\.[0-9]{1,6})?|\.[0-9]{1,6})(?![0-9.])")

    def place(self, at=None):
        """Where the sign stood in what was typed."""
        return self._places[self.at if at is None else at]

    def fail(self, rule, likely, at=None):
        """Refuse here, or at an earlier sign."""
        if at is None:
            self.blanks()
        raise NotACallOut(self.text, self.place(at), rule, likely)
