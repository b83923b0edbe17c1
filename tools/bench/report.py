"""Reports the measurements: targets, tables and plots, printed and written into docs/about/speed.md."""

from __future__ import annotations

import html
import json
import math
import re
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from tools.build.paths import DOCS

PAGE = DOCS / "about" / "speed.md"
DATA = DOCS / "about" / "speed.json"
BEGIN, END = "<!-- measured: begin -->", "<!-- measured: end -->"

Results = dict[str, Any]
SEVEN_TIERS = "seven tiers"  # the order page with seven tiers of full rows on it, among the calculators
MEGA = 1e6


def percentile(values: Sequence[float], share: float) -> float:
    """The percentile by the nearest-rank method: always a measured value."""
    ordered = sorted(values)
    return ordered[max(0, math.ceil(share * len(ordered)) - 1)]


def shares(times: Sequence[float], of: Sequence[float]) -> list[float]:
    """The ratio of two times, round by round."""
    return [one / other for one, other in zip(times, of, strict=False)]


def summary(answers: dict[str, dict[str, list[float]]]) -> dict[str, dict[str, Any]]:
    """Median, 95th percentile and count of each calculator's times."""
    found = {}
    for slug, times in sorted(answers.items()):
        if times["page"]:
            ends = {where: [percentile(each, 0.5), percentile(each, 0.95)] for where, each in times.items()}
            found[slug] = {**ends, "edits": len(times["page"])}
    return found


@dataclass(frozen=True)
class Target:
    """A target, the measured figure, and whether it is met."""

    what: str
    measured: float
    limit: float
    unit: str

    @property
    def met(self) -> bool:
        """Whether the measured figure is within the limit."""
        return self.measured <= self.limit

    def row(self) -> tuple[str, str, str, str]:
        """The cells of its row."""
        return self.what, written(self.measured, self.unit), f"at most {written(self.limit, self.unit)}", "met" if self.met else "not met"


def written(value: float, unit: str) -> str:
    """A figure with its unit."""
    match unit:
        case "share":
            return f"{value:.2f}"
        case "MB":
            return f"{value:.2f} MB".replace(".00 MB", " MB")
        case "s":
            return f"{value:.2f} s".replace(".00 s", " s")
        case _:
            return f"{value:.0f} {unit}" if value >= 10 or value == int(value) else f"{value:.1f} {unit}"


def targets(results: Results) -> list[Target]:
    """Every target that has measurements."""
    found = []
    for state in ("cold", "warm"):
        times = results["starts_ms"].get(state, {})
        for other, said, limit in (("pint", "plain Pyodide with pint", 0.20), ("bare", "Pyodide's bare start", 0.30)):
            if times.get("page") and times.get(other):
                share = statistics.median(shares(times["page"], times[other]))
                found.append(Target(f"First live answer, {state}, as a share of {said}", share, limit, "share"))
    answers = results["answers_ms"]
    single = {slug: times["page"][1] for slug, times in answers.items() if slug not in ("order", SEVEN_TIERS)}
    if single:
        slowest = max(single, key=lambda slug: single[slug])
        found.append(Target(f"Key to answer, one calculator, p95 (slowest: {slowest})", single[slowest], 16, "ms"))
    if "order" in answers:
        found.append(Target("Key to answer, the whole order, p50", answers["order"]["page"][0], 25, "ms"))
        found.append(Target("Key to answer, the whole order, p95", answers["order"]["page"][1], 50, "ms"))
    if SEVEN_TIERS in answers:
        found.append(Target("Key to answer, seven tiers of full rows, p95", answers[SEVEN_TIERS]["page"][1], 120, "ms"))
    for kind, said in SHEETS.items():
        if kind != "native" and results.get("sheets_ms", {}).get(kind):
            found.append(Target(f"All sheets of a cake of seven tiers, {said}", statistics.median(results["sheets_ms"][kind]) / 1000, 2, "s"))
    if results["narrow_ms"].get("page paint"):
        found.append(Target("First paint at 10 Mbit/s and 40 ms", statistics.median(results["narrow_ms"]["page paint"]) / 1000, 1, "s"))
    if "page" in results["bytes"]:
        found.append(Target("Fetched before the first live answer, compressed", results["bytes"]["page"] / MEGA, 9, "MB"))
    if "offline" in results["bytes"]:
        found.append(Target("Fetched until everything is saved for offline use", results["bytes"]["offline"] / MEGA, 13, "MB"))
    return found


NAMES = {
    "page": "A technique page",
    "typed": "A technique page, typed into at once",
    "pint": "Plain Pyodide with pint",
    "bare": "Plain Pyodide, no package",
}


SHEETS = {"first": "the first set after a start", "next": "of another such cake after it", "native": "natively"}


def spread(times: Sequence[float]) -> str:
    """The median of several times in seconds, with minimum and maximum."""
    middle, least, most = (value / 1000 for value in (statistics.median(times), min(times), max(times)))
    return f"{middle:.2f} s ({least:.2f} to {most:.2f})"


def start_rows(results: Results) -> list[list[str]]:
    """Times to the first live answer."""
    starts, rows = results["starts_ms"], []
    for name, said in NAMES.items():
        cells = [said]
        for state in ("cold", "warm"):
            times, plain = starts.get(state, {}).get(name), starts.get(state, {}).get("pint")
            cells.append(spread(times) if times else "")
            cells.append(f"{statistics.median(shares(times, plain)):.2f}" if times and plain else "")
        narrow = results["narrow_ms"].get(name)
        cells.append(spread(narrow) if narrow else "")
        cells.append(f"{results['bytes'][name] / MEGA:.2f} MB" if name in results["bytes"] else "")
        memory = results["memory_bytes"].get(name)
        cells.append(f"{statistics.median(memory) / MEGA:.0f} MB" if memory else "")
        rows.append(cells)
    return rows


START_HEADS = ["From opening to the first answer", "Cold", "share", "Warm", "share", "Cold, 10 Mbit/s and 40 ms", "Fetched", "Worker's memory"]
ANSWER_HEADS = ["Calculator", "On the page, p50 [ms]", "p95", "Worker, p50", "p95", "Natively, p50", "p95", "Edits"]


def answer_rows(results: Results) -> list[list[str]]:
    """Times from key to answer, slowest first."""
    answers, rows = results["answers_ms"], []
    for slug in by_slowness(answers):
        cells = [slug]
        for where in ("page", "worker", "native"):
            cells += [f"{value:.1f}" for value in answers[slug][where]]
        rows.append([*cells, str(answers[slug]["edits"])])
    return rows


def picture_words(results: Results) -> str:
    """How long after a key the picture of the whole order stands there, which comes after its words and figures."""
    picture = results["answers_ms"].get("order", {}).get("picture")
    if not picture:
        return ""
    return (
        "In the whole order the time from key to answer is that to its words and figures. The picture of the cake follows by itself where it "
        f"differs: from the key to the picture it took {picture[0]:.1f} ms in the middle and {picture[1]:.1f} ms at p95."
    )


SHEET_HEADS = ["All sheets of a cake of seven tiers", "Taken"]


def sheet_rows(results: Results) -> list[list[str]]:
    """How long a whole set of sheets takes."""
    times, count = results.get("sheets_ms", {}), results["characters"].get("sheets", 0)
    return [[f"{count} sheets, {said}", spread(times[kind])] for kind, said in SHEETS.items() if times.get(kind)]


def by_slowness(answers: dict[str, Any]) -> list[str]:
    """The calculators, slowest first."""
    return sorted(answers, key=lambda slug: (-answers[slug]["page"][1], slug))


def printed(results: Results) -> str:
    """Everything as plain text."""
    lines = [f"{results['engine']}, {results['processors']} processors, load {results['load']}, rounds: {results['rounds']}", ""]
    for heads, rows in ((START_HEADS, start_rows(results)), (ANSWER_HEADS, answer_rows(results)), (SHEET_HEADS, sheet_rows(results))):
        if rows:
            widths = [max(len(row[i]) for row in [heads, *rows]) for i in range(len(heads))]
            lines += ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in [heads, *rows]]
            lines.append("")
    if said := picture_words(results):
        lines += [said, ""]
    for target in targets(results):
        what, measured, limit, met = target.row()
        lines.append(f"{met:8} {what}: {measured}, {limit}")
    return "\n".join(lines)


# ---- the page --------------------------------------------------------------------------------------------------------------


def table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """A Markdown table; all columns but the first are right-aligned, and a figure is not parted from its unit, nor a range in the middle."""
    kept = [[said, *(re.sub(r" (?!\()", "\u00a0", figure) for figure in figures)] for said, *figures in rows]
    lines = [heads, ["---", *["--:"] * (len(heads) - 1)], *kept]
    return "\n".join("| " + " | ".join(cells) + " |" for cells in lines)


WIDE, ROW, LEFT = 400, 24, 130  # of a plot, in its own units: 400 are some 9 cm on a telephone


def text(x: float, y: float, words: str, anchor: str = "start") -> str:
    """Words in a plot."""
    return f'<text class="pb-text" x="{x:.0f}" y="{y:.0f}" font-size="13.6" text-anchor="{anchor}">{html.escape(words)}</text>'


def plot(title: str, described: str, rows: Sequence[str], height: float) -> str:
    """An SVG figure in the colours of the page's scheme."""
    name = re.sub(r"[^a-z]+", "-", title.lower()).strip("-")
    head = f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="{name}" viewBox="0 0 {WIDE} {height:.0f}">'
    body = [f'<title id="{name}">{title}</title><desc>{described}</desc>', *rows, "</svg>"]
    return "\n".join([f'<figure class="pb-drawing">{head}', *body, f"<figcaption>{title}</figcaption></figure>"])


def starts_plot(results: Results) -> str:
    """Bars: the time to the first answer, cold and warm, as shares of plain Pyodide with pint; a dot for each round."""
    rows, y = [], 24.0
    wide = WIDE - LEFT - 60
    top = 1.5
    for state in ("cold", "warm"):
        times = results["starts_ms"][state]
        rows.append(text(4, y - 6, state.capitalize()))
        for name in ("pint", "bare", "page"):
            found = shares(times[name], times["pint"])
            middle = statistics.median(found)
            long = wide * min(middle, top) / top
            kind = "pb-guide" if name == "page" else "pb-cake"
            rows.append(text(LEFT - 8, y + 16, {"pint": "Pyodide with pint", "bare": "Pyodide alone", "page": "this handbook"}[name], "end"))
            if kind == "pb-guide":
                rows.append(f'<line class="pb-guide" x1="{LEFT}" x2="{LEFT + long:.1f}" y1="{y + 11:.0f}" y2="{y + 11:.0f}" stroke-width="14"/>')
            else:
                rows.append(f'<rect class="pb-cake" x="{LEFT}" y="{y + 4:.0f}" width="{long:.1f}" height="14"/>')
            if name != "pint":
                rows += [f'<circle class="pb-line" cx="{LEFT + wide * min(share, top) / top:.1f}" cy="{y + 11:.0f}" r="3"/>' for share in found]
            most = min(max(found), top)
            rows.append(text(LEFT + wide * most / top + 8, y + 16, f"{middle:.2f}"))
            y += ROW
        for share in (0.2,):
            x = LEFT + wide * share / top
            rows.append(f'<line class="pb-line" x1="{x:.1f}" x2="{x:.1f}" y1="{y - 3 * ROW:.0f}" y2="{y:.0f}" stroke-dasharray="3 3"/>')
        y += 26
    described = "Bars for plain Pyodide with pint, Pyodide alone and this handbook; the figures stand in the table below."
    return plot("Time to the first answer, as a share of plain Pyodide with pint; broken line: 0.20; rings: each round", described, rows, y - 14)


def answers_plot(results: Results) -> str:
    """A line for each calculator from p50 to p95, on a logarithmic scale."""
    answers, rows, y = results["answers_ms"], [], 26.0
    least, most = 1.0, 200.0
    wide = WIDE - LEFT - 16

    def at(value: float) -> float:
        return LEFT + wide * math.log(min(max(value, least), most) / least) / math.log(most / least)

    end = y + ROW * len(answers)
    for tick in (1, 2, 5, 16, 50, 100, 200):
        limit = tick in (16, 50)
        rows.append(
            f'<line class="pb-line" x1="{at(tick):.1f}" x2="{at(tick):.1f}" y1="20" y2="{end:.0f}" '
            f'stroke-width="{1 if limit else 0.4}" stroke-dasharray="{"3 3" if limit else "1 4"}"/>'
        )
        rows.append(text(at(tick), 14, f"{tick} ms" if tick == 1 else str(tick), "middle"))
    for slug in by_slowness(answers):
        p50, p95 = answers[slug]["page"]
        rows.append(text(LEFT - 8, y + 16, slug, "end"))
        ends = f'x1="{at(p50):.1f}" x2="{max(at(p95), at(p50) + 1):.1f}"'
        rows.append(f'<line class="pb-guide" {ends} y1="{y + 11:.0f}" y2="{y + 11:.0f}" stroke-width="6"/>')
        rows.append(f'<circle class="pb-cake" cx="{at(p50):.1f}" cy="{y + 11:.0f}" r="4.5"/>')
        y += ROW
    described = "A line for each calculator from the middle time to the slow end; the figures stand in the table below."
    return plot("Time from a key to its answer on the page: p50 (ring) to p95; broken lines: 16 and 50 ms", described, rows, end + 6)


def busy(results: Results) -> str:
    """How busy the machine was, in a sentence."""
    load, processors = results["load"], results["processors"] or 1
    if load <= processors:
        return ""
    return (
        f" While it was measured the machine had much else to do (about {load:.0f} programs wanting its {processors} cores), "
        "so times are longer and vary more than they would; shares suffer less."
    )


def measured(results: Results) -> str:
    """The part of the page that the bench writes."""
    rounds = f"{results['rounds']} round{'s' if results['rounds'] > 1 else ''}"
    parts = [
        f"{results['engine']}, Pyodide {results['pyodide']}, a machine with {results['processors']} cores, {rounds}.{busy(results)}",
        table(("Target", "Measured", "Aim", "Met or not"), [target.row() for target in targets(results)]),
        "## To the first answer",
        starts_plot(results),
        table(START_HEADS, start_rows(results)),
        f"On a third visit, with everything saved for offline use, it took {spread(results['starts_ms']['saved']['page'])}."
        if results["starts_ms"].get("saved", {}).get("page")
        else "",
        "## From key to answer",
        answers_plot(results),
        table(ANSWER_HEADS, answer_rows(results)),
        picture_words(results),
        *(["## Sheets to print", table(SHEET_HEADS, sheet_rows(results))] if sheet_rows(results) else []),
    ]
    return "\n\n".join(part for part in parts if part)


def page_with(page: str, part: str) -> str:
    """The page with its measured part replaced."""
    before, _, rest = page.partition(BEGIN)
    _, found, after = rest.partition(END)
    if not found:
        raise ValueError(f"the page has no {BEGIN} and {END}")
    return f"{before}{BEGIN}\n\n{part}\n\n{END}{after}"


def write(results: Results) -> None:
    """Write the data and the page's measured part."""
    DATA.write_text(json.dumps(results, separators=(",", ":")) + "\n", encoding="utf-8")
    PAGE.write_text(page_with(PAGE.read_text(encoding="utf-8"), measured(results)), encoding="utf-8")
