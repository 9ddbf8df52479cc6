"""Work put in and work got out: two bars to one scale, hatched, tinted, solid, and dashed where it is lost."""

from gantline.mechanics import Regime
from gantline.rig import Load

from ..labels import Spot, Wanted
from ..plate import Plate
from ..scene import Run
from ..words import plain
from .column import middle
from .strands import write_on_strands

WIDE, APART, TALLEST = 34.0, 62.0, 210.0


def draw(plate: Plate, way: str | None = None) -> None:
    plate.draw_rig()
    regime = plate.answer.regime(way) if way in ("ideal", "raising", "lowering", "holding") else None  # type: ignore[arg-type]
    wanted = _bars(plate, regime or plate.answer.ideal)
    write_on_strands(plate, {}, extra=wanted)
    plate.caption = plain("Work put in, and what it became, to one scale")


def _bars(plate: Plate, regime: Regime) -> list[Wanted]:
    work = regime.work
    if work is None or work.put_in is None or work.put_in.number is None:
        return []
    gains = [
        (name, float(share.number)) for name, share in work.shares if share.number is not None and share.number > 0
    ]
    lost = float(work.lost.number) if work.lost and work.lost.number else 0.0
    whole = max(float(work.put_in.number), sum(gain for _, gain in gains) + lost)
    if whole <= 0:
        return []
    x, y = middle(plate)
    _, top, _, bottom = plate.rig_box()
    scale = min(TALLEST, 0.6 * (bottom - top)) / whole
    foot = y + whole * scale / 2
    plate.sheet.layer = "work"
    wanted = [_put_in(plate, x - APART / 2, foot, float(work.put_in.number) * scale, plate.value(work.put_in))]
    level = foot
    loads = {part.name for part in plate.rig.parts if isinstance(part, Load)}
    for name, gain in sorted(gains, key=lambda one: one[0] not in loads):
        number = plate.amount(next(s.number for n, s in work.shares if n == name and s.number is not None), "J")
        role = "load" if name in loads else "weight"
        wanted.append(_piece(plate, x + APART / 2, level, gain * scale, role, name, (*plain(number),)))
        level -= gain * scale
    if lost:
        wanted.append(
            _piece(plate, x + APART / 2, level, lost * scale, "work-lost", "lost", plain(plate.value(work.lost)))
        )
    return wanted


def _put_in(plate: Plate, x: float, foot: float, tall: float, number: str) -> Wanted:
    plate.sheet.rect("hand", "work-in", x - WIDE / 2, foot - tall, WIDE, tall)
    strokes = []
    pitch = 7.0
    for n in range(int((tall + WIDE) / pitch) + 1):
        rise = n * pitch
        x1, y1 = (0.0, rise) if rise <= tall else (rise - tall, tall)
        x2, y2 = (rise, 0.0) if rise <= WIDE else (WIDE, rise - WIDE)
        strokes.append(f"M{x - WIDE / 2 + x1:.1f} {foot - y1:.1f}L{x - WIDE / 2 + x2:.1f} {foot - y2:.1f}")
    plate.sheet.path("hand", "hatch-red", "".join(strokes))
    plate.claim(x - WIDE / 2, foot - tall, x + WIDE / 2, foot)
    words = plain(number)
    return Wanted(
        "hand",
        "red-text",
        words,
        15.0,
        600,
        [Spot(x, foot + 18, "middle", 0.0), Spot(x, foot - tall - 8, "middle", 1.0)],
    )


def _piece(plate: Plate, x: float, foot: float, tall: float, role: str, part: str, words: tuple[Run, ...]) -> Wanted:
    plate.sheet.rect(part, role, x - WIDE / 2, foot - tall, WIDE, tall)
    plate.claim(x - WIDE / 2, foot - tall, x + WIDE / 2, foot)
    spots = [
        Spot(x + WIDE / 2 + 7, foot - tall / 2 + 5 + d, "start", abs(d) / 100) for d in (0.0, 10.0, -10.0, 22.0, -22.0)
    ]
    return Wanted(part, "ink-text", words, 15.0, 500, spots)
