"""Runs a notebook and lists what went wrong in it, also what a plain run reports as success.

An exception inside `interact` or `with Output()` ends in the widget's saved state, and a panel keeps its own
in `fault`; a run from top to bottom succeeds all the same.
"""

from collections.abc import Iterator
from pathlib import Path

import nbformat
from nbclient import NotebookClient
from nbformat import NotebookNode

WIDGET_STATE = "application/vnd.jupyter.widget-state+json"


def executed(notebook: NotebookNode, folder: Path) -> NotebookNode:
    """The notebook after a run of all its cells in a fresh kernel, errors or not; widget state is kept."""
    client = NotebookClient(
        nbformat.from_dict(notebook),
        timeout=120,
        kernel_name="python3",
        allow_errors=True,
        resources={"metadata": {"path": str(folder)}},
    )
    return client.execute()


def faults(notebook: NotebookNode) -> list[str]:
    """Every error in the outputs and in the widget state of an executed notebook; every word on stderr."""
    found = []
    for cell in notebook.cells:
        if cell.cell_type == "code":
            found += [f"cell {cell.id}: {fault}" for fault in _of_outputs(cell.outputs)]
    widgets = notebook.metadata.get("widgets", {}).get(WIDGET_STATE, {}).get("state", {})
    for widget in widgets.values():
        state = widget.get("state", {})
        name = widget.get("model_name", "widget")
        found += [f"{name}: {fault}" for fault in _of_outputs(state.get("outputs") or ())]
        if state.get("fault"):
            found.append(f"{name}: fault {state['fault']}")
    return found


def _of_outputs(outputs) -> Iterator[str]:
    for output in outputs:
        if output["output_type"] == "error":
            yield f"{output['ename']}: {output['evalue']}"
        elif output["output_type"] == "stream" and output["name"] == "stderr" and output["text"].strip():
            yield f"stderr: {output['text'].strip()[:200]}"
