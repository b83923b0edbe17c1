"""The tables of the handbook's pages, worked out by calc while the site is built.

`TABLES`: name -> function of a fence's values and caption, giving HTML.
"""

from __future__ import annotations

import html
from collections.abc import Callable, Mapping, Sequence

Values = Mapping[str, str]


def markup(columns: Sequence[str], rows: Sequence[Sequence[str]], numeric: Sequence[int] = (), caption: str = "", heads: int = 1) -> str:
    """A table; the first `heads` cells of a row are its headings, and columns in `numeric` are set to the right."""
    right = ' style="text-align: right"'
    top = "".join(f'<th scope="col"{right if i in numeric else ""}>{html.escape(c)}</th>' for i, c in enumerate(columns))
    body = ""
    for row in rows:
        body += "<tr>"
        for i, cell in enumerate(row):
            tag = "th" if i < heads else "td"
            scope = ' scope="row"' if i < heads else ""
            body += f"<{tag}{scope}{right if i in numeric else ''}>{html.escape(cell)}</{tag}>"
        body += "</tr>"
    said = f"<caption>{html.escape(caption)}</caption>" if caption else ""
    return f'<div class="pb-table" tabindex="0" role="region" aria-label="{html.escape(caption or columns[0])}"><table class="pb-look-up">{said}<thead><tr>{top}</tr></thead><tbody>{body}</tbody></table></div>'


TABLES: dict[str, Callable[[Values, str], str]] = {}
