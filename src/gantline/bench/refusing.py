"""What Gantline plans no demonstration of, and why."""

from msgspec import Struct

from gantline.account import verdict
from gantline.mechanics import Answer
from gantline.rig import Rig

# A name is all there is to go by, so this list can only catch the plain cases; the page says the rest.
PEOPLE = frozenset(
    {
        "person", "people", "man", "men", "woman", "women", "boy", "girl", "child", "children", "kid", "baby", "pupil",
        "student", "teacher", "tutor", "worker", "rider", "climber", "passenger", "patient", "sailor", "rigger",
        "human", "painter", "mason", "roofer", "diver", "acrobat", "gymnast", "dancer", "friend", "volunteer", "guest",
        "visitor", "player", "actor", "singer", "keeper", "clerk", "cook", "nurse", "stretcher",
    }
)  # fmt: skip


class Declined(Struct, frozen=True):
    """No plan. `code` is a short slug; the rest is said as a problem is: what, why, what to do."""

    code: str
    says: str
    why: str
    do: str


def declined(rig: Rig, answer: Answer) -> Declined | None:
    """Why this rig is not planned for the bench, None where nothing speaks against it."""
    return _people(rig) or _hand(rig) or _sheaves(rig) or _loads(rig) or _status(rig, answer)


def _people(rig: Rig) -> Declined | None:
    rides = rig.hand.rides if rig.hand else None
    named = next((load.name for load in rig.loads if PEOPLE & set(_words(load.name))), None)
    if rides is None and named is None:
        return None
    says = f"a person rides on {rides} in this rig" if rides else f"`{named}` is a person, by its name"
    return Declined(
        "bench-person", f"{says}: no plan is made for that",
        "nobody is lifted, lowered or hung for a demonstration; school blocks, cords and stands are not made for it",
        "show the same tackle with a small weight and a hand beside it: write `hand` for `hand at ...`, and a thing as "
        "the load.",
    )  # fmt: skip


def _words(name: str) -> list[str]:
    return name.lower().replace("_", "-").split("-")


def _hand(rig: Rig) -> Declined | None:
    if rig.hand is not None:
        return None
    return Declined(
        "bench-no-hand", "no hand hauls in this rig, so there is no pull to read on a scale",
        "the plan is chosen so that a scale at the hand reads well",
        "lead one end of a rope to `hand`; `gantline solve` and `gantline lesson` need none.",
    )  # fmt: skip


def _sheaves(rig: Rig) -> Declined | None:
    if rig.sheaves:
        return None
    return Declined(
        "bench-no-sheave", "no rope runs over a wheel in this rig", "then the pull is the load: nothing to be shown",
        "lead the rope over a block.",
    )  # fmt: skip


def _loads(rig: Rig) -> Declined | None:
    if len(rig.loads) == 1 and rig.aim == rig.loads[0].name:
        return None
    says = "the motion asked about is not the load's"
    if len(rig.loads) != 1:
        says = f"{len(rig.loads)} loads hang in this rig" if rig.loads else "no load hangs in this rig"
    return Declined(
        "bench-not-one-load", says, "one load is stood in for by masses of the kit, and raised by hand",
        "plan for a rig with one load, and ask for its rise.",
    )  # fmt: skip


def _status(rig: Rig, answer: Answer) -> Declined | None:
    if answer.status == "holds" and answer.ideal.effort is not None:
        return None
    return Declined(
        "bench-no-steady-pull", verdict(rig, answer).rstrip("."),
        "a scale can be read only where one steady pull holds and raises the load",
        "mend the rig, then plan; `gantline explain` says more.",
    )  # fmt: skip
