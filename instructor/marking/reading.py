"""Stage 1, read: a submitted notebook against its release.

Only the answer cells and the apprentice's own extra cells are taken; everything locked comes from the
release. What was missing, doubled, renamed, foreign, moved or edited is reported and costs nothing by itself.
"""

import json
import re
from dataclasses import dataclass
from pathlib import Path

import nbformat
from nbformat import NotebookNode

LARGEST_BYTES = 20_000_000
LARGEST_CELL = 50_000
MOST_CELLS = 2_000
MOST_FINDINGS = 40
LONGEST_NAME = 60
OUTDATED = 4  # the oldest notebook format whose cells are as the release's; older ones are upgraded

_ANSWER = re.compile(r"\s*#\s*Answer\s+(\w+)\.(\w+)\s*$", re.MULTILINE)


class Unreadable(Exception):
    """The submitted file is no notebook that can be read; the text says why."""


@dataclass(frozen=True)
class Reading:
    """A submission put back into its release.

    notebook: the release with the apprentice's answers and extra cells in it, no outputs.
    findings: what was not as released, in sentences.
    """

    notebook: NotebookNode
    findings: tuple[str, ...]


class Layout:
    """A released notebook as submissions are read against it; put together once for all of them."""

    def __init__(self, notebook: NotebookNode):
        self.notebook = notebook
        # by nbgrader's name: what is marked or locked; by the cell's id: plain cells, which are the apprentice's
        self.named = {name: cell for cell in notebook.cells if (name := _grade_id(cell))}
        self.free = {cell.id: cell for cell in notebook.cells if not _grade_id(cell)}
        self.by_id = {cell.id: _grade_id(cell) or cell.id for cell in notebook.cells}
        self.locked = {name: cell.source.rstrip() for name, cell in self.named.items() if not _is_answer(cell)}
        self.empty = {name: cell.source.split() for name, cell in self.named.items() if _is_answer(cell)}


def read_file(path: Path, layout: Layout) -> Reading:
    """Read a submitted file; raises `Unreadable` with the reason."""
    try:
        if path.exists() and (path.is_symlink() or not path.is_file()):
            raise Unreadable("it is a link or no plain file, and was not opened")
        size = path.stat().st_size
        if size > LARGEST_BYTES:
            raise Unreadable(f"the file is {size / 1e6:.0f} MB large; the limit is {LARGEST_BYTES / 1e6:.0f} MB: "
                             "clear its outputs and hand it in again")
        content = path.read_bytes()
    except FileNotFoundError:
        raise Unreadable("there is no such file") from None
    except OSError as failed:
        raise Unreadable(f"the file cannot be opened: {failed.strerror}") from None
    return read_content(content, layout)


def read_content(content: bytes, layout: Layout) -> Reading:
    """Read a submitted file's content."""
    cells, found = _parse(content)
    return _restore(cells, layout, found)


def _parse(content: bytes) -> tuple[list[dict], list[str]]:
    """The content's cells, and what was found on the way."""
    found = []
    if not content.strip(b"\0 \r\n\t\xef\xbb\xbf"):
        raise Unreadable("the file is empty")
    encoding = "utf-8-sig"
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        encoding = "utf-16"
        found.append("the file was saved as UTF-16 text; it was read all the same")
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError as wrong:
        raise Unreadable(f"the file is not UTF-8 text (byte {wrong.start:,} does not fit): "
                         "was it saved by another program than JupyterLab?") from None
    try:
        data = json.loads(text)
    except RecursionError:
        raise Unreadable("the file is nested far deeper than any notebook") from None
    except ValueError as wrong:
        raise Unreadable(f"the file is not a notebook: it is not JSON ({str(wrong)[:120]})") from None
    if not isinstance(data, dict) or not isinstance(data.get("nbformat"), int):
        raise Unreadable("the file is JSON, but no notebook: it names no notebook format")
    if data["nbformat"] > nbformat.current_nbformat:
        raise Unreadable(f"the notebook has format {data['nbformat']}, newer than the {nbformat.current_nbformat} "
                         "known here: save it with the course's own JupyterLab")
    if data["nbformat"] < OUTDATED:
        found.append(f"the notebook had the old format {data['nbformat']}; it was upgraded")
    try:
        if data["nbformat"] < OUTDATED:
            data = nbformat.convert(nbformat.reader.reads(text), OUTDATED)
        # not nbformat's own reader: it checks and wraps every part of a file of which only the sources are taken
        cells, notes = _tidy(data.get("cells", []))
        return cells, found + notes
    except Unreadable:
        raise
    except Exception as wrong:  # an upgrade of something that only looks like an old notebook can end in any way
        raise Unreadable(f"the notebook cannot be read: {type(wrong).__name__} {str(wrong)[:120]}") from None


def _tidy(cells) -> tuple[list[dict], list[str]]:
    """Every cell as a plain one with text, so that the rest need not doubt; and what was thrown out."""
    if isinstance(cells, list) and len(cells) > MOST_CELLS:
        raise Unreadable(f"the notebook holds {len(cells):,} cells; the limit is {MOST_CELLS:,}")
    kept, thrown = [], 0
    for cell in cells:
        source = cell.get("source", "") if isinstance(cell, dict) else None
        if isinstance(source, list) and all(isinstance(line, str) for line in source):
            source = "".join(source)
        if not isinstance(source, str) or len(source) > LARGEST_CELL:
            thrown += 1
            continue
        metadata, kind, identity = cell.get("metadata"), cell.get("cell_type"), cell.get("id")
        kept.append({
            "source": source.encode("utf-8", "replace").decode(),  # without what no file can hold
            "metadata": metadata if isinstance(metadata, dict) else {},
            "cell_type": kind if kind in ("code", "markdown", "raw") else "text of no known kind",
            "id": identity if isinstance(identity, str) else None,
        })
    return kept, [f"{thrown} cells without text, or with far too much, were left out"] if thrown else []


def _restore(cells: list[dict], layout: Layout, found: list[str]) -> Reading:
    """The release, with what the apprentice wrote put back at its place."""
    written: dict[str, str] = {}  # source, by answer's name or plain cell's id
    own: dict[str, list[dict]] = {}  # extra cells, by the released cell that they stand below
    order, place = {}, ""
    for cell in cells:
        name, note = _recognised(cell, layout)
        if note:
            found.append(note)
        if name in layout.named:
            if name in order:
                found.append(f"cell {name} stands in the notebook more than once")
            order[name] = place = name
            if name in layout.empty:
                _take_answer(cell, name, written, layout, found)
            elif cell["source"].rstrip() != layout.locked[name]:
                found.append(f"locked cell {name} was edited; the released text counts")
        elif name in layout.free:
            written[name] = cell["source"]
            place = name
        elif cell["source"].strip():
            own.setdefault(place, []).append(cell)
    missing = [name for name in layout.named if name not in order]
    if missing:
        found.append(f"missing, and put back from the release: {', '.join(missing)}")
    if list(order) != [name for name in layout.named if name in order]:
        found.append("cells were moved; they were put back in the released order")
    if len(found) > MOST_FINDINGS:
        found[MOST_FINDINGS:] = [f"and {len(found) - MOST_FINDINGS} more of this kind"]
    return Reading(_assembled(layout, written, own), tuple(found))


def _recognised(cell: dict, layout: Layout) -> tuple[str | None, str]:
    """The released cell that a submitted cell is, and a note where its marking had been lost or changed.

    An answer cell is known by its first comment, which is what the kernel goes by; else by nbgrader's
    name, else by the cell's id.
    """
    marked, identity = _grade_id(cell), layout.by_id.get(cell["id"])
    shown = repr(marked)[:LONGEST_NAME]
    comment = _ANSWER.match(cell["source"])
    if comment and comment[2] in layout.empty:
        name = comment[2]
        return name, f"answer cell {name} was renamed {shown}" if marked not in (name, None) else ""
    if marked in layout.named:
        return marked, ""
    note = f"cell {shown} is foreign to this release; it was taken as an extra cell" if marked else ""
    if identity is not None:
        return identity, f"cell {identity} was renamed {shown}" if marked else ""
    return None, note


def _take_answer(cell: dict, name: str, written: dict, layout: Layout, found: list[str]) -> None:
    """Keep what stands in an answer cell; of several, the last that holds an answer."""
    if cell["cell_type"] != "code":
        found.append(f"answer cell {name} had become {cell['cell_type']} text; it was read all the same")
    if name not in written or cell["source"].split() != layout.empty[name]:
        written[name] = cell["source"]


def _assembled(layout: Layout, written: dict, own: dict) -> NotebookNode:
    """The release's own cells, shared but for those whose text is the apprentice's, with the extra cells between."""
    cells, taken = [], set(layout.by_id)
    cells += _extra(own.get("", ()), taken)
    for cell in layout.notebook.cells:
        name = layout.by_id[cell.id]
        if name in written:
            cell = NotebookNode(cell)
            cell.source = written[name]
        cells.append(cell)
        if name in own:
            cells += _extra(own[name], taken)
    notebook = NotebookNode(layout.notebook)
    dict.update(notebook, cells=cells)  # as they are: set as an attribute they would be copied, all of them
    return notebook


def _extra(cells, taken: set[str]):
    """The apprentice's own cells as plain new cells, with ids that nothing else has."""
    for cell in cells:
        number = len(taken)
        while f"own-{number}" in taken:
            number += 1
        taken.add(f"own-{number}")
        kind = "code" if cell["cell_type"] == "code" else "markdown"
        yield NotebookNode(cell_type=kind, id=f"own-{number}", metadata=NotebookNode(), source=cell["source"])


def _grade_id(cell: dict) -> str | None:
    marks = cell["metadata"].get("nbgrader")
    name = marks.get("grade_id") if isinstance(marks, dict) else None
    return name if isinstance(name, str) and name else None


def _is_answer(cell: NotebookNode) -> bool:
    return bool(cell.metadata.nbgrader.get("solution"))
