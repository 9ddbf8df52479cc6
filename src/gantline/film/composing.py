"""A shot in the making: the layers of its picture, and the moves that change them one after the other."""

from collections.abc import Callable, Mapping

from msgspec import Struct

from gantline.account import Step

from .picture import Layer, Moment, Picture
from .stage import Lit, Stage
from .storyboard import Move, Verb
from .verbs import EASING

BAGGED = ("cut", "count", "balance")  # views that keep the bag
HAULED = ("displacement", "work")  # views that show the rig as it stands after the haul
ORDER = ("under", "rig", "over", "column", "words", "ledger")
Partly = Callable[[float], Layer]  # a layer on its way, by the share of the move that is done


class Change(Struct, frozen=True):
    """A move and what it makes of the picture. `partly` draws layers on the way; all else passes over evenly."""

    move: Move
    after: Picture
    partly: Mapping[str, Partly] = {}

    def at(self, before: Picture, share: float) -> Moment:
        """The frame when `share` of the move's time is over."""
        now = EASING[self.move.verb](min(max(share, 0.0), 1.0))
        if now <= 0.0:
            return Moment(before)
        if now >= 1.0:
            return Moment(self.after)
        if not self.partly:
            return Moment(before, self.after, now)
        made = {name: draw(now) for name, draw in self.partly.items()}
        kept = {layer.name: layer for layer in self.after.layers}
        return Moment(_picture(self.after, {**kept, **made}))


def _picture(like: Picture, layers: Mapping[str, Layer]) -> Picture:
    return Picture(like.width, like.height, _in_order(layers), like.says)


def _in_order(layers: Mapping[str, Layer]) -> tuple[Layer, ...]:
    return tuple(layers[name] for name in ORDER if name in layers)


class Scenery(Struct, frozen=True):
    """What a shot leaves behind: its picture, what is in ink, which view it was, whether the rig stands hauled, and
    whether its bag has been drawn."""

    picture: Picture
    lit: Lit
    view: str
    hauled: bool
    rows: tuple[tuple[str, str], ...]  # what is known so far
    bagged: bool = False


class Passage(Struct, frozen=True):
    """From what a shot begins with to its step, as `view` shows it. `shows`: there is room for what is known so far."""

    stage: Stage
    step: Step
    view: str
    before: Scenery
    shows: bool

    @property
    def stays(self) -> bool:
        """The rig was hauled, or has run, and stands so."""
        return self.before.hauled and (self.step.view in HAULED or self.view == "newton")

    @property
    def returns(self) -> bool:
        """The rig was hauled, and is let back."""
        return self.before.hauled and not self.stays

    @property
    def hauls(self) -> bool:
        """The rig is hauled in this shot, or runs by itself."""
        moves = self.step.view == "displacement" or self.view == "newton"
        return moves and not self.before.hauled and self.stage.travel > 0

    @property
    def keeps(self) -> bool:
        """The bag is there already."""
        return self.before.view in BAGGED and self.step.view in BAGGED


class Composer:
    """Collects the changes of one shot on a stage."""

    def __init__(self, stage: Stage, before: Picture | None = None) -> None:
        self.stage, self.format = stage, stage.format
        self.layers: dict[str, Layer] = {layer.name: layer for layer in before.layers} if before else {}
        self.says = before.says if before else ""
        self.changes: list[Change] = []

    @property
    def picture(self) -> Picture:
        return Picture(self.format.width, self.format.height, _in_order(self.layers), self.says)

    def put(self, **layers: Layer | None) -> None:
        """Layers that are there from the first frame on, or (None) gone."""
        for name, layer in layers.items():
            if layer is None:
                self.layers.pop(name, None)
            else:
                self.layers[name] = layer

    def change(
        self, verb: Verb, what: str, seconds: float, layers: Mapping[str, Layer | None],
        partly: Mapping[str, Partly] | None = None, waits: bool = False, turn: bool = False, rest: float = 0.0,
    ) -> None:  # fmt: skip
        """A move to these layers, then `rest` seconds. `waits` for the word; `turn`: of the learner's own time."""
        self.put(**layers)
        move = Move(verb, what, seconds, "pause" if turn else "said" if waits else "next", rest)
        self.changes.append(Change(move, self.picture, partly or {}))
