"""The moving pictures of a page written shortly: the same picture in fewer characters."""

from __future__ import annotations

import cmath
import re

import pytest

from tools.films.moving_films import FILMS, film
from tools.films.moving_markup import markup
from tools.films.moving_short import in_common, parts_once, rounded, runs_on, shapes_once, short

PARTS = '<figure class="pb-moving pb-drawing"><svg class="pb-moving-parts" width="0"><defs>%s</defs></svg></figure>'
LEAF = [(0.0, 0.0), (10.0, 30.0), (40.0, 60.0), (80.0, 20.0), (90.0, -10.0), (60.0, -30.0), (20.0, -20.0)]


def leaf(turn_deg: float = 0.0, x: float = 0.0, y: float = 0.0, longer: float = 0.0) -> str:
    """One shape, turned and moved; `longer`, another."""
    turn = cmath.rect(1.0, turn_deg * cmath.pi / 180)
    places = [turn * complex(u + (longer if u > 50 else 0.0), v) + complex(x, y) for u, v in LEAF]
    (first, *rest) = [f"{at.real:.1f} {at.imag:.1f}" for at in places]
    return f"M{first}C{' '.join(rest[:3])}C{' '.join(rest[3:])}Z"


def used(text: str) -> list[str]:
    return re.findall(r"<use [^>]*>", text)


@pytest.mark.parametrize("name", FILMS)
def test_a_film_written_shortly_has_all_that_it_uses_and_is_shorter(name: str) -> None:
    text = markup(film(name, {}))
    made = short(f"<p>before</p>{text}<p>after</p>")
    assert made.startswith("<p>before</p><figure") and made.endswith("</figure><p>after</p>")
    names = re.findall(r' id="([^"]+)"', made)
    assert len(names) == len(set(names))
    wanted = {
        each for pair in re.findall(r'xlink:href="#([^"]+)"|url\(#([^)]+)\)| aria-labelledby="([^"]*)"', made) for each in " ".join(pair).split()
    }
    assert wanted == set(names), "all that is used is there, and nothing else"
    assert not re.search(r'[^:]href="', made), "the theme's script would write to it"
    assert len(made) < 0.8 * len(text)
    assert made.count("data-of") == text.count("data-of") - text.count('data-of="transform"'), "a transform needs no name"
    for kept in ("data-keys", "data-t=", "<text", "<li>", "<button", "data-grow"):
        assert made.count(kept) == text.count(kept), kept
    assert re.findall(r'data-(?:keys|squeeze|speed|segments)="([^"]*)"', made) == re.findall(r'data-(?:keys|squeeze|speed|segments)="([^"]*)"', text)


def test_a_page_without_films_stays_as_it_is() -> None:
    assert short('<svg><path d="M10.00 0L5 5Z"/></svg>') == '<svg><path d="M10.00 0L5 5Z"/></svg>'


def test_a_circle_is_two_arcs_and_what_is_nearly_one_is_not() -> None:
    ring = "M10 0C10 5.52 5.52 10 0 10C-5.52 10 -10 5.52 -10 0C-10 -5.52 -5.52 -10 0 -10C5.52 -10 10 -5.52 10 0Z"
    assert rounded(ring) == "m-10 0a10 10 0 1 1 20 0a10 10 0 1 1-20 0z"
    for other in (ring.replace("C10 5.52", "C10 7.52"), ring[:-1], ring.replace("0 10C", "0 9C")):
        assert rounded(other) == other
    assert rounded("M4 1C4 1.55 3.1 2 2 2C0.9 2 0 1.55 0 1C0 0.45 0.9 0 2 0C3.1 0 4 0.45 4 1Z") == "m0 1a2 1 0 1 1 4 0a2 1 0 1 1-4 0z"


def test_a_curve_runs_on_only_where_it_does() -> None:
    assert runs_on("M0 0C0 10 20 20 30 20C41 21 60 30 60 40") == "M0 0C0 10 20 20 30 20S60 30 60 40"
    assert runs_on("M0 0C0 10 20 20 30 20C43 20 60 30 60 40").count("C") == 2
    assert runs_on("M0 0C0 1.5 2 2 3 2C4 2 6 3 6 4").count("C") == 2, "in whole numbers only: those are drawn small"


def test_the_same_shape_elsewhere_is_used_with_its_place_and_its_turn() -> None:
    pieces = (leaf(), leaf(0, 30.0, 5.0), leaf(72.0, 12.0, -7.0), leaf(longer=4.0))
    body = "".join(f'<path fill="#00{k}" d="{piece}"/>' for k, piece in enumerate(pieces))
    (made,) = shapes_once([PARTS % f'<g id="a">{body}</g>'])
    assert made.count("<path") == 2 and f'd="{pieces[0]}"' in made and f'd="{pieces[3]}"' in made, "the longer one stays"
    uses = used(made)
    assert [re.search(r'fill="([^"]*)"', use)[1] for use in uses] == ["#000", "#001", "#002"]  # type: ignore[index]
    assert "transform" not in uses[0] and 'transform="translate(30.00 5.00)"' in uses[1]
    lies = [float(part) for part in re.findall(r"-?[\d.]+", uses[2].partition("transform=")[2])]
    assert lies == pytest.approx([12.0, -7.0, 72.0], abs=0.15)


def test_a_shape_whose_colours_lie_along_a_line_is_not_turned() -> None:
    body = "".join(f'<path fill="url(#g)" d="{piece}"/>' for piece in (leaf(), leaf(40.0)))
    text = PARTS % f'<linearGradient id="g"></linearGradient><g id="a">{body}</g>'
    assert shapes_once([text]) == [text]


def test_what_two_parts_have_alike_is_told_once_for_both_and_in_its_order() -> None:
    one, two, three = (f'<path fill="#{k}{k}{k}" d="{leaf(longer=9.0 * k)}"/>' for k in range(3))
    first, second = parts_once([PARTS % f'<g id="a">{one}{two}{three}</g>', PARTS % f'<g id="b">{three}{one}{two}</g>'])
    assert first.count(one) == 1 and one not in second and first.index(f'<g id="vt0">{one}{two}</g>') < first.index('<g id="a">')
    assert f'<g id="b">{three}<use xlink:href="#vt0"/></g>' in second


def test_paint_is_said_once_and_what_differs_says_so() -> None:
    paths = '<path fill="#a" stroke="#b" stroke-width="2" d="m0 0"/><path fill="#a" stroke="#c" stroke-width="2" d="m1 0"/><path fill="#a" d="m2 0"/>'
    assert in_common(f'<g id="a">{paths}</g>') == (
        '<g id="a" fill="#a" stroke-width="2"><path stroke="#b" d="m0 0"/><path stroke="#c" d="m1 0"/><path d="m2 0"/></g>'
    )
    bands = '<path fill="none" stroke="#b" d="m0 0"/>' * 4 + '<path fill="#a" d="m2 0"/>'
    assert in_common(f'<g id="a">{bands}</g>') == (
        '<g id="a" fill="none" stroke="#b">' + '<path d="m0 0"/>' * 4 + '<path stroke="none" fill="#a" d="m2 0"/></g>'
    )
