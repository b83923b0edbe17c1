"""Elements of HTML. Text is escaped unless it is `Markup`, which only `element`, `join` and the drawings' own pen make.

>>> element("p", {"class": "pb-help", "hidden": True}, "a < b")
'<p class="pb-help" hidden>a &lt; b</p>'
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

Attributes = Mapping[str, str | bool | None]

VOID = frozenset({"input", "br"})  # elements without content or end tag


class Markup(str):
    """Finished HTML, which is not escaped again."""

    __slots__ = ()


def escape(text: str) -> str:
    """Escape text so that it is only text between two tags.

    >>> escape("<b> & more")
    '&lt;b&gt; &amp; more'
    """
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def escape_attribute(text: str) -> str:
    """Escape text so that it can stand between the double quotes of an attribute."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;").replace("'", "&#x27;")


def opening(tag: str, attributes: Attributes) -> str:
    """Write the opening tag of an element. An attribute that is None or False is left out, one that is True has no value."""
    if not attributes:
        return f"<{tag}>"
    written = "".join(
        [
            f" {name}" if value is True else f' {name}="{escape_attribute(value)}"'
            for name, value in attributes.items()
            if value is not None and value is not False
        ]
    )
    return f"<{tag}{written}>"


def element(tag: str, attributes: Attributes, *children: str | None) -> Markup:
    """Write one element; empty children are skipped."""
    if tag in VOID:
        return Markup(opening(tag, attributes))
    return Markup(f"{opening(tag, attributes)}{join(children)}</{tag}>")


def join(children: Iterable[str | None]) -> Markup:
    """Write children one after the other, escaping those that are plain text."""
    return Markup("".join([child if isinstance(child, Markup) else escape(child) for child in children if child]))
