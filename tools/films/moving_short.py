"""Writes the moving pictures of a page once more, when all of them stand there: the same pictures in half as many characters.

Map
---
`short`        a page with its moving pictures in fewer characters; the steps below, one after the other
`rounded`      a circle as two arcs instead of eight curves
`parts_once`   what several parts have in common, such as a hand on two bags, becomes a part of its own
`shapes_once`  a path that another repeats, but for its place and turn, is written once
`in_common`    what most paths of a part are painted with is said on the part, and on a path only where it differs
`renamed`      names of one or two characters

Lines have round ends and joins (moving.css), so that none has to say so, and what reaches past a view is cut off by its edge.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from difflib import SequenceMatcher
from itertools import combinations, groupby

from tools.films.compact_svg import MOVE, NUMBER, shorter

FIGURE = re.compile(r'<figure class="pb-moving .*?</figure>', re.DOTALL)
DEFINED = re.compile(r'(<svg class="pb-moving-parts"[^>]*><defs>)(.*?)(</defs></svg>)', re.DOTALL)
ELEMENT = re.compile(r"<(/?)(\w+)([^>]*?)(/?)>")
DATA = re.compile(r' d="(M[^"]*)"(?! data-of)')
PAINT = ("fill", "stroke", "stroke-width")
LARGE = 25.0  # a part wider than this is never enlarged, and a tenth of its unit is too little to be seen
WORTH = 60  # characters; what is shorter is not worth a name


def short(page: str) -> str:
    """Write the moving pictures of a page in fewer characters."""
    figures = FIGURE.findall(page)
    if not figures:
        return page
    figures = shapes_once(parts_once([_lines(figure.replace(' data-search-exclude="1"', "")) for figure in figures]))
    figures = [_numbers(_paths(_colours(figure))) for figure in figures]
    figures = renamed([DEFINED.sub(lambda found: found[1] + in_common(found[2]) + found[3], figure) for figure in figures])
    figures = [_plain(_lone(figure)) for figure in figures]
    waiting = iter(figures)
    return FIGURE.sub(lambda _: next(waiting), page)


def _plain(figure: str) -> str:
    """Leave out what `moving.js` assumes: most of what moves is a transform.

    A link keeps its prefix: the theme's script writes to all that has a plain `href`.
    """
    return figure.replace(' data-of="transform"', "")


# --- paths and numbers ----------------------------------------------------------------------------------------------------


def rounded(path: str) -> str:
    """A path that is a whole circle or an upright ellipse as two arcs; any other as it is.

    >>> rounded("M10 0C10 5.52 5.52 10 0 10C-5.52 10 -10 5.52 -10 0C-10 -5.52 -5.52 -10 0 -10C5.52 -10 10 -5.52 10 0Z")
    'm-10 0a10 10 0 1 1 20 0a10 10 0 1 1-20 0z'
    """
    moves = MOVE.findall(path)
    if len(moves) < 6 or [letter for letter, _ in moves] != ["M", *"C" * (len(moves) - 2), "Z"]:
        return path
    numbers = [[float(number) for number in NUMBER.findall(said)] for _, said in moves[:-1]]
    ends = [(row[-2], row[-1]) for row in numbers]
    (left, right), (high, low) = ((min(axis), max(axis)) for axis in zip(*ends, strict=True))
    x, y, wide, tall = (left + right) / 2, (high + low) / 2, (right - left) / 2, (low - high) / 2
    if min(wide, tall) <= 0 or ends[0] != ends[-1]:
        return path
    middles = [
        tuple((a + 3 * b + 3 * c + d) / 8 for a, b, c, d in zip(before, row[:2], row[2:4], row[4:], strict=True))
        for before, row in zip(ends, numbers[1:], strict=False)
    ]
    loose = 0.12 / min(wide, tall) + 0.002
    if any(abs(math.hypot((u - x) / wide, (v - y) / tall) - 1.0) > loose for u, v in (*ends, *middles)):
        return path
    across, size = _few(2 * wide), f"{_few(wide)} {_few(tall)}"
    return f"m{_few(left)} {_few(y)}a{size} 0 1 1 {across} 0a{size} 0 1 1-{across} 0z"


def runs_on(path: str) -> str:
    """A path in whole numbers, which is drawn a seventh as large, with each curve that runs on within one of them written as one that runs on.

    >>> runs_on("M0 0C0 10 20 20 30 20C39 20 60 30 60 40")
    'M0 0C0 10 20 20 30 20S60 30 60 40'
    """
    if "." in path:
        return path
    made: list[str] = []
    before: tuple[float, ...] = ()
    for letter, said in MOVE.findall(path):
        numbers = [float(number) for number in NUMBER.findall(said)]
        ends = tuple(numbers[-4:])
        if letter == "C" and before and all(abs(2 * before[k + 2] - before[k] - numbers[k]) <= 1.0 for k in (0, 1)):
            made.append("S" + " ".join(f"{number:.0f}" for number in ends))
        else:
            made.append(letter + said)
        before = ends if letter in "CS" else ()
    return "".join(made)


def _few(value: float) -> str:
    """A number to a hundredth, without a zero before its point."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "0") else re.sub(r"^(-?)0\.", r"\1.", text)


def _paths(figure: str) -> str:
    """Each path from point to point; a circle as arcs, except where a dash is moved along it."""

    def written(found: re.Match[str]) -> str:
        path = runs_on(found[1])
        numbers = [float(number) for number in NUMBER.findall(path)]
        arcs = rounded(path)
        if arcs is not path:
            return f' d="{arcs}"'
        return f' d="{shorter(path, 1 if max(map(abs, numbers)) > LARGE else 2)}"'

    return DATA.sub(written, figure)


def _colours(figure: str) -> str:
    """Gradients: one with the colours of another refers to it, and default values are left out."""
    known: dict[str, str] = {}

    def written(found: re.Match[str]) -> str:
        name, where, stops = found[1], found[2].replace(' x1="0"', "").replace(' y1="0"', "").replace(' y2="0"', ""), found[3]
        first = known.setdefault(stops, name)
        if first != name:
            return f'<linearGradient id="{name}" xlink:href="#{first}" gradientUnits="userSpaceOnUse"{where}/>'
        stops = stops.replace(' offset="0"', "").replace('"0.', '".')
        return f'<linearGradient id="{name}" gradientUnits="userSpaceOnUse"{where}>{stops}</linearGradient>'

    return re.sub(r'<linearGradient id="([^"]*)" gradientUnits="userSpaceOnUse"([^>]*)>(.*?)</linearGradient>', written, figure)


def _numbers(figure: str) -> str:
    """Numbers without a zero before their point, and a matrix that only moves as a move."""

    def written(found: re.Match[str]) -> str:
        text = re.sub(r"(\.\d*?)0+(?=[ )\"])", r"\1", found[0])
        text = re.sub(r"\.(?=[ )\"])", "", text)
        text = re.sub(r"(?<![\d.])0\.(?=\d)", ".", text)
        text = re.sub(r"-0(?![.\d])", "0", text)
        text = re.sub(r"matrix\(1 0 0 1 ([^)]*)\)", r"translate(\1)", text)
        return text if " data-of" in text else text.replace("rotate(0)", "").replace(' transform="translate(0 0)"', "")

    return re.sub(r' (?:transform|data-keys|data-squeeze|data-grow|opacity|stroke-width)="[^"]*"(?: data-of)?', written, figure)


def _lone(figure: str) -> str:
    """An element alone in a group that only moves or names it takes the move or the name itself."""
    figure = re.sub(r'<g( transform="[^"]*")?></g>', "", figure)
    figure = re.sub(r'<g transform="([^"]*)"><use xlink:href="(#\w+)"(?: transform="([^"]*)")?/></g>', _joined, figure)
    return re.sub(r'<g (id="\w+")><use ([^>]*)/></g>', r"<use \1 \2/>", figure)


def _joined(found: re.Match[str]) -> str:
    return f'<use xlink:href="{found[2]}" transform="{found[1]}{found[3] or ""}"/>'


def _lines(figure: str) -> str:
    """Ends and joins are round, as moving.css has them, unless a line says otherwise."""

    def written(found: re.Match[str]) -> str:
        tag = re.sub(r' stroke-line(?:cap|join)="round"', "", found[0])
        plain = tag == found[0] and ' stroke="' in tag and found[0].startswith("<path")
        return tag.replace("<path", '<path stroke-linecap="butt" stroke-linejoin="miter"', 1) if plain else tag

    return re.sub(r"<(?:path|g|use|rect)\b[^>]*>", written, figure)


# --- parts ----------------------------------------------------------------------------------------------------------------


def _children(text: str) -> list[str]:
    """The elements that a text is made of, one after the other."""
    found, deep, start = [], 0, 0
    for match in ELEMENT.finditer(text):
        if match[1]:
            deep -= 1
        elif not match[4]:
            deep += 1
        if deep == 0:
            end = match.end()
            found.append(text[start:end])
            start = end
    return found


def _part(element: str) -> tuple[str, list[str]] | None:
    """A part that is used by its name: its opening tag and what is in it; nothing where it is of another kind."""
    opened = re.match(r'<g id="[^"]*">', element)
    return (opened[0], _children(element[opened.end() : -len("</g>")])) if opened else None


def parts_once(figures: list[str]) -> list[str]:
    """Make what several parts have in common a part of its own, before the first of them."""
    parts: list[list[tuple[str, list[str]]]] = []  # of each figure: an opening tag and its children, or an element and none
    for figure in figures:
        defined = DEFINED.search(figure)
        elements = _children(defined[2]) if defined else []
        parts.append([_part(one) or (one, []) for one in elements])
    made = 0
    while True:
        where = [(f, k) for f, row in enumerate(parts) for k, (_, inside) in enumerate(row) if len(inside) > 1 or "<path" in "".join(inside)]
        best: tuple[int, tuple[int, int], list[str]] = (WORTH, (0, 0), [])
        for (f, k), (g, m) in combinations(where, 2):
            a, b = parts[f][k][1], parts[g][m][1]
            if not set(a) & set(b):
                continue
            for block in SequenceMatcher(None, a, b, autojunk=False).get_matching_blocks():
                alike = a[block.a : block.a + block.size]
                gain = len("".join(alike)) - 50
                if gain > best[0]:
                    best = (gain, (f, k), alike)
        if not best[2]:
            break
        _, (f, k), alike = best
        name = f"vt{made}"
        made += 1
        for row in parts:
            for at, (_, inside) in enumerate(row):
                for start in range(len(inside) - len(alike), -1, -1):
                    if inside[start : start + len(alike)] == alike:
                        row[at][1][start : start + len(alike)] = [f'<use xlink:href="#{name}"/>']
        parts[f].insert(k, (f'<g id="{name}">', alike))
    written = []
    for figure, row in zip(figures, parts, strict=True):
        body = "".join(f"{opened}{''.join(inside)}</g>" if inside else opened for opened, inside in row)
        written.append(DEFINED.sub(lambda found, body=body: found[1] + body + found[3], figure))  # type: ignore[misc]
    return written


def _points(path: str) -> list[complex]:
    numbers = [float(number) for number in NUMBER.findall(path)]
    return [complex(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]


def _moved(points: list[complex], to: list[complex], turning: bool) -> tuple[complex, complex] | None:
    """The turn and the move that bring some points to others, to a tenth of a millimetre; nothing where they are not alike."""
    whole = all(each.real == round(each.real) and each.imag == round(each.imag) for each in (points[0], to[0], points[-1], to[-1]))
    large = whole and max(map(abs, points)) > 40.0  # drawn a fifth as large and less
    loose = 0.8 if large else 0.13
    middle, onto = sum(points) / len(points), sum(to) / len(to)
    turn = 1 + 0j
    if turning and abs(to[0] - onto - points[0] + middle) > loose:
        turn = sum(((b - onto) * (a - middle).conjugate() for a, b in zip(points, to, strict=True)), 0j)
        if not abs(turn):
            return None
        turn /= abs(turn)
    move = onto - turn * middle
    if large and abs(move) < 0.5:
        move = 0j
    if any(abs(turn * a + move - b) > loose for a, b in zip(points, to, strict=True)):
        return None
    return turn, move


def shapes_once(figures: list[str]) -> list[str]:
    """Write paths that differ only in place and turn once, and refer to the first by name: forearms, petals, the bands of a line."""
    found: dict[str, tuple[int, complex, complex]] = {}  # of a path's attributes: which shape, and how it lies
    known: list[tuple[str, list[complex]]] = []  # the shapes: what is said of them by themselves, their points
    used: Counter[int] = Counter()
    for figure in figures:
        defined = DEFINED.search(figure)
        for element in re.findall(r"<path [^>]*>", defined[2]) if defined else ():
            data = re.search(r' d="(M[^"]*)"', element)
            if not data or len(data[1]) < WORTH or rounded(data[1]) != data[1] or " data-" in element:
                continue
            points = _points(data[1])
            told = 'pathLength="100" ' if "pathLength" in element else ""
            letters = told + re.sub(r"[^A-Z]", "", data[1])
            for which, (its, others) in enumerate(known):
                if its != letters:
                    continue
                lies = _moved(others, points, "url(" not in element and not told)
                if lies is None or ("url(" in element and (abs(lies[1]) > 1e-9 or lies[0] != 1)):
                    continue
                found[element] = (which, *lies)
                used[which] += 1
                break
            else:
                found[element] = (len(known), 1 + 0j, 0j)
                used[len(known)] += 1
                known.append((letters, points))
    made: set[int] = set()
    firsts = {which: element for element, (which, *_) in reversed(found.items())}

    def laid(match: re.Match[str]) -> str:
        element = match[0]
        if element not in found or used[found[element][0]] < 2:
            return element
        which, turn, move = found[element]
        paint = "".join(f' {name}="{value}"' for name, value in _attributes(element).items() if name not in ("d", "pathLength"))
        text = f"translate({move.real:.2f} {move.imag:.2f})" if abs(move) > 0.004 else ""
        angle = math.degrees(math.atan2(turn.imag, turn.real))
        text += f"rotate({angle:.1f})" if abs(angle) > 0.04 else ""
        return f'<use xlink:href="#vp{which}"{paint}' + (f' transform="{text}"' if text else "") + "/>"

    written = []
    for figure in figures:
        defined = DEFINED.search(figure)
        if not defined:
            written.append(figure)
            continue
        before = ""
        for element in re.findall(r"<path [^>]*>", defined[2]):
            which = found[element][0] if element in found else -1
            if which >= 0 and used[which] > 1 and which not in made:
                made.add(which)
                said = _attributes(firsts[which])
                told = f' pathLength="{said["pathLength"]}"' if "pathLength" in said else ""
                before += f'<path id="vp{which}"{told} d="{said["d"]}"/>'
        body = before + re.sub(r"<path (?!id=)[^>]*>", laid, defined[2])
        written.append(DEFINED.sub(lambda match, body=body: match[1] + body + match[3], figure))  # type: ignore[misc]
    return written


def _attributes(element: str) -> dict[str, str]:
    return dict(re.findall(r' ([\w-]+)="([^"]*)"', element))


def _is_plain(element: str) -> bool:
    """Whether an element is a path whose paint may be said on what encloses it."""
    return element.startswith(("<path ", '<use xlink:href="#vp')) and not any(word in element for word in (" class=", " data-", " id="))


def _hoisted(paths: list[str], opened: str = "<g>") -> str:
    """Paths in a group that says what most of them are painted with, where that is shorter."""
    said = [_attributes(path) for path in paths]
    before = "".join(paths)
    common: dict[str, str] = {}
    for name in PAINT:
        counted = Counter(each[name] for each in said if name in each)
        if not counted:
            continue
        value, times = counted.most_common(1)[0]
        lacking = sum(name not in each for each in said) if name == "stroke" else 0
        if times * (len(name) + len(value) + 4) > len(name) + len(value) + 4 + lacking * len(' stroke="none"'):
            common[name] = value
    if not common:
        return f"{opened}{before}</g>" if opened != "<g>" else before
    written = []
    for path, each in zip(paths, said, strict=True):
        for name, value in common.items():
            if each.get(name) == value:
                path = path.replace(f' {name}="{value}"', "", 1)
            elif name == "stroke" and name not in each:
                path = re.sub("^<(path|use)", r'<\1 stroke="none"', path)
        written.append(path)
    together = opened[:-1] + "".join(f' {name}="{value}"' for name, value in common.items()) + ">" + "".join(written) + "</g>"
    return together if opened != "<g>" or len(together) < len(before) else before


def in_common(defined: str) -> str:
    """Say the paint that most paths of a part have once, on the part."""
    found = []
    for element in _children(defined):
        part = _part(element)
        if part is None:
            found.append(element)
            continue
        opened, inside = part
        if all(map(_is_plain, inside)):
            found.append(_hoisted(inside, opened))
            continue
        runs = [(plain, list(run)) for plain, run in groupby(inside, _is_plain)]
        found.append(f"{opened}{''.join(_hoisted(run) if plain else ''.join(run) for plain, run in runs)}</g>")
    return "".join(found)


# --- names ----------------------------------------------------------------------------------------------------------------

LETTERS = "abcdefghijklmnopqrstuvwxyz"
NAMED = re.compile(r'( id="|xlink:href="#|url\(#| aria-labelledby=")([^")]*)([")])')


def renamed(figures: list[str]) -> list[str]:
    """Give everything that has a name in the figures a short one: one letter or two, capitals, as no heading of a page has."""
    used = Counter(each for figure in figures for _, names, _ in NAMED.findall(figure) for each in names.split(" "))
    names: dict[str, str] = {}
    for k, (name, _) in enumerate(used.most_common()):
        names[name] = (LETTERS[k // 26 - 1] if k >= 26 else "").upper() + LETTERS[k % 26].upper()

    def renamed_in(found: re.Match[str]) -> str:
        return found[1] + " ".join(names[each] for each in found[2].split(" ")) + found[3]

    return [NAMED.sub(renamed_in, figure) for figure in figures]
