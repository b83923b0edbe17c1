"""Slices and tins by the names of the trade, in metric and in inch sizes."""

from __future__ import annotations

from dataclasses import dataclass

from calc.shapes import Outline, outline


@dataclass(frozen=True)
class Slice:
    """A slice by its trade name, in a metric and in an inch kitchen [mm]."""

    name: str
    label: str
    metric_mm: tuple[float, float]
    us_mm: tuple[float, float]
    source: str

    def sizes_mm(self, units: str) -> tuple[float, float]:
        """Width and length in the reader's units, "metric" or "us" [mm]."""
        return self.us_mm if units == "us" else self.metric_mm


SLICES: tuple[Slice, ...] = (
    Slice("finger", "Finger, with coffee", (25.0, 25.0), (25.4, 25.4), "common-practice"),
    Slice("wedding", "Wedding", (25.0, 50.0), (25.4, 50.8), "common-practice"),
    Slice("party", "Party", (40.0, 50.0), (38.1, 50.8), "common-practice"),
    Slice("square", "Square, from a sheet", (50.0, 50.0), (50.8, 50.8), "quantity-cookery"),
)


@dataclass(frozen=True)
class Tin:
    """A usual tin: shape and size [mm], with the name it goes by."""

    label: str
    shape: str
    width_mm: float
    length_mm: float | None
    units: str
    source: str

    @property
    def outline(self) -> Outline:
        """Its outline."""
        return self.as_full(None)

    def as_full(self, fullness: float | None) -> Outline:
        """Its outline, a heart of that fullness."""
        return outline(self.shape, self.width_mm, self.length_mm, fullness if self.shape == "heart" else None)


def _tins() -> tuple[Tin, ...]:
    found: list[Tin] = []
    for shape in ("round", "square", "hexagon", "heart", "petal"):
        found += [Tin(f"{cm} cm", shape, cm * 10.0, None, "metric", "common-practice") for cm in (10, 15, 20, 25, 30, 35, 40)]
        found += [Tin(f"{inch} in", shape, inch * 25.4, None, "us", "common-practice") for inch in (4, 6, 8, 10, 12, 14, 16)]
    sheets = (
        ("Eighth sheet", 6, 9, "common-practice"),
        ("Quarter sheet", 9, 13, "common-practice"),
        ("Half sheet", 13, 18, "common-practice"),
        ("Full sheet", 18, 26, "tm-10-412"),
    )
    found += [Tin(f"{name}, {a} x {b} in", "rectangle", a * 25.4, b * 25.4, "us", source) for name, a, b, source in sheets]
    found += [Tin(f"{a} x {b} cm", "rectangle", a * 10.0, b * 10.0, "metric", "common-practice") for a, b in ((20, 30), (23, 33), (30, 40), (40, 60))]
    found += [
        Tin(f"{a} x {b} cm", "oval", a * 10.0, b * 10.0, "metric", "common-practice") for a, b in ((15, 20), (20, 25), (25, 30), (30, 35), (35, 40))
    ]
    found += [Tin(f"{a} x {b} in", "oval", a * 25.4, b * 25.4, "us", "common-practice") for a, b in ((6, 8), (8, 10), (10, 12), (12, 14), (14, 16))]
    return tuple(found)


TINS: tuple[Tin, ...] = _tins()
