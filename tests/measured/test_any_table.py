"""Whatever stands in a table, it ends in results that can be written down, or in a problem that says what is wrong."""

import json
import random
import warnings

import pytest
from tackles import BURTON, FOUR, RUNNER, SINGLE, rig

from gantline.bench import Limits, Settings, report
from gantline.bench.measured.measuring import read_measured
from gantline.output import lab_report, lab_text, measured_record, measured_toml, readings_csv
from gantline.output.plain import painter

HEADS = ("load (N)", "raise (N)", "lower (N)", "block (N)", "zero (N)")
SHARES = {"raise (N)": 0.3, "lower (N)": 0.22}


def made(chance: random.Random) -> tuple[str, Settings]:
    """A table as nobody should write it, and settings to go with it."""
    heads = [head for head in HEADS if chance.random() < 0.85]
    wild = chance.random() < 0.5
    rows = [",".join(heads)]
    for _ in range(chance.randint(0, 10)):
        load = chance.choice([2, 4, 6, 8, 0, 0.001, 1e6] if wild else [2, 4, 6, 8])
        rows.append(",".join(cell(head, load, wild, chance) for head in heads))
    limits = Limits(chance.choice([None, 0.01]), chance.choice([None, 0.01]))
    taken = tuple(name for name in ("drag", "zero", "block") if chance.random() < 0.2)
    return "\n".join(rows), Settings(limits=limits, draws=10_000, taken=taken)


def cell(head: str, load: float, wild: bool, chance: random.Random) -> str:
    if chance.random() < 0.1:
        return chance.choice(["", "-", "x", "foo", "-1", "1e9", "0", "1e-9"])
    if head == "load (N)":
        return str(load)
    share = SHARES.get(head)
    if share is None:
        return f"{chance.random():.2f}"
    return f"{load * share * (chance.uniform(0.2, 4) if wild else 1):.{chance.randint(1, 3)}f}"


@pytest.mark.parametrize("seed", range(40))
def test_no_table_ends_in_an_error(seed: int) -> None:
    chance = random.Random(seed)
    machine = rig(chance.choice([FOUR, RUNNER, SINGLE, BURTON]))
    table, settings = made(chance)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        found, problems = read_measured(machine, table.encode(), settings)
        if found is None:
            assert all(one.code.startswith("readings-") and one.do for one in problems)
            return
        whole = report(found, machine)
    assert found.readings.read == len(table.splitlines()) - 1
    assert lab_text.report_text(whole, painter(False))
    assert "<main" in lab_report.write(whole)
    json.dumps(measured_record.measured_record(found), allow_nan=False)
    values = measured_toml.read(measured_toml.write(found, machine))
    assert set(values) <= {"top.efficiency", "upper.efficiency", "lower.efficiency", "flyer.efficiency", "lower.weight",
                           "flyer.weight", "fall.drag", "long.drag", "short.drag"}  # fmt: skip
    assert readings_csv.write(found).startswith(b"\xef\xbb\xbf")
    for one in found.estimates:
        if one.interval is not None:
            assert one.interval[0] <= one.value <= one.interval[1]
            assert one.combined.parts
