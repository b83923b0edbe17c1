"""The table of tips: family and opening, what each makes, how it is held, what it is easily taken for.

Rows are (family, opening in mm, points or 0, what it makes, angle, which end faces the cake, consistency, easily taken for). Everything here
is common practice from memory, no source. Sizes of what a tip makes are not kept here: `calc.tips` works them out.
"""

from __future__ import annotations

Row = tuple[str, float, int, tuple[str, ...], str, str, str, str]

SOFT = "soft: a line falls from the tip without breaking"
MIDDLE = "middling: holds a ridge, and a peak bends over"
FIRM = "firm: a peak stands up straight"

FLAT_45 = "45° to the surface"
UPRIGHT = "90°, at right angles to the surface"
AWAY = "level with the joint, drawn 2 to 3 cm (about an inch) away from the side"
SIDE_45 = "45° to the side"
LAID = "nearly flat, 20 to 30° to the surface"

ANY = "no end: it is the same all round"
SEAM = "no end, but one point of the star in line with the row gives even ridges"
THICK = "the thick end against the cake, the thin end away from it"
POINT = "one point of the V towards the cake, the other away"
RIDGED = "the toothed side up, the smooth side on the cake"
PLAIN_EDGE = "the thick or straight end against the cake, the wavy end away from it"

ROWS: tuple[Row, ...] = (
    # --- round
    ("round", 1.0, 0, ("string", "line"), AWAY, ANY, SOFT, "a 1.2 mm round; look at the drop it leaves"),
    ("round", 1.2, 0, ("string", "line"), AWAY, ANY, SOFT, "a 1 mm or 1.5 mm round"),
    ("round", 1.5, 0, ("string", "line", "bead"), AWAY, ANY, SOFT, "a 1.8 mm round"),
    ("round", 1.8, 0, ("string", "line", "bead"), AWAY, ANY, SOFT, "a 1.5 mm or 2 mm round"),
    ("round", 2.0, 0, ("string", "line", "bead", "S scroll"), AWAY, ANY, SOFT, "a 1.8 mm round"),
    ("round", 2.5, 0, ("line", "bead", "string", "C scroll", "S scroll"), FLAT_45, ANY, SOFT, "a 2 mm round"),
    ("round", 3.0, 0, ("line", "bead", "C scroll", "S scroll"), FLAT_45, ANY, SOFT, "a 2.5 mm round"),
    ("round", 4.0, 0, ("bead", "line", "C scroll", "rope"), FLAT_45, ANY, MIDDLE, "a 4 mm closed star with worn teeth"),
    ("round", 5.0, 0, ("bead", "line", "rope"), FLAT_45, ANY, MIDDLE, "a 6 mm round"),
    ("round", 6.0, 0, ("bead", "rope", "line"), FLAT_45, ANY, MIDDLE, "a coupler's own end, which is wider"),
    ("round", 8.0, 0, ("bead", "rope", "swag"), FLAT_45, ANY, MIDDLE, "a 10 mm round"),
    ("round", 10.0, 0, ("bead", "rope", "swag"), FLAT_45, ANY, MIDDLE, "a coupler's end without a tip"),
    ("round", 12.0, 0, ("bead", "swag"), UPRIGHT, ANY, MIDDLE, "a bag cut open, which is never quite round"),
    # --- open star
    ("open star", 2.5, 5, ("shell", "star", "line"), FLAT_45, SEAM, MIDDLE, "a 2.5 mm round clogged at the teeth"),
    ("open star", 3.5, 6, ("shell", "star", "zigzag", "line"), FLAT_45, SEAM, MIDDLE, "a 3.5 mm closed star, whose teeth bend in"),
    ("open star", 4.5, 6, ("shell", "star", "zigzag", "rope", "C scroll"), FLAT_45, SEAM, MIDDLE, "a 4.5 mm closed star"),
    (
        "open star",
        6.0,
        6,
        ("shell", "reverse shell", "star", "zigzag", "rosette", "rope", "C scroll", "S scroll"),
        FLAT_45,
        SEAM,
        MIDDLE,
        "a 5 mm closed star, which gives deeper grooves",
    ),
    (
        "open star",
        7.0,
        6,
        ("shell", "reverse shell", "star", "zigzag", "rosette", "rope", "swag", "ruched border"),
        FLAT_45,
        SEAM,
        MIDDLE,
        "a 6 mm open star: count the pitch of ten shells",
    ),
    (
        "open star",
        8.0,
        6,
        ("shell", "reverse shell", "star", "rosette", "rope", "swag", "ruched border"),
        FLAT_45,
        SEAM,
        MIDDLE,
        "a 9 mm star of eight points",
    ),
    ("open star", 10.0, 8, ("shell", "reverse shell", "star", "rosette", "rope", "swag"), FLAT_45, SEAM, MIDDLE, "an 11 mm fine star"),
    ("open star", 12.0, 8, ("shell", "reverse shell", "star", "rosette", "rope"), FLAT_45, SEAM, MIDDLE, "a 12 mm closed star"),
    ("open star", 15.0, 8, ("shell", "star", "rosette"), UPRIGHT, SEAM, MIDDLE, "a 15 mm fine star"),
    ("open star", 11.0, 12, ("shell", "star", "rosette", "swag"), FLAT_45, SEAM, MIDDLE, "an open star of eight points: these ridges are finer"),
    ("open star", 15.0, 14, ("shell", "rosette", "star"), UPRIGHT, SEAM, MIDDLE, "an open star of eight points"),
    # --- closed star
    ("closed star", 3.0, 6, ("shell", "star", "line"), FLAT_45, SEAM, MIDDLE, "an open star bent by being dropped"),
    ("closed star", 4.0, 6, ("shell", "star", "rosette"), FLAT_45, SEAM, MIDDLE, "a 4.5 mm open star"),
    ("closed star", 5.0, 6, ("rosette", "shell", "star", "reverse shell"), UPRIGHT, SEAM, MIDDLE, "a 5 mm open star, whose ridges are softer"),
    ("closed star", 6.0, 6, ("rosette", "shell", "star", "reverse shell", "rope"), UPRIGHT, SEAM, MIDDLE, "a 7 mm open star"),
    ("closed star", 8.0, 6, ("rosette", "shell", "star", "reverse shell"), UPRIGHT, SEAM, MIDDLE, "an 8 mm open star"),
    ("closed star", 10.0, 8, ("rosette", "shell", "star"), UPRIGHT, SEAM, MIDDLE, "a drop flower tip, which has a pin in the middle"),
    ("closed star", 13.0, 8, ("rosette", "star", "shell"), UPRIGHT, SEAM, MIDDLE, "a 12 mm open star"),
    # --- petal
    ("petal", 6.0, 0, ("flower", "ruched border", "swag"), SIDE_45, THICK, FIRM, "a 6 mm leaf, which has no thick end"),
    ("petal", 8.0, 0, ("swag", "ruched swag", "ruched border", "flower"), SIDE_45, THICK, MIDDLE, "a 9 mm petal"),
    ("petal", 9.0, 0, ("swag", "ruched swag", "ruched border", "flower"), SIDE_45, THICK, MIDDLE, "an 8 mm petal"),
    (
        "petal",
        11.0,
        0,
        ("swag", "ruched swag", "ruched border", "flower"),
        SIDE_45,
        THICK,
        MIDDLE,
        "a 12 mm ruffle, whose slot is even or wavy",
    ),
    (
        "petal",
        13.0,
        0,
        ("swag", "ruched swag", "ruched border", "flower"),
        SIDE_45,
        THICK,
        MIDDLE,
        "a curved petal of the same length, which cups",
    ),
    ("petal", 16.0, 0, ("swag", "ruched swag", "ruched border", "flower"), SIDE_45, THICK, MIDDLE, "a 15 mm ruffle"),
    ("petal", 20.0, 0, ("swag", "ruched swag", "ruched border"), SIDE_45, THICK, MIDDLE, "a 20 mm ruffle"),
    ("petal", 26.0, 0, ("swag", "ruched border"), SIDE_45, THICK, MIDDLE, "a cake-icing slot, which is even from end to end"),
    # --- leaf
    ("leaf", 3.0, 0, ("leaf",), FLAT_45, POINT, MIDDLE, "a small petal"),
    ("leaf", 4.5, 0, ("leaf",), FLAT_45, POINT, MIDDLE, "a leaf tip with a ridge, which gives a vein"),
    ("leaf", 6.0, 0, ("leaf", "ruched border"), FLAT_45, POINT, MIDDLE, "a closed star squeezed flat"),
    ("leaf", 8.0, 0, ("leaf", "ruched border", "swag"), FLAT_45, POINT, MIDDLE, "a bag cut to a V, which wears and widens"),
    ("leaf", 10.0, 0, ("leaf", "ruched border", "ruched swag"), FLAT_45, POINT, MIDDLE, "a 10 mm petal"),
    ("leaf", 13.0, 0, ("leaf", "ruched border", "ruched swag"), FLAT_45, POINT, MIDDLE, "a 12 mm basket tip seen from the side"),
    # --- ruffle
    ("ruffle", 10.0, 0, ("ruched border", "ruched swag", "swag"), SIDE_45, PLAIN_EDGE, MIDDLE, "a petal of the same length"),
    ("ruffle", 15.0, 0, ("ruched border", "ruched swag", "swag"), SIDE_45, PLAIN_EDGE, MIDDLE, "a 16 mm petal"),
    ("ruffle", 20.0, 0, ("ruched border", "ruched swag", "swag"), SIDE_45, PLAIN_EDGE, MIDDLE, "a 20 mm petal"),
    ("ruffle", 26.0, 0, ("ruched border", "swag"), SIDE_45, PLAIN_EDGE, MIDDLE, "a wide basket tip"),
    # --- basket
    ("basket", 6.0, 0, ("basketweave", "line"), LAID, RIDGED, MIDDLE, "a small petal held flat"),
    ("basket", 9.0, 0, ("basketweave", "line", "zigzag"), LAID, RIDGED, MIDDLE, "a smooth band tip, which has no teeth"),
    ("basket", 12.0, 0, ("basketweave", "line", "zigzag", "ruched border"), LAID, RIDGED, MIDDLE, "a 12 mm ruffle"),
    ("basket", 16.0, 0, ("basketweave", "line", "ruched border"), LAID, RIDGED, MIDDLE, "a band tip with teeth on both sides"),
    ("basket", 20.0, 0, ("basketweave", "line"), LAID, RIDGED, MIDDLE, "a cake-icing slot, which has finer teeth"),
)
