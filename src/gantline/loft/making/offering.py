"""What reeving offers: the places with their words, what each adds to the text, the pull if it ended there."""

from msgspec import Struct

from gantline.account import near
from gantline.mechanics import Value, solve
from gantline.output.plates import plate
from gantline.output.record import written as formula
from gantline.rig import Rig

from .completing import complete
from .draft import drafted
from .places import hauled, lawful
from .sketch import Sketch, written
from .slip import Slip
from .spots import Spot, Spots
from .wishes import Place
from .words import counted, fastened, not_from_here, question, taken, why_these

PREFIX = "rig-"  # of ids in the plate
MOST_PULLS, MOST_PARTS = 24, 60  # places whose pull is reckoned beforehand, and the largest rig for which it is


class Led(Struct, frozen=True):
    """A contact that is laid already: its words in the text, and as they are told."""

    id: str
    says: str


class Offer(Struct, frozen=True):
    """A place. `words` are what its line gains; `pull` is empty where the rope cannot end there."""

    id: str
    tag: str
    says: str
    group: str
    words: str
    pull: str
    why: str
    at: Spot | None


class Closed(Struct, frozen=True):
    """A wheel or part that is not offered, and why not."""

    id: str
    why: str


class Offers(Struct, frozen=True):
    """Everything the page needs to lead a rope on. `end` is where it hangs free, px of the figure `svg`.

    `line` and `column` are where words will be added; a rope that is not there yet begins a line behind that one.
    """

    rope: str
    says: str
    asks: str
    why: str
    going: str
    led: tuple[Led, ...]
    places: tuple[Offer, ...]
    closed: tuple[Closed, ...]
    end: Spot | None
    line: int
    column: int
    svg: str
    alt: str


def offers(text: str, rope: str = "") -> Offers | None:
    """Where a rope may be led next. `rope` names an unfinished rope of the text, or a new one; empty: the first that is
    unfinished, else a new one.

    None where the text has lines that cannot be read, or the rope has both its ends. Where no figure is found the
    places have no spots.
    """
    slip = Slip(text)
    sketch = Sketch(slip.tree)
    name = rope or next((one.name for one in sketch.ropes.values() if one.going), "") or new_name(sketch)
    rove = sketch.ropes.get(name)
    drawn = drafted(slip.tree)
    if complete(slip.tree) is None or (rove is not None and rove.going is None):
        return None
    spots = Spots(drawn, name) if drawn else None
    places = lawful(sketch, name)
    pulls = MOST_PULLS if len(sketch.parts) <= MOST_PARTS else 0
    found = tuple(_offer(sketch, name, place, spots, n < pulls) for n, place in enumerate(places))
    led = tuple(Led(written(c), fastened(written(c))) for c in rove.contacts) if rove else ()
    line, column = _where(slip, name)
    going = rove.going if rove else None
    asks = question(len(led) + 1, led[-1].id.removeprefix("over ").removeprefix("under ") if led else "", going)
    told = says(name, led, going, sum(place.group != "more" for place in places))
    svg, alt = (str(plate(drawn.scene, PREFIX)), drawn.scene.description) if drawn else ("", "")
    closed = tuple(_closed(sketch, places, going))
    end = spots.end() if spots else None
    return Offers(name, told, asks, why_these(going), going or "", led, found, closed, end, line, column, svg, alt)


def says(rope: str, led: tuple[Led, ...], going: str | None, count: int) -> str:
    """The live line: what was just laid, and how many places follow."""
    places = f"{counted(count, 'place')}."
    if not led:
        return f"Reeving {rope}. {places}"
    if len(led) == 1:
        return f"Reeving {rope}. {led[0].says[:1].upper()}{led[0].says[1:]}. {places}"
    return f"{led[-1].says}. Rope goes {going}. {places}"


def new_name(sketch: Sketch) -> str:
    """What a new rope is called while it is led: a fall where no hand hauls yet, else a lift."""
    return sketch.free_name("lift" if sketch.hand else "fall")


def _offer(sketch: Sketch, rope: str, place: Place, spots: Spots | None, reckon: bool) -> Offer:
    rove = sketch.ropes.get(rope)
    pull = _pull(hauled(sketch, rope, place)) if reckon and rove else ""
    lead = ", " if rove else f"  rope {rope}: "
    at = spots.of(place) if spots else None
    return Offer(place.id, place.tag, place.says, place.group, f"{lead}{place.id}", pull, place.why, at)


def _pull(rig: Rig | None) -> str:
    """The pull of the hand, as a number with its unit or as a formula."""
    if rig is None or rig.hand is None:
        return ""
    answer = solve(rig)
    effort = answer.ideal.effort if answer.regimes and answer.status == "holds" else None
    return f"{rig.effort_symbol} = {shown(rig, effort)}" if effort else ""


def shown(rig: Rig, value: Value) -> str:
    return near(rig, value) if value.number is not None else formula(value.formula)


def _where(slip: Slip, rope: str) -> tuple[int, int]:
    found = slip.rope(rope)
    statement = found or [*slip.statements("fixed", "moving", "load"), *slip.statements("rope")][-1]
    last = slip.words(statement)[-1].place
    return last.line, last.column + last.length


def _closed(sketch: Sketch, places: list[Place], going: str | None) -> list[Closed]:
    offered = {place.id.removeprefix("over ").removeprefix("under ") for place in places}
    found = []
    for block in sketch.of_kind("fixed", "moving"):
        for n in range(1, sketch.sheaves(block) + 1):
            wheel = f"{block}.{n}"
            if wheel in offered:
                continue
            rope = sketch.used.get(wheel)
            why = taken(block, wheel, rope) if rope else not_from_here(wheel, going)  # type: ignore[arg-type]
            found.append(Closed(wheel, why))
    found += [Closed(p, not_from_here(p, going)) for p in sketch.parts if p not in offered]  # type: ignore[arg-type]
    return found
