"""Calculator fences are read as they are written, and a slip in one is an error, not an odd page."""

from __future__ import annotations

from pathlib import Path

import pytest

from tools.build.fences import CALCULATOR_OPTIONS, Fence, Unreadable, calculators_in


def test_a_fence_holds_a_name_values_and_options() -> None:
    fence = Fence("swags\n@title Swags of your own\n# a remark\nside = 66 cm\ntip = petal 11 mm\ntiers.0.width =\n", CALCULATOR_OPTIONS)
    assert fence.name == "swags"
    assert fence.options == {"title": "Swags of your own"}
    assert fence.values == {"side": "66 cm", "tip": "petal 11 mm", "tiers.0.width": ""}


@pytest.mark.parametrize("text", ["", "swags\nside 66 cm", "swags\n@colour red", "swags\nSide = 66 cm", "swags\n= 66 cm"])
def test_a_slip_is_an_error(text: str) -> None:
    with pytest.raises(Unreadable):
        Fence(text, CALCULATOR_OPTIONS)


def test_every_fence_of_a_page_is_found_and_its_order_read(tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    (tmp_path / "supper.toml").write_text('name = "Supper"\n', encoding="utf-8")
    order, plain, swags = "```calculator\norder\n@order supper.toml\n```", "```\nno\n```", "```calculator\nswags\nside = 1 m\n```"
    page.write_text("\n\n".join(["# A", order, plain, swags]), encoding="utf-8")
    found = [fence for _, fence in calculators_in([page])]
    assert [fence.name for fence in found] == ["order", "swags"]
    assert found[0].inputs(page) == {"order": 'name = "Supper"\n'}
    assert found[1].inputs(page) == {"side": "1 m"}
