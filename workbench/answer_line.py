"""The text of an answer cell: which item it answers, and what Python runs in its place.

Pure text: nothing is run, read or judged here. `workbench.answering` hands the result to IPython.
"""

import ast
import difflib
import re

_MARK = re.compile(r"^\s*#\s*Answer\s+(?P<key>\w+\.\w+)\s*$", re.I | re.M)
_CANDIDATE = re.compile(r"\s*(?:#.*\n\s*)*candidate\s*=\s*(?P<text>.*?)\s*", re.I)
CALL = "__import__('importlib').import_module('workbench.answering')"


def item_of(source: str, lesson: str | None = None, sent: str | None = None) -> str | None:
    """The key of the item that a cell answers, or None for a cell that is no answer cell.

    source: the cell's text. lesson: the lesson being worked on, if known. sent: the item's key as the front
    end sent it with the cell, if it did.
    """
    from workbench import exercises

    found = _MARK.search(source)
    key = found["key"].lower() if found else sent or _named_item(source, lesson)
    if key is None:
        return None
    try:
        return exercises.find(key).key
    except ValueError:
        return None


def _named_item(source: str, lesson: str | None) -> str | None:
    """The key of the present lesson's item whose answer line is all that a cell holds, or None."""
    lines = [line for line in source.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    found = re.match(r"\s*(\w+)\s*=(?!=)", lines[0]) if len(lines) == 1 else None
    return f"{lesson}.{found[1].lower()}" if found and lesson else None


def rewritten(source: str, key: str) -> str:
    """The text of an answer cell as Python runs it: its other lines, then the call that reads the answer.

    An answer cell in which no single answer line is found becomes a call that hands it back.
    """
    name = key.split(".")[1]
    # the sign may be a colon, or forgotten before a number; the name may stand twice
    line_of = re.compile(
        rf"^\s*{name}\s*(?:=|:(?=[^=])|\s(?=\s*[-+−.\d\"'“]))\s*(?:{name}\b[\s=:]*)?(?P<text>.*)$", re.I
    )
    others, texts = [], []
    for line in source.splitlines():
        found = line_of.match(line)
        if found:
            texts.append(re.sub(r"\s+#\s.*$", "", found["text"]).strip())
        elif line.strip() and not line.lstrip().startswith("#"):
            others.append(line)
    typed = [text for text in texts if text]
    reason = None
    if len(typed) > 1:
        reason = f"there are {len(typed)} lines that begin with {name} =; keep the one that you stand by"
    elif not texts:
        reason = _no_answer_line(name, others)
    elif not _is_python("\n".join(others)):
        first = next(line for line in others if not _is_python(line)) if len(others) == 1 else others[0]
        reason = f"beside the answer stands “{first.strip()[:40]}”; keep only the line {name} = …"
    if reason is not None:
        return f"{CALL}.hand_back({key!r}, {reason!r})\n"
    return "\n".join([*others, f"{name} = {CALL}.answer({key!r}, {(typed or [''])[0]!r})"]) + "\n"


def sets_candidate(source: str) -> bool:
    """True for a cell that only says whose numbers are asked: `candidate = 7`."""
    return _CANDIDATE.fullmatch(source) is not None


def candidate_call(source: str) -> str:
    """What Python runs in place of a cell that sets the candidate's number."""
    return f"candidate = {CALL}.candidate({_CANDIDATE.fullmatch(source)['text']!r})\n"


def _no_answer_line(name: str, others: list[str]) -> str:
    if not others:
        return f"the answer line is gone: type {name} = and then your answer"
    typed = others[0].strip()
    word = re.match(r"\w+(?=\s*=)", typed)
    if word and difflib.get_close_matches(word[0].lower(), [name], cutoff=0.5):
        return f"the line begins with “{word[0]}”; the name here is {name}: type {name} = and then your answer"
    return f"no line begins with {name} =; type {name} = and then your answer"


def _is_python(text: str) -> bool:
    try:
        ast.parse(text)
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        return False
    return True
