"""A look at what an apprentice's own code reaches for: the package's key, its calculations, the session itself.

The package that apprentices have computes the right values, so work without supervision may have called it.
That is no fault by itself and changes no mark: the instructor is told, and decides. Only the text is looked
at, so code that hides its names well enough is not seen; what it answers is judged like anything typed.
"""

import re
import unicodedata
from collections.abc import Iterator

from nbformat import NotebookNode

# the first that fits names the cell; the words complete "cell travel …"
_SEEN = (
    (re.compile(r"\b_(?:entries|refusals)\b"), "writes into the list of entries itself"),
    (re.compile(r"\bsolution\s*\(|\.\s*right\b|\bworkbench\b.*\bsolution\b"), "calls the package's own key"),
    (re.compile(r"\bworkbench\b"), "calls the package's own calculation"),
    (re.compile(r"\b(?:importlib|__import__|sys\s*\.\s*modules|exec|eval)\b"), "loads or runs code by a detour"),
    (re.compile(r"\binput_transformers|\bget_ipython\b|\bbuiltins\b|__builtins__"), "changes how cells are run"),
)


def flagged(notebook: NotebookNode, released: NotebookNode) -> tuple[str, ...]:
    """What an instructor should look at in a restored submission's own cells, in sentences."""
    handed_out = {cell.id: cell.source for cell in released.cells}
    return tuple(_told(notebook, handed_out))


def _told(notebook: NotebookNode, handed_out: dict[str, str]) -> Iterator[str]:
    for cell in notebook.cells:
        if cell.cell_type != "code" or cell.source == handed_out.get(cell.id):
            continue
        lines = [line for line in cell.source.splitlines() if line.strip() and not line.lstrip().startswith("#")]
        text = unicodedata.normalize("NFKC", "\n".join(lines))  # as Python reads names
        does = next((words for pattern, words in _SEEN if pattern.search(text)), None)
        if does is None:
            continue
        which = f"answer cell {cell.id}" if cell.id in handed_out else "an extra cell"
        yield f"{which} (“{lines[0].strip()[:60]}”) {does}: no mark is changed by this, look at it yourself"
