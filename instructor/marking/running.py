"""Stage 2, run: which cells of a notebook are run, and what comes out of them. `pool` runs them.

They run in throw-away processes that know the candidate's number and nothing else of the cohort. What comes
back is data, bounded in size: text by key; no object of theirs is ever loaded here.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from nbformat import NotebookNode


@dataclass(frozen=True)
class Cell:
    """A cell to run; kept: what it shows goes into the marked notebook."""

    id: str
    source: str
    kept: bool = False


@dataclass(frozen=True)
class Run:
    """What came out of a notebook.

    answers: the entry's text, by key. refusals: why an entry was not read, by key. troubles: cells that
    raised, by id, with the error. stopped: why the run ended early, or "". outputs: what the apprentice's
    own cells showed, by id, as outputs of a notebook.
    """

    answers: Mapping[str, str] = field(default_factory=dict)
    refusals: Mapping[str, str] = field(default_factory=dict)
    troubles: Mapping[str, str] = field(default_factory=dict)
    stopped: str = ""
    outputs: Mapping[str, list] = field(default_factory=dict)


def cells_of(notebook: NotebookNode) -> tuple[Cell, ...]:
    """The answer cells and extra cells of a restored notebook, in order; locked cells need no running."""
    return tuple(
        Cell(cell.id, cell.source, kept=not cell.metadata.get("nbgrader"))
        for cell in notebook.cells if _is_run(cell)
    )


def environment(candidate: int, series: int) -> dict[str, str]:
    """Whose numbers the cells are run with."""
    return {"WORKBENCH_CANDIDATE": str(candidate), "WORKBENCH_SERIES": str(series)}


def _is_run(cell: NotebookNode) -> bool:
    marks = cell.metadata.get("nbgrader", {})
    return cell.cell_type == "code" and bool(cell.source.strip()) and not (marks.get("locked") or marks.get("grade"))
