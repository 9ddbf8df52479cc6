"""Ironwork that several parts share: crosshead bars, hooks, rings, eye plates, posts."""

from ..sheet import UNIT, Sheet

RING = 0.2 * UNIT


def bar(sheet: Sheet, part: str, span: tuple[float, float], hook: float, y: float, belly: int, pencil: bool) -> None:
    """A crosshead from span[0] to span[1] (radii), straight towards its sheaves, bellied at the hook on the other side.

    `belly` is 1 where the hook is below, -1 where it is above, 0 where there is none.
    """
    left, at = sheet.at(span[0], y)
    right, _ = sheet.at(span[1], y)
    middle, _ = sheet.at(min(max(hook, span[0] + 0.3), span[1] - 0.3), y)
    half = 0.13 * UNIT
    deep = (min(0.46, 0.26 + 0.02 * (span[1] - span[0])) - 0.26) * UNIT * belly
    far, near = (half, -half) if belly >= 0 else (-half, half)
    nub = 2.2
    outline = (
        f"M{left + nub:.1f} {at + near:.1f}H{right - nub:.1f}"
        f"q{nub} {-near * 0.4:.1f} {nub} {-near:.1f}t{-nub} {far:.1f}"
        f"L{middle + 9:.1f} {at + far + deep:.1f}H{middle - 9:.1f}L{left + nub:.1f} {at + far:.1f}"
        f"q{-nub} {-far * 0.6:.1f} {-nub} {-far:.1f}T{left + nub:.1f} {at + near:.1f}Z"
    )
    sheet.path(part, "metal", outline, 0, 0, pencil)
    if pencil:
        return
    if belly >= 0:
        d = f"M{left + nub:.1f} {at + far:.1f}L{middle - 9:.1f} {at + far + deep:.1f}h18"
        d += f"L{right - nub:.1f} {at + far:.1f}"
    else:
        d = f"M{left + nub:.1f} {at + near:.1f}H{right - nub:.1f}"
    sheet.path(part, "bold", d)


def ring(sheet: Sheet, part: str, x: float, y: float, pencil: bool) -> None:
    """A ring about (x, y) px."""
    sheet.circle(part, "tube-case", x, y, RING, pencil)
    sheet.circle(part, "tube", x, y, RING, pencil)


def hook(sheet: Sheet, part: str, x: float, y: float, pencil: bool, long: float = 0.0) -> None:
    """A hook from a collar at (x, y) px, open at its left, its shank longer by `long`: it holds a ring whose centre is
    1.05 radii further down."""
    d = f"M0 4V{12 + long:.1f}c0 5.5 8 4 8 11.5a8 8 0 1 1-16 0q0-3 1.6-5"
    sheet.path(part, "tube-case", d, x, y, pencil)
    sheet.path(part, "tube", d, x, y, pencil)
    sheet.path(part, "metal", "M-5 .2H5V5H-5Z", x, y, pencil)


def short_hook(sheet: Sheet, part: str, x: float, y: float, toward: int, pencil: bool, long: float = 0.0) -> None:
    """The stubby hook that links a fixed block to its eye: collar at (x, y) px, ring centre 0.62 radii on."""
    s = toward
    d = f"M0 {s * 3}v{s * long:.1f}c0 {s * 3} 7.2 {s * 2} 7.2 {s * 9}"
    d += f"a7.2 7.2 0 1 {1 if s > 0 else 0} -14.4 0q0 {s * -2.5} 1.6 {s * -4.4}"
    sheet.path(part, "tube-case", d, x, y, pencil)
    sheet.path(part, "tube", d, x, y, pencil)
    sheet.path(part, "metal", f"M-4.6 0H4.6V{s * 4.4}H-4.6Z", x, y, pencil)


def plate(sheet: Sheet, part: str, x: float, y: float, toward: int, pencil: bool) -> None:
    """The plate of an eye bolt on beam (`toward` 1) or floor (-1)."""
    sheet.rect(part, "metal", x - 0.28 * UNIT, y if toward > 0 else y - 0.13 * UNIT, 0.56 * UNIT, 0.13 * UNIT, pencil)


def post(sheet: Sheet, part: str, x: float, foot: float, head: float, pencil: bool) -> None:
    """A post from the bar to a pin (px)."""
    past = 3.0 if head > foot else -3.0
    d = f"M{x - 2.6:.1f} {foot:.1f}L{x - 3.6:.1f} {head + past:.1f}H{x + 3.6:.1f}L{x + 2.6:.1f} {foot:.1f}Z"
    sheet.path(part, "metal", d, 0, 0, pencil)


def lug(sheet: Sheet, part: str, x: float, pin: float, foot: float, pencil: bool) -> None:
    """A rounded lug on a bar round a pin (px)."""
    sweep = 1 if pin < foot else 0
    d = f"M{x - 5:.1f} {foot:.1f}V{pin:.1f}A5 5 0 0 {sweep} {x + 5:.1f} {pin:.1f}V{foot:.1f}Z"
    sheet.path(part, "metal", d, 0, 0, pencil)


def pin(sheet: Sheet, part: str, x: float, y: float, pencil: bool) -> None:
    sheet.circle(part, "metal", x, y, 0.085 * UNIT, pencil)
