"""Pulls with real wheels: behind each strand a band, its width beyond the rope in proportion to the pull."""

from gantline.mechanics import Regime

from ..glyphs import notes
from ..labels import Wanted, clear, settle, strand_spots
from ..layout import Straight
from ..plate import Plate
from ..scene import Run
from ..words import mathematics, plain
from .strands import part_marks, shelves, spots_beside, strand_texts

ROPE, WIDEST, TALLEST = 6.2, 15.0, 62.0


def draw(plate: Plate, way: str | None = None) -> None:
    regime = _regime(plate, way)
    numbers = {p.name: p.tension.number for p in regime.strands if p.tension and p.tension.number is not None}
    most = max((abs(number) for number in numbers.values()), default=None)
    plate.sheet.layer = "band"
    own = {}
    shelf = shelves(plate, [run for run in plate.layout.runs if run.name in numbers])
    for run in plate.layout.runs:
        number = numbers.get(run.name)
        if most and number is not None and number >= 0 and run.plumb:
            _band(plate, run, float(number / most), shelf[run.name][1])
            own[run.name] = plate.amount(number, "N").split("\u00a0")[0]
    plate.draw_rig()
    texts = strand_texts(plate, own)
    plate.sheet.layer = "label"
    wanted = [
        _label(plate, run, texts[run.name], shelf[run.name][1] if run.name in shelf else 0.0)
        for run in plate.layout.runs
        if run.name in texts
    ]
    settle(plate, [*wanted, *part_marks(plate)])
    unit = next((plate.value(p.tension).split("\u00a0")[-1] for p in regime.strands if plate.value(p.tension)), "N")
    plate.caption = plain(f"{_says(regime)}: pull of each strand in {unit}")


def _regime(plate: Plate, way: str | None) -> Regime:
    """The regime asked for; else the one the file asks about where there is loss; else the ideal one."""
    asked = "lowering" if plate.rig.asked and plate.rig.asked.sense < 0 else "raising"
    for name in (way, asked, "raising", "holding", "lowering"):
        found = next((regime for regime in plate.answer.regimes if regime.way == name), None)
        if found:
            return found
    return plate.answer.ideal


def _says(regime: Regime) -> str:
    return {"ideal": "Free wheels", "raising": "Raising", "lowering": "Lowering", "holding": "At rest"}[regime.way]


def _band(plate: Plate, run: Straight, share: float, shelf: float) -> None:
    """In the clear stretch only, about the height it shares with its neighbours."""
    top, bottom = (plate.sheet.at(run.x1, y)[1] for y in clear(plate.layout, run))
    tall = min(TALLEST, 0.62 * (bottom - top), 2 * min(shelf - top, bottom - shelf))
    if plate.large > 1:  # room for the number that breaks the rope under it
        tall = min(0.7 * tall, shelf - top)
        shelf -= tall / 2
    x = plate.sheet.at(run.x1, 0)[0]
    wide = ROPE + WIDEST * share
    start = shelf - tall / 2
    plate.sheet.rect(run.rope, "band", x - wide / 2, start, wide, tall)
    plate.claim(x - wide / 2, start, x + wide / 2, start + tall)


def _label(plate: Plate, run: Straight, text: str, shelf: float) -> Wanted:
    runs: tuple[Run, ...] = mathematics(text)
    below = 0.68 * notes.LABEL * plate.large if plate.large > 1 else 0.0
    spots = spots_beside(plate, run, shelf + below) if shelf else strand_spots(plate, run, notes.LABEL)
    for spot in spots:
        if spot.anchor != "middle":
            spot.x += 8 if spot.anchor == "start" else -8
    return Wanted(run.rope, "ink-text", runs, notes.LABEL, 600, spots, run.name)
