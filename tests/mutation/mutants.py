"""Mutants: the package with one number, operator or table cell changed."""

import ast
import copy
import csv
import io
from dataclasses import dataclass
from math import isfinite

_SWAPS = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult,
    ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult,
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.And: ast.Or, ast.Or: ast.And,
}


@dataclass(frozen=True)
class Mutant:
    """One change: the file (relative to the package's parent), what changed, and the file's new text."""

    path: str
    change: str
    text: str

    @property
    def name(self):
        return f"{self.path}: {self.change}"


def _other(number):
    """A number near by, but another."""
    return number + 1 if isinstance(number, int) else (number * 1.1 or 1.0)


def _sites(tree):
    """Every place to change: (the function it is in, the node, the field, the place in the field)."""

    def walk(node, inside):
        if isinstance(node, ast.FunctionDef):
            inside = node.name
        if isinstance(node, ast.Constant) and type(node.value) in (int, float):
            yield inside, node, "value", None
        if isinstance(node, ast.BinOp | ast.AugAssign | ast.BoolOp) and type(node.op) in _SWAPS:
            yield inside, node, "op", None
        if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
            yield inside, node, "op", None
        if isinstance(node, ast.Compare):
            for place, op in enumerate(node.ops):
                if type(op) in _SWAPS:
                    yield inside, node, "ops", place
        for child in ast.iter_child_nodes(node):
            yield from walk(child, inside)

    return list(walk(tree, "module"))


def of_code(path, source):
    """All mutants of one module: each number another, each operator its opposite, each bound shifted."""
    tree = ast.parse(source)
    seen = {}
    for inside, node, field, place in _sites(tree):
        before, kept = ast.unparse(node), copy.copy(getattr(node, field))
        if field == "value":
            node.value = _other(node.value)
        elif place is not None:
            node.ops[place] = _SWAPS[type(node.ops[place])]()
        elif isinstance(node, ast.UnaryOp):
            node.op = ast.UAdd()
        else:
            node.op = _SWAPS[type(node.op)]()
        change = f"{inside}: {before} -> {ast.unparse(node)}"
        seen[change] = seen.get(change, 0) + 1
        if seen[change] > 1:  # the same words twice in a function
            change += f" ({seen[change]})"
        yield Mutant(path, change, ast.unparse(tree))
        setattr(node, field, kept)


def of_table(path, text):
    """All mutants of one table: each number in it another."""
    lines = text.splitlines()
    body = [number for number, line in enumerate(lines) if not line.startswith("#")][1:]
    for number in body:
        cells = next(csv.reader([lines[number]]))
        for place, cell in enumerate(cells[1:], start=1):
            try:
                value = float(cell)
            except ValueError:
                continue
            if not isfinite(value):  # not given, or without a limit
                continue
            other = cells[:place] + [repr(round(value * 1.01, 9) or 1.0)] + cells[place + 1:]
            if "." not in cell:  # a count, or a whole number of units
                other[place] = str(int(value) + 1)
            written = io.StringIO()
            csv.writer(written, lineterminator="").writerow(other)
            changed = lines[:number] + [written.getvalue()] + lines[number + 1:]
            yield Mutant(path, f"{cells[0]}: {cell} -> {other[place]} ({place})", "\n".join(changed) + "\n")
