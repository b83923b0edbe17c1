"""Every published source, once, and the constants that rest on them. It imports no other room.

Map
---
`Source`     a publication, or one of the two placeholders for none, `common-practice` and `from-memory`
`SOURCES`    all of them by key; docstrings and constants name keys from here
`Constant`   a float that carries its unit, its source and a note, with a range where there is one
`constant`   makes one, and refuses a key that is not in `SOURCES`
"""

from __future__ import annotations

from dataclasses import dataclass

GROUPS = ("exact", "derived", "measured", "common practice")


@dataclass(frozen=True)
class Source:
    """One publication, or a plain statement that there is none."""

    key: str
    title: str
    authors: str
    year: str
    publisher: str
    standing: str  # "published", "common practice" or "from memory"

    @property
    def citation(self) -> str:
        """The source as one line of text."""
        parts = [p for p in (self.authors, self.title, self.publisher, self.year) if p]
        return ", ".join(parts)


SOURCES: dict[str, Source] = {}


def _source(key: str, title: str, authors: str = "", year: str = "", publisher: str = "", standing: str = "published") -> None:
    if key in SOURCES:
        raise ValueError(f"source {key} is defined twice")
    SOURCES[key] = Source(key, title, authors, year, publisher, standing)


_source("common-practice", "Common practice, no source", standing="common practice")
_source("from-memory", "From memory, not yet read in its source", standing="from memory")
_source("geometry", "Plane and solid geometry: follows from the definitions, derived where it is used")
_source("crc-pappus", "CRC Concise Encyclopedia of Mathematics: Pappus's Centroid Theorem", "E. W. Weisstein", "1999", "CRC Press")
_source("segment", "CRC Concise Encyclopedia of Mathematics: Circular Segment, Sagitta", "E. W. Weisstein", "1999", "CRC Press")
_source("catenary", "CRC Concise Encyclopedia of Mathematics: Catenary", "E. W. Weisstein", "1999", "CRC Press")
_source(
    "steiner",
    "Steiner's formula for parallel bodies: A + P t + pi t^2",
    "J. Steiner",
    "1840",
    "Monatsberichte der Akademie der Wissenschaften zu Berlin",
)
_source(
    "dlmf-19.30",
    "Digital Library of Mathematical Functions, section 19.30(i): lengths of ellipses",
    "",
    "",
    "National Institute of Standards and Technology",
)
_source(
    "oeis-a261849", "A261849: squares of an n x n grid enclosed in a circle of diameter n", "", "", "The On-Line Encyclopedia of Integer Sequences"
)
_source(
    "oeis-a119677",
    "A119677: complete unit squares in a circle of radius n drawn on squared paper",
    "",
    "",
    "The On-Line Encyclopedia of Integer Sequences",
)
_source(
    "oeis-a136485",
    "A136485: unit lattice cells enclosed by an origin-centred circle of diameter n",
    "",
    "",
    "The On-Line Encyclopedia of Integer Sequences",
)
_source(
    "oeis-a372847",
    "A372847: unit squares in a circle of radius n, an even number of full rows",
    "",
    "",
    "The On-Line Encyclopedia of Integer Sequences",
)
_source(
    "oeis-a125228", "A125228: unit squares in a disk of radius n, an odd number of full rows", "", "", "The On-Line Encyclopedia of Integer Sequences"
)
_source(
    "usda-sr",
    "National Nutrient Database for Standard Reference, SR Legacy",
    "U.S. Department of Agriculture, Agricultural Research Service",
    "2018",
    "USDA",
)
_source("fao-density", "FAO/INFOODS Density Database Version 2.0", "U. R. Charrondiere, D. Haytowitz, B. Stadlmayr", "2012", "FAO, Rome")
_source("tm-10-412", "Armed Forces Recipe Service, TM 10-412 / NAVSUP P-7", "", "2003", "US Department of Defense")
_source("quantity-cookery", "Quantity Cookery", "L. Richards, N. Treat", "1922", "Little, Brown")
_source("nist-household", "Household Weights and Measures, Special Publication 430", "", "", "National Institute of Standards and Technology")
_source("nist-811", "Guide for the Use of the SI, Special Publication 811, appendix B", "", "2008", "National Institute of Standards and Technology")
_source("cfr-101.9", "21 CFR 101.9(b)(5)(viii), household measures for nutrition labelling", "", "", "US Food and Drug Administration")
_source("cfr-101.12", "21 CFR 101.12(b), reference amounts customarily consumed", "", "", "US Food and Drug Administration")
_source("food-code", "Food Code, sections 1-201.10, 3-501.16 and 3-501.19", "", "2022", "US Food and Drug Administration")
_source("fsis-2-hour", "The 2-hour rule and the danger zone", "", "2016", "USDA Food Safety and Inspection Service")
_source(
    "egg-advice",
    "Consumer advice on egg mixtures: cook to 160 F (71 C), avoid icings of raw egg white",
    "",
    "2013",
    "US Centers for Disease Control and Prevention",
)
_source("mcgee-2004", "On Food and Cooking: the stages of sugar syrup", "H. McGee", "2004", "Scribner")
_source("browne-1912", "A Handbook of Sugar Analysis: boiling points of sucrose solutions", "C. A. Browne", "1912", "John Wiley & Sons")
_source("si-2013-2996", "Food Safety and Hygiene (England) Regulations 2013, schedule 4", "", "2013", "UK Statutory Instruments")
_source("falcpa", "Food Allergen Labeling and Consumer Protection Act 2004, with the FASTER Act 2021", "", "2021", "United States")
_source("eu-1169", "Regulation (EU) No 1169/2011, Annex II", "", "2011", "European Union")
_source("eu-1333", "Regulation (EC) No 1333/2008, article 24 and Annex V", "", "2008", "European Union")
_source("fsa-glitter", "The use of glitters and dusts with food", "", "", "UK Food Standards Agency")
_source("fda-decorations", "Advice to home and commercial bakers on non-edible decorative products", "", "", "US Food and Drug Administration")
_source(
    "ciede2000",
    "The CIEDE2000 Color-Difference Formula: implementation notes, supplementary test data, and mathematical observations",
    "G. Sharma, W. Wu, E. N. Dalal",
    "2005",
    "Color Research & Application 30(1), 21-30",
)
_source(
    "machado-2009",
    "A Physiologically-based Model for Simulation of Color Vision Deficiency",
    "G. M. Machado, M. M. Oliveira, L. A. F. Fernandes",
    "2009",
    "IEEE Transactions on Visualization and Computer Graphics 15(6), 1291-1298",
)
_source("cie-lab", "CIE 15: Colorimetry, the CIE 1976 L*a*b* colour space", "", "2004", "International Commission on Illumination")
_source("srgb", "IEC 61966-2-1: default RGB colour space, sRGB", "", "1999", "International Electrotechnical Commission")
_source("iso-216", "ISO 216: writing paper, trimmed sizes, A and B series", "", "2007", "International Organization for Standardization")
_source("iso-32000", "ISO 32000-1: Portable Document Format", "", "2008", "International Organization for Standardization")
_source("rfc-5545", "RFC 5545: Internet Calendaring and Scheduling Core Object Specification", "B. Desruisseaux", "2009", "IETF")
_source(
    "niosh-94-110",
    "Applications Manual for the Revised NIOSH Lifting Equation, publication 94-110",
    "T. R. Waters, V. Putz-Anderson, A. Garg",
    "1994",
    "US National Institute for Occupational Safety and Health",
)
_source("hse-l23", "Manual Handling Operations Regulations 1992, guidance L23: team handling", "", "2016", "UK Health and Safety Executive")
_source("wcag-22", "Web Content Accessibility Guidelines 2.2", "", "2023", "W3C")


class Constant(float):
    """A number that carries where it came from; otherwise a plain float."""

    unit: str
    source: Source
    note: str
    group: str
    low: float
    high: float

    def __new__(cls, value: float, unit: str, source: str, note: str, group: str, low: float | None = None, high: float | None = None) -> Constant:
        if source not in SOURCES:
            raise ValueError(f"no source called {source!r}: add it to calc.sources first")
        if group not in GROUPS:
            raise ValueError(f"a constant is one of {', '.join(GROUPS)}, not {group!r}")
        made = super().__new__(cls, value)
        made.unit = unit
        made.source = SOURCES[source]
        made.note = note
        made.group = group
        made.low = value if low is None else low
        made.high = value if high is None else high
        return made

    def __getnewargs__(self) -> tuple[float, str, str, str, str, float, float]:  # type: ignore[override]
        return (float(self), self.unit, self.source.key, self.note, self.group, self.low, self.high)


def constant(
    value: float, unit: str, source: str, note: str, *, group: str = "common practice", low: float | None = None, high: float | None = None
) -> Constant:
    """Make a float that knows its unit, its source, its range and a note on what it rests on.

    `source` is a key of `SOURCES` and `group` one of `GROUPS`; an unknown one raises ValueError.

    >>> constant(25.4, "mm/in", "nist-811", "the inch", group="exact") * 2
    50.8
    """
    return Constant(value, unit, source, note, group, low, high)
