"""The look of the instructor's HTML pages: one file each, nothing loaded from elsewhere, good on paper too."""

import base64
import io
from collections.abc import Iterable
from html import escape

from workbench.marking import MISSTEP, NOT_JUDGED, NOT_YET, RIGHT, SHAPES

STANDINGS = (RIGHT, MISSTEP, NOT_YET, NOT_JUDGED)  # in the order in which a reader wants them

_STYLE = """
:root { --ink: #1d2430; --soft: #5a6472; --line: #c9cfd6; --ground: #ffffff; --shade: #f3f5f2; }
* { box-sizing: border-box; }
body { margin: 0; background: var(--ground); color: var(--ink);
  font: 17px/1.5 "Segoe UI", "Noto Sans", "Helvetica Neue", Arial, sans-serif; }
main { max-width: 62rem; margin: 0 auto; padding: 1.5rem 1.2rem 4rem; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .2rem; }
h2 { font-size: 1.25rem; margin: 2.4rem 0 .6rem; padding-top: .7rem; border-top: 3px solid var(--ink); }
h3 { font-size: 1.05rem; margin: 0 0 .4rem; }
p { max-width: 46rem; margin: .4rem 0; }
.soft { color: var(--soft); }
.figures { display: flex; flex-wrap: wrap; gap: .6rem 2.4rem; margin: 1rem 0; padding: 0; list-style: none; }
.figures b { display: block; font-size: 1.7rem; line-height: 1.2; font-variant-numeric: tabular-nums; }
.verdict { border-left: .5rem solid; background: var(--shade); padding: .5rem .9rem; margin: .6rem 0;
  max-width: 48rem; }
.verdict .word { font-weight: 700; }
.item { padding: 1.1rem 0 .6rem; break-inside: avoid; }
.notice { border: 2px solid var(--ink); padding: .6rem .9rem; margin: 1rem 0; max-width: 48rem; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-size: .88rem; font-variant-numeric: tabular-nums; }
th, td { border: 1px solid var(--line); padding: .28rem .5rem; text-align: left; vertical-align: top; }
thead th { background: var(--shade); vertical-align: bottom; }
th.turned { height: 9rem; padding: .3rem; vertical-align: bottom; }
th.turned span { writing-mode: vertical-rl; transform: rotate(180deg); white-space: nowrap; }
td.number, th.number { text-align: right; }
td.mark { text-align: center; white-space: nowrap; }
img { max-width: 100%; height: auto; }
ul.plain { padding-left: 1.2rem; max-width: 48rem; }
a { color: #17507a; }
@media print { body { font-size: 11pt; } main { padding: 0; } h2 { break-after: avoid; } }
"""


def page(title: str, parts: Iterable[str]) -> str:
    """A whole page."""
    body = "\n".join(part for part in parts if part)
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title>'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<style>{_STYLE}</style></head>\n<body><main>\n{body}\n</main></body></html>\n"
    )


def figures(pairs: Iterable[tuple[str, str]]) -> str:
    """A row of large figures, each with what it counts."""
    cells = "".join(f"<li><b>{escape(figure)}</b>{escape(what)}</li>" for figure, what in pairs)
    return f'<ul class="figures">{cells}</ul>'


def word(standing: str) -> str:
    """A standing as the apprentice reads it, with its shape and colour."""
    shape, colour = SHAPES[standing]
    return f'<span class="word" style="color:{colour}">{shape} {escape(standing.capitalize())}</span>'


def key() -> str:
    """What the shapes mean, in one line."""
    return '<p class="soft">' + " &ensp; ".join(word(standing) for standing in STANDINGS) + "</p>"


def verdict(standing: str, head: str, text: str) -> str:
    """A verdict: word, shape and colour, then what to look at. `head` and `text` are plain text."""
    _, colour = SHAPES[standing]
    told = f"<p>{escape(text)}</p>" if text else ""
    return f'<div class="verdict" style="border-color:{colour}">{word(standing)} {escape(head)}{told}</div>'


def notice(head: str, lines: Iterable[str]) -> str:
    """A framed notice; nothing where there is nothing to say."""
    lines = list(lines)
    if not lines:
        return ""
    inner = "".join(f"<li>{escape(line)}</li>" for line in lines)
    return f'<div class="notice"><b>{escape(head)}</b><ul class="plain">{inner}</ul></div>'


def table(head: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """A table; all cells are HTML already, a cell may bring its own <td>."""

    def cell(text: str, tag: str) -> str:
        return text if text.startswith(("<td", "<th")) else f"<{tag}>{text}</{tag}>"

    top = "".join(cell(text, "th") for text in head)
    body = "".join("<tr>" + "".join(cell(text, "td") for text in row) + "</tr>" for row in rows)
    return f'<div class="wide"><table><thead><tr>{top}</tr></thead><tbody>{body}</tbody></table></div>'


def picture(figure, alternative: str) -> str:
    """A matplotlib figure as part of the page."""
    held = io.BytesIO()
    figure.savefig(held, format="png", dpi=160, bbox_inches="tight", metadata={"Software": None})
    data = base64.b64encode(held.getvalue()).decode()
    return f'<img alt="{escape(alternative)}" src="data:image/png;base64,{data}" style="width:100%;max-width:50rem">'
