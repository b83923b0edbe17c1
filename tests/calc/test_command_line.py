"""python -m calc SLUG name=value ...: the answer as JSON; 0 with an answer, 2 with problems."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

import calc
from calc.__main__ import main
from calc.calculators import CALCULATORS

ROOT = Path(calc.__file__).parent.parent
ORDER = ROOT / "docs" / "plan" / "harvest-supper.toml"


def command(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "calc", *arguments], cwd=ROOT, capture_output=True, text=True, encoding="utf-8", timeout=60,
        check=False, env={"PYTHONIOENCODING": "utf-8", "PATH": ""},
    )  # fmt: skip


def spoken(capsys: pytest.CaptureFixture[str]) -> dict:  # type: ignore[type-arg]
    out = capsys.readouterr()
    assert not out.err
    return json.loads(out.out)


def test_an_answer_is_json_and_exits_with_0() -> None:
    done = command("division", "side=66 cm", "repeats=10")
    assert done.returncode == 0 and not done.stderr
    data = json.loads(done.stdout)
    assert data["calculator"] == "division" and data["problems"] == []
    assert data["figures"]["pitch"] == {"value": 66.0, "unit": "mm", "text": "6.6 cm", "label": "Pitch, along the surface"}


def test_problems_are_json_and_exit_with_2() -> None:
    done = command("division", "side=abc", "repeats=5")
    assert done.returncode == 2 and "Traceback" not in done.stdout + done.stderr
    data = json.loads(done.stdout)
    assert data["figures"] == {} and [p["input"] for p in data["problems"]] == ["side"]


@pytest.mark.parametrize("slug", sorted(CALCULATORS))
def test_every_calculator_answers_or_says_what_it_lacks(slug: str, capsys: pytest.CaptureFixture[str]) -> None:
    status = main([slug])
    data = spoken(capsys)
    assert data["calculator"] == slug
    assert status == (2 if data["problems"] else 0)
    assert bool(data["figures"] or data["tables"]) == (not data["problems"])


@pytest.mark.parametrize("slug", sorted(CALCULATORS))
def test_every_calculator_refuses_an_input_it_does_not_have(slug: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([slug, "no_such_input=5"]) == 2
    assert "no_such_input" in [p["input"] for p in spoken(capsys)["problems"]]


@pytest.mark.parametrize(
    "arguments, words",
    [
        (["knitting"], "no calculator called knitting"),
        (["division", "repeats"], "not name=value"),
        (["division", "side=@no/such/file"], "cannot be read"),
        (["division", "side=@."], "cannot be read"),
    ],
)
def test_a_slip_on_the_command_line_is_a_problem(arguments: list[str], words: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(arguments) == 2
    data = spoken(capsys)
    assert data["figures"] == {} and words in data["problems"][0]["message"]


def test_a_value_may_stand_in_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "side.txt").write_text("66 cm", encoding="utf-8")
    assert main(["division", f"side=@{tmp_path / 'side.txt'}", "repeats=6"]) == 0
    assert spoken(capsys)["figures"]["pitch"]["value"] == pytest.approx(110)
    (tmp_path / "bad.txt").write_bytes(b"\xff\xfe\x00")
    assert main(["division", f"side=@{tmp_path / 'bad.txt'}"]) == 2


def test_an_equals_sign_may_stand_in_a_value(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["timetable", "title=a=b"]) == 0
    assert "SUMMARY:a=b: ready" in spoken(capsys)["files"][0]["text"]


def test_sheets_are_written_to_a_folder(tmp_path: Path) -> None:
    done = command("sheets", "calculator=lesson", "exercises=shells, swags", "paper=Letter", f"out={tmp_path / 'new'}")
    assert done.returncode == 0, done.stderr[-500:]
    names = [sheet["name"] for sheet in json.loads(done.stdout)["sheets"]]
    assert names == ["lesson-plan", "shopping-list", "class-register", "hand-out", "progress", "practice-shells", "practice-swags"]
    assert sorted(path.stem for path in (tmp_path / "new").iterdir()) == sorted(names)
    assert all(path.read_bytes().startswith(b"%PDF-") for path in (tmp_path / "new").iterdir())


def test_sheets_of_an_order(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheets", f"order=@{ORDER}", "paper=A4", f"out={tmp_path}"]) == 0
    offered = [sheet["name"] for sheet in calc.compute("order", GIVEN["order"]).sheets]
    assert [sheet["name"] for sheet in spoken(capsys)["sheets"]] == offered
    assert sorted(path.stem for path in tmp_path.glob("*.pdf")) == sorted(offered)


@pytest.mark.parametrize(
    "arguments, name",
    [
        (["paper=A3"], "paper"), (["calculator=knitting"], "calculator"), (["calculator=lesson", "students=0"], "students"),
        (["calculator=lesson", "out=/dev/null/x"], "out"),
    ],
)  # fmt: skip
def test_sheets_that_cannot_be_written(arguments: list[str], name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheets", *arguments]) == 2
    assert spoken(capsys)["problems"][0]["input"] == name


def test_help_names_every_calculator(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--help"]) == 0
    out = capsys.readouterr().out
    assert all(slug in out for slug in CALCULATORS)
    assert main([]) == 2


def test_words_of_other_alphabets_come_through() -> None:
    done = command("division", "side=🎂 ½ Zoll", "repeats=5")
    assert done.returncode == 2 and "🎂" in json.loads(done.stdout)["problems"][0]["message"]


def test_compute_gives_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    main(["division", "side=66 cm", "repeats=10"])
    assert spoken(capsys) == calc.compute("division", {"side": "66 cm", "repeats": "10"}).to_dict()
    with pytest.raises(KeyError):
        calc.compute("knitting", {})


# What the page and others build on: added to, never renamed.
INTERFACE = {
    "portions": ("shape width length height slice cut", "portions area_bound cut"),
    "stack": ("guests slice shape height keep_top spare", "portions spare_portions"),
    "supports": ("tiers", "weight"),
    "coats": (
        "shape width length height layers filling crumb_coat final_coat disc",
        "filling crumb_coat final_coat mass finished_width finished_side",
    ),
    "division": ("side width repeats target", "repeats pitch dividers closing_error"),
    "swags": ("side width cutter drop repeats rows tip", "repeats width drop arc_radius length_each length_total mass"),
    "strings": ("side width repeats drop loops", "width drop length_each length_total mass"),
    "shells": ("side width tip per_swag", "shells pitch stretch mass"),
    "rosettes": ("count side spacing tip size", "count mass"),
    "tips": ("family opening width", ""),
    "batch": ("recipe mass whipped", "volume density"),
    "tint": ("test_mass test_drops mass", "drops parts"),
    "colours": ("rows", "bags couplers"),
    "timetable": ("ready_at tiers rows hours", "start"),
    "price": ("ingredients hours rate overhead margin", "cost price per_portion"),
    "lesson": ("students exercises minutes", "buttercream sheets"),
    "order": ("", ""),
}
GIVEN = {
    "division": {"side": "66 cm", "repeats": "6"},
    "swags": {"side": "66 cm", "cutter": "12 cm", "repeats": "6"},
    "strings": {"side": "66 cm", "repeats": "6", "drop": "3 cm"},
    "shells": {"side": "66 cm", "tip": "open star 7 mm"},
    "rosettes": {"count": "12", "tip": "closed star 5 mm"},
    "colours": {"rows.0.colour": "russet", "rows.0.tip": "petal 11 mm", "rows.0.mass": "120 g"},
}
if ORDER.exists():
    GIVEN["order"] = {"order": ORDER.read_text(encoding="utf-8")}


@pytest.mark.parametrize("slug", sorted(INTERFACE))
def test_the_interface_keeps_its_names(slug: str) -> None:
    assert slug in CALCULATORS
    inputs, figures = INTERFACE[slug]
    declared = {i.name for i in CALCULATORS[slug].inputs} | {g.name for g in CALCULATORS[slug].groups}
    assert set(inputs.split()) <= declared
    answer = calc.compute(slug, GIVEN.get(slug, {}))
    assert not answer.problems, answer.problems
    assert json.loads(answer.to_json())["figures"] == answer.figures
    assert set(figures.split()) <= set(answer.figures)
    for figure in answer.figures.values():
        assert figure["unit"] in ("mm", "mm2", "ml", "g", "min", "%", "g/ml", "") and isinstance(figure["text"], str)
