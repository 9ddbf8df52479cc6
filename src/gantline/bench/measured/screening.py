"""Rows that no tackle of this kind could give: each is set aside with its reason, in its own numbers."""

from fractions import Fraction

from msgspec.structs import replace

from gantline.mechanics import Shares

from .readings import Readings, Refused, Row

TRAVEL = Fraction(3, 100)  # the travels may differ from the velocity ratio by this share: rule and tape, not a strand
WEIGHED = Fraction(3, 100)  # cheap masses may be off by this share before a pull counts as too small


def screened(readings: Readings, shares: Shares) -> Readings:
    """The readings without rows that cannot be, which stand among the refused."""
    kept, refused = [], list(readings.refused)
    least, division = _least(shares), readings.steps.pull or Fraction(0)
    for row in readings.rows:
        reason = _travel(row, shares) or _lowering(row, division) or _efficiency(row, least, division)
        if reason is None:
            kept.append(row)
        else:
            refused.append(reason)
    return replace(readings, rows=tuple(kept), refused=tuple(sorted(refused, key=lambda one: one.line)))


def _travel(row: Row, shares: Shares) -> Refused | None:
    if row.hand is None or row.rise is None:
        return None
    due = shares.velocity_ratio * row.rise
    if abs(row.hand - due) <= TRAVEL * due:
        return None
    met = f"{_short(row.hand / row.rise)} times" if row.rise else "a rise of nothing"
    return Refused(row.line, "travel", f"{met}, not {_short(shares.velocity_ratio)}")


def _lowering(row: Row, division: Fraction) -> Refused | None:
    if not row.raising or not row.lowering:
        return None
    up, down = _mean(row.raising), _mean(row.lowering)
    if down <= up + division:
        return None
    return Refused(row.line, "lowering-above-raising", f"{_short(down)} N above {_short(up)} N")


def _least(shares: Shares) -> Fraction | None:
    """What perfect wheels ask for each newton of load alone; None where a part sinks and helps."""
    load, block, _, rest = shares.raising.at(Fraction(1))
    return None if block < 0 or rest else Fraction(load)


def _efficiency(row: Row, least: Fraction | None, division: Fraction) -> Refused | None:
    """Less pull than perfect wheels need for the load alone."""
    if least is None or row.load is None or not row.raising:
        return None
    up, due = _mean(row.raising), least * row.load
    if up >= due * (1 - WEIGHED) - 2 * division:
        return None
    met = f"efficiency {_short(due / up)}" if up else "no pull at all"
    return Refused(row.line, "efficiency-above-one", f"{met}: {_short(up)} N for {_short(row.load)} N")


def _mean(values: tuple[Fraction, ...]) -> Fraction:
    return Fraction(sum(values)) / len(values)


def _short(number: Fraction) -> str:
    return f"{float(number):.4g}"
