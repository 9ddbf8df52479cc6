"""The speed table: ratios measured side by side in one run, medians of processor time. Writes docs/speed.md.

Run it on a quiet machine with `make speed`. Nothing here passes or fails: machines differ,
and the table says what it saw.
"""

import math
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path
from statistics import median

import msgspec
import numpy as np
import sympy
from editors import edit_together

from gantline import figure
from gantline.bench import Plan, plan, read_kit, sheet
from gantline.bench.measured.budget import Limits
from gantline.bench.measured.draws import AT_ONCE, DRAWS, Drawing, monte_carlo
from gantline.bench.measured.fit import fit
from gantline.bench.measured.means import means
from gantline.bench.measured.model import Model
from gantline.bench.measured.readings import read_readings
from gantline.bench.measured.screening import screened
from gantline.loft.tasks import run
from gantline.mechanics import shares, solve, steady, sweep, trial
from gantline.notation import parse
from gantline.output import bench_html, bench_pdf
from gantline.output.svg import write
from gantline.rig import Rig, read
from gantline.sources import GRAVITY

ROOT = Path(__file__).parent.parent
SHELF = sorted((ROOT / "src/gantline/shelf").glob("*.rig"))


def rig_of(text: str) -> Rig:
    rig, problems = read(parse(text)[0])
    if rig is None:
        raise SystemExit(f"a rig of the table does not read: {problems}")
    return rig


def side_by_side(*tasks: Callable[[], object], rounds: int = 7, repeat: int = 1) -> list[float]:
    """Median processor seconds of each task, run in turn."""
    times: list[list[float]] = [[] for _ in tasks]
    for task in tasks:
        task()
    for _ in range(rounds):
        for n, task in enumerate(tasks):
            start = time.process_time()
            for _ in range(repeat):
                task()
            times[n].append((time.process_time() - start) / repeat)
    return [median(each) for each in times]


def tackle(sheaves: int) -> str:
    """A tackle of `sheaves` sheaves, half of them moving, hauled down."""
    half = sheaves // 2
    path = ", ".join(f"under lower.{n}, over upper.{n}" for n in range(1, half + 1))
    return (
        f"fixed upper sheaves {half}\nmoving lower sheaves {half}, weight 12 N, carries sack\n"
        f"load sack weight 348 N\nrope fall: upper, {path}, hand\nraise sack 0.5 m\n"
    )


DOUBLE_ATWOOD = """gravity 9.8 m/s2
fixed top sheaves 1
moving swing sheaves 1
load crate mass 6 kg
load sack mass 5 kg
load bag mass 1 kg
rope long: crate, over top, swing
rope short: sack, over swing, bag
"""


def tackle_equations(strands: int) -> tuple[list[sympy.Expr], list[sympy.Symbol]]:
    """The same tackle as equations: equal pulls, balance, effort, support, rope length, work, advantage."""
    w_load, w_block, h = sympy.symbols("W w h")
    pulls = list(sympy.symbols(f"T1:{strands + 2}"))
    effort, support, haul = sympy.symbols("F R s")
    equations = [a - b for a, b in pairwise(pulls)]
    equations += [sum(pulls[:-1]) - w_load - w_block, effort - pulls[-1], support - sum(pulls), haul - strands * h]
    return equations, [*pulls, effort, support, haul]


def atwood_equations() -> tuple[list[sympy.Expr], list[sympy.Symbol]]:
    m1, m2, m3, g = sympy.symbols("m1 m2 m3 g")
    unknown = list(sympy.symbols("A B C D a1 a2 a3 a4 R"))
    a, b, c, d, a1, a2, a3, a4, support = unknown
    equations = [a - b, c - d, b - c - d, a - m1 * g - m1 * a1, c - m2 * g - m2 * a2, d - m3 * g - m3 * a3,
                 a1 + a4, 2 * a4 - a2 - a3, support - a - b]  # fmt: skip
    return equations, unknown


def against_algebra() -> list[str]:
    rows = []
    cases = [(f"{n} strands", tackle(n), tackle_equations(n)) for n in (2, 4, 10)]
    cases.append(("double Atwood", DOUBLE_ATWOOD, atwood_equations()))
    for name, text, (equations, unknown) in cases:
        rig = rig_of(text)
        ours, theirs = side_by_side(lambda r=rig: solve(r), lambda e=equations, u=unknown: sympy.solve(e, u), repeat=5)
        rows.append(f"| {name} | {ours * 1e3:.2f} ms | {theirs * 1e3:.1f} ms | {theirs / ours:.0f} | 100 |")
    return rows


def growth() -> tuple[list[str], float]:
    sizes = (10, 30, 100, 300, 1000)
    rigs = [rig_of(tackle(n)) for n in sizes]
    # the growth of numbers alone: below the size limit formulas are made too, so the first size is past it
    times = side_by_side(*(lambda r=rig: solve(r) for rig in rigs), rounds=5)
    slope = math.log(times[-1] / times[2]) / math.log(sizes[-1] / sizes[2])
    whole = math.log(times[-1] / times[0]) / math.log(sizes[-1] / sizes[0])
    rows = [f"| {n} | {t * 1e3:.2f} ms |" for n, t in zip(sizes, times, strict=True)]
    return rows, max(slope, whole)


def sweeping() -> tuple[float, float]:
    rig, load, block = rig_of(tackle(4)), np.linspace(1, 500, 10**6), np.linspace(0, 20, 10**6)
    ours, copying = side_by_side(
        lambda: sweep(rig, {"W": load, "w": block}), lambda: (load.copy(), block.copy()), rounds=9
    )
    return ours, copying


def shelf() -> list[tuple[float, str]]:
    """Processor time to read, solve, certify and draw each ready rig, slowest first."""
    found = []
    for path in SHELF:
        text = path.read_text(encoding="utf-8")

        def all_of_it(text: str = text) -> None:
            rig = rig_of(text)
            write(figure.draw(rig, solve(rig), "bare"))

        try:
            (spent,) = side_by_side(all_of_it, rounds=7)
        except figure.NotDrawable:
            continue
        found.append((spent, path.stem))
    return sorted(found, reverse=True)


def keystrokes() -> list[tuple[float, str]]:
    """Processor time of the loft's server part, from the words of a request to the bytes of its answer, for each ready
    rig, slowest first. Each words are new, as at a keystroke."""
    found = []
    for path in SHELF:
        text = path.read_text(encoding="utf-8")
        fresh = iter(range(10**6))

        def keystroke(text: str = text, fresh: Iterator[int] = fresh) -> None:
            asked = msgspec.json.encode({"text": f"{text}# {next(fresh)}\n"})
            msgspec.json.encode(run("see", asked, lambda _: None))

        (spent,) = side_by_side(keystroke, rounds=9)
        found.append((spent, path.stem))
    return sorted(found, reverse=True)


def loft() -> str:
    """The section on the loft."""
    keys = keystrokes()
    slowest = "\n".join(f"| {name} | {spent * 1e3:.1f} ms |" for spent, name in keys[:5])
    middle = median(spent for spent, _ in keys)
    met = edit_together(200, 10, 1.0)
    return f"""## The loft: from a keystroke to the answer

The server part for everything the page shows: read, solve, certify, draw, list the parts, write it out. The slowest of
{len(keys)} ready rigs (aimed at: under 16 ms each); the middle one takes {middle * 1e3:.1f} ms.

| rig | processor time |
|---|---|
{slowest}

Two hundred editors at one loft on this machine, an edit a second each, ten each, all rigs of the shelf:
{len(met.seconds)} answers, {len(met.errors)} errors; median {met.middle * 1e3:.0f} ms, 95 of 100 below
{met.most * 1e3:.0f} ms (wall time, the editors on the same machine).
"""


def table_top(strands: int) -> Rig:
    """A tackle of real rope and real blocks, carrying 10 N."""
    half = strands // 2
    path = ", ".join(f"under lower.{n}, over upper.{n}" for n in range(1, half + 1))
    return rig_of(
        f"fixed upper sheaves {half}, efficiency 90 %\nload bag weight 10 N\n"
        f"moving lower sheaves {half}, weight 0.5 N, efficiency 90 %, carries bag\nrope fall: upper, {path}, hand\n"
    )


def trials() -> str:
    """Steady states and onsets of a hauled rig."""
    hand = [n / 1000 for n in range(1, 101)]
    rows = []
    for strands, limit in ((4, "60 ms"), (6, ""), (10, "400 ms")):
        rig = table_top(strands)
        still, moving = side_by_side(lambda r=rig: steady(r), lambda r=rig: trial(r, hand))
        rows.append(f"| {strands} strands | {still * 1e3:.2f} ms | {moving * 1e3:.1f} ms | {limit} |")
    table = "\n".join(rows)
    return f"""## A trial: what is seen when it is hauled

The steady state, up and down (aimed at: under 2 ms), and the way there at 100 hand travels, 1 mm apart, every event
dated.

| rig | steady | 100 readings | aimed at: under |
|---|---|---|---|
{table}
"""


def benches() -> str:
    """The section on the bench plan: from a rig and the sample kit to the plan, its page and its print."""
    kit, problems = read_kit((ROOT / "src/gantline/shelf/kit.toml").read_bytes())
    if kit is None:
        raise SystemExit(f"the sample kit does not read: {problems}")
    rows = []
    for name in ("planter", "luff-upon-luff", "ten-strands"):
        rig = rig_of((ROOT / f"src/gantline/shelf/{name}.rig").read_text("utf-8"))
        found = plan(rig, kit)
        if not isinstance(found, Plan):
            raise SystemExit(f"{name} is not planned: {found}")
        said = sheet(found)
        planned, paged, printed = side_by_side(
            lambda r=rig: plan(r, kit), lambda s=said: bench_html.write(s), lambda s=said: bench_pdf.write(s), rounds=5
        )
        rows.append(f"| {name} | {planned * 1e3:.0f} ms | {paged * 1e3:.1f} ms | {printed * 1e3:.0f} ms |")
    table = "\n".join(rows)
    return f"""## A bench plan

Masses, scale, blocks and cord chosen from the sample kit, everything solved anew, marks and cautions; then its page,
and its print on one sheet; all warm.

| rig | plan | page | print |
|---|---|---|---|
{table}
"""


def measurements() -> str:
    """The section on what was measured: the draws of a budget, a fit, and a table of many rows."""
    readings, problems = read_readings((ROOT / "src/gantline/shelf/readings.csv").read_bytes(), GRAVITY.value)
    if readings is None:
        raise SystemExit(f"the sample readings do not read: {problems}")
    of, limits = shares(rig_of((ROOT / "src/gantline/shelf/planter.rig").read_text("utf-8"))), Limits(0.01, 0.01)
    model = Model(of, means(screened(readings, of).rows))
    found = fit(model, 0.02, 0.01, {}, {})
    drawing, random = Drawing(found, limits), np.random.default_rng(1)

    def draw_only() -> None:
        for _ in range(0, DRAWS, AT_ONCE):
            drawing.drawn(random, AT_ONCE)

    whole, only = side_by_side(lambda: monte_carlo(found, limits, DRAWS), draw_only, rounds=5)
    (fitting,) = side_by_side(lambda: fit(model, 0.02, 0.01, {}, {}), repeat=20)
    rows = "".join(f"{n % 20 + 1}00;{n % 97 / 100 + 1:.2f};{n % 89 / 100:.2f};pupil {n}\n" for n in range(100_000))
    table = ("load (g);raise (N);lower (N);name\n" + rows.replace(".", ",")).encode()
    (reading,) = side_by_side(lambda: read_readings(table, GRAVITY.value), rounds=3)
    return f"""## What was measured

A million draws for the budget of four results from fourteen means, each solved anew: {whole * 1e3:.0f} ms; drawing
their inputs alone: {only * 1e3:.0f} ms; ratio {whole / only:.1f} (aimed at: at most 4).

A fit of both branches: {fitting * 1e3:.1f} ms. A table of 100,000 rows, read and checked: {reading:.1f} s (aimed at: at
most 10 s).
"""


def cold(*command: str) -> float:
    times = []
    for _ in range(7):
        start = time.perf_counter()
        subprocess.run(command, check=True, capture_output=True)
        times.append(time.perf_counter() - start)
    return median(times)


def page() -> str:
    python, gantline = sys.executable, str(Path(sys.executable).parent / "gantline")
    planter, runner = (str(ROOT / f"src/gantline/shelf/{name}.rig") for name in ("planter", "runner-up"))
    algebra = "\n".join(against_algebra())
    sizes, slope = growth()
    swept, copied = sweeping()
    drawn = shelf()
    workshop = loft()
    tried = trials()
    bench = benches()
    measured = measurements()
    bare, solved = cold(python, "-c", "pass"), cold(gantline, "solve", planter)
    with tempfile.TemporaryDirectory() as folder:
        cold_lesson = cold(gantline, "lesson", planter, runner, "-o", f"{folder}/lesson")
    slowest = "\n".join(f"| {name} | {spent * 1e3:.1f} ms |" for spent, name in drawn[:5])
    return f"""# How fast it is

Made by `make speed`: ratios taken side by side in one run, medians, processor time unless it says otherwise. Absolute
times are those of one machine on one day.

## An exact answer with formulas and certificate, against a computer-algebra library

Ours is a whole answer: every pull, support, motion and work with its formula, the relations, and all checks. Theirs
(SymPy) is `solve` of the rig's equations alone, without checks.

| rig | ours | algebra library | times as fast | aimed at |
|---|---|---|---|---|
{algebra}

The aim is missed: an answer is a few hundred small Python objects (values, formulas, checks), and making them costs
more than the elimination itself, which takes about a tenth of the time.

## Long rigs, numbers only

Past 64 sheaves an answer has exact numbers and no formulas; the first two rows still carry theirs.

| sheaves | solve and certify |
|---|---|
{chr(10).join(sizes)}

Cost grows as n to the power {slope:.2f} (aimed at: at most 1.2).

## A million variants

A sweep of load and block weight over four strands: {swept * 1e3:.1f} ms; copying its two arrays: {copied * 1e3:.1f} ms;
ratio {swept / copied:.1f} (aimed at: at most 3).

## Read, solve, certify and draw

The slowest of {len(drawn)} ready rigs that can be drawn, warm (aimed at: under 16 ms each).

| rig | processor time |
|---|---|
{slowest}

{workshop}
{tried}
{bench}
{measured}
## From cold (wall time)

| what | time | aimed at |
|---|---|---|
| `python -c pass` | {bare * 1e3:.0f} ms | |
| `gantline solve` | {solved * 1e3:.0f} ms, {solved / bare:.1f} times as long | under 8 times |
| `gantline lesson` over two rigs, print included | {cold_lesson:.2f} s | under 3 s without the first run of the print |
"""


if __name__ == "__main__":
    text = page()
    (ROOT / "docs/speed.md").write_text(text, encoding="utf-8")
    print(text)
