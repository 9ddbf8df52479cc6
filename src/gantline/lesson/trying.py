"""If you try it: the pulls with real wheels, the bands that show them, and the cautions that fit."""

from fractions import Fraction

from gantline.account import cautions, measure
from gantline.figure import Layout, Scene, draw
from gantline.mechanics import Answer, Regime, Value, solve
from gantline.quantity import telling_digits
from gantline.rig import Rig, with_efficiency
from gantline.sources import EXAMPLE_EFFICIENCY

from . import words
from .lesson import Reading, Trial
from .seeing import sight

_WIDEST = 12  # strands a table can hold; past it, the hand and the strand that carries most
_ORDER = ("raising", "ideal", "lowering", "holding")


def trial(rig: Rig, answer: Answer, layout: Layout) -> Trial:
    """With the file's own losses; without any, with an assumed one that is said to be assumed."""
    own = any(sheave.efficiency for sheave in rig.sheaves)
    lossy = answer if own else _assumed(rig, answer)
    running = lossy is not None and len(lossy.regimes) > 1
    readings, strands, unit = _readings(rig, lossy) if lossy is not None and running else ((), (), "")
    return Trial(
        intro=_intro(rig, own, running),
        note=_note(own) if running else "",
        unit=unit,
        strands=strands,
        readings=readings,
        scene=_bands(rig, lossy, layout) if lossy is not None and running else None,
        cautions=cautions(rig, lossy or answer),
        answer=lossy if not own and running else None,
        sight=sight(rig, answer, layout) if running else None,
    )


def _assumed(rig: Rig, answer: Answer) -> Answer | None:
    if answer.status != "holds" or not rig.sheaves:
        return None
    return solve(with_efficiency(rig, EXAMPLE_EFFICIENCY.value))


def _intro(rig: Rig, own: bool, running: bool) -> str:
    if not running:
        return "Real wheels rub and have weight, so what you read will differ; how much, only a trial tells."
    if own:
        return "Real wheels rub. These are the pulls with the losses that the file gives."
    share = measure(rig, EXAMPLE_EFFICIENCY.value * 100, "1").near
    return f"Real wheels rub. Suppose each passes on {share} per cent of the pull while it runs."


def _note(own: bool) -> str:
    if own:
        return "The losses are the file's; a wheel's own depends on rope, bearing and load. Measure yours."
    return f"Assumed, not measured ({EXAMPLE_EFFICIENCY.source}). Measure yours and write it into the file."


def _bands(rig: Rig, lossy: Answer, layout: Layout) -> Scene | None:
    way = next((way for way in ("raising", "lowering") if lossy.regime(way)), None)
    return draw(rig, lossy, "tensions", layout=layout, way=way) if way else None


def _readings(rig: Rig, lossy: Answer) -> tuple[tuple[Reading, ...], tuple[str, ...], str]:
    """Rows (raising, perfect, lowering) and the names of their columns, strand by strand, the hand last."""
    regimes = [regime for way in _ORDER for regime in lossy.regimes if regime.way == way]
    kept = _columns(lossy)
    names = tuple(_column(rig, lossy, place) for place in kept)
    efforts = [pull.number for regime in regimes if (pull := regime.strands[kept[-1]].tension) and pull.number]
    digits = telling_digits(efforts)  # raising, perfect and lowering must look different
    pulls = [tuple(_pull(rig, regime, place, digits) for place in kept) for regime in regimes]
    rows = tuple(Reading(words.WAYS[regime.way], row) for regime, row in zip(regimes, pulls, strict=True))
    return rows, names, measure(rig, Fraction(1), "N").unit


def _columns(lossy: Answer) -> list[int]:
    pulls = lossy.ideal.strands
    if len(pulls) <= _WIDEST:
        return list(range(len(pulls)))
    hand = next((n for n, pull in enumerate(pulls) if "hand" in (pull.start, pull.end)), len(pulls) - 1)
    return sorted({0, hand, len(pulls) - 1})


def _column(rig: Rig, lossy: Answer, place: int) -> str:
    pull = lossy.ideal.strands[place]
    if "hand" in (pull.start, pull.end):
        return "you"
    return str(pull.index) if len(rig.ropes) == 1 else f"{pull.rope} {pull.index}"


def _pull(rig: Rig, regime: Regime, place: int, digits: int) -> str:
    tension: Value | None = regime.strands[place].tension
    if tension is None or tension.number is None:
        return "–"
    return measure(rig, tension.number, "N", digits).near.split("\u00a0")[0]
