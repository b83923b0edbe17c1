"""Figures that a calculator gives in running text: both systems of units, and no answer of another example."""

import pytest

from tools.site.hook import in_us_units, work_out, written


def test_a_length_in_the_text_is_given_in_both_systems() -> None:
    """66 cm and 8 repeats are 8.25 cm each; 82.5 mm are 3.248 in, a quarter over 3 in."""
    values = {"side": "66 cm", "repeats": "8"}
    metric = work_out("division", values).figures["pitch"]["text"]
    assert "".join(written(metric, in_us_units("division", values, "pitch")).itertext()) == "8.3 cm (3 1/4 in)"


def test_a_range_and_the_other_system_share_one_pair_of_brackets() -> None:
    """303 ml are 1.28 US cups of 236.6 ml."""
    values = {"shape": "round", "width": "20 cm", "height": "10 cm", "layers": "3", "filling": "6 mm", "crumb_coat": "2 mm", "disc": "21 cm"}
    metric = work_out("coats", values).figures["final_coat"]["text"]
    assert "".join(written(metric, in_us_units("coats", values, "final_coat")).itertext()) == "303 ml (303 ml to 397 ml; 1 1/4 cups)"


@pytest.mark.parametrize(
    ("slug", "values", "name"),
    [
        ("portions", {"shape": "round", "width": "20 cm", "slice": "25 x 50 mm"}, "portions"),  # a count
        ("price", {}, "per_portion"),  # money
        ("timetable", {}, "hands"),  # a time
        ("coats", {}, "make"),  # an example that begins with other sizes in US units
    ],
)
def test_what_is_no_measure_or_another_example_stands_alone(slug: str, values: dict[str, str], name: str) -> None:
    assert in_us_units(slug, values, name) == ""


def test_a_figure_alone_has_no_brackets() -> None:
    assert "".join(written("24", "").itertext()) == "24"


def test_brackets_of_a_figure_without_a_range_are_left_where_they_are() -> None:
    """Only a range is set apart: a stretch in words may have brackets of its own."""
    assert [part.text for part in written("8 repeats (5 mm squeezed)", "")] == ["8 repeats (5 mm squeezed)"]
