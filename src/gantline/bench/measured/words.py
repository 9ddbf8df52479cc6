"""The names and sentences of a lab report, in English."""

from .shown import to_place

NAMES = {
    "efficiency": "Efficiency of each sheave",
    "block": "Weight of the block",
    "drag": "Drag in each sheave",
    "zero": "Zero of the scale",
}
SHORT = {"efficiency": "efficiency", "block": "block weight", "drag": "drag", "zero": "zero"}
SYMBOLS = {"efficiency": "e", "block": "w", "drag": "c", "zero": "z"}
UNITS = {"efficiency": "", "block": "N", "drag": "N", "zero": "N"}
SOURCES = {
    "repeats": "scatter of the readings",
    "division": "division of the scale",
    "block": "weighing of the block",
    "zero": "reading of the zero",
    "masses": "the loads' masses",
    "gain": "gain of the scale",
}
TYPE_A, TYPE_B = "A, normal", "B, rectangular"
BETTER = {
    "repeats": "read everything four times as often",
    "division": "use a scale with half the division",
    "block": "weigh the block on a finer scale",
    "zero": "read the zero on a finer scale, or several times",
    "masses": "weigh the loads: half the error they are now allowed",
    "gain": "check the scale against known masses: half the error it is now allowed",
}
NEEDED = {
    "zero": "read the scale with nothing hung on it (a column `zero`)",
    "block": "weigh the moving block (a column `block`)",
    "raising": "read the pull while raising",
    "lowering": "read the pull while lowering, at the same loads",
    "raising loads": "read the pull while raising at a second load",
    "lowering loads": "read the pull while lowering at a second load",
    "loads": "write down the loads (a column `load`)",
}
TAKE = "Or take one as it stands, with {take}: drag and zero as none, the block as the file has it."
HELD = {
    "drag": "taken as none, not measured",
    "zero": "taken as none, not measured",
    "block": "taken from the file, not measured",
}
ABOVE_ONE = (
    "An efficiency above 1 cannot be: wheels that lose next to nothing, loads lighter than was written, or a scale "
    "that shows too little."
)
MAYBE_NONE = "the interval holds zero, so there may be none."
BELOW_ZERO = "below zero, which cannot be: look at the loads and the scale."
IF_WRONG = "If that is wrong, the other results are wrong with it."
MODEL = (
    "Each reading is the pull that the rig's own equations give at its load, with one efficiency e in every sheave, "
    "the block's weight w, one constant drag c in every sheave (tight side = slack side / e + c), and the zero z of "
    "the scale."
)
FIT = (
    "Fitted to both branches together by ordinary weighted least squares (Levenberg and Marquardt): each mean counts "
    "with one over its variance, that of its repeats or of the division, whichever is larger. Errors of the loads and "
    "of the scale's gain are carried through afterwards."
)
PROPAGATED = (
    "Uncertainty by the law of propagation, first order (JCGM 100); intervals hold 95 %, by Student's t with the "
    "degrees of freedom of Welch and Satterthwaite."
)


def drawn(draws: int) -> str:
    return (
        f"The same by Monte Carlo (JCGM 101): {draws:,} draws of all inputs, the unknowns solved anew for each; where "
        "the two ways differ, both stand above."
    )


def unit(name: str) -> str:
    """The unit of a result behind a space that does not break, nothing for a bare number."""
    return f"\u00a0{UNITS[name]}" if UNITS[name] else ""


def listed(words: tuple[str, ...] | list[str], last: str = "and") -> str:
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def many(count: int, one: str, more: str = "") -> str:
    return f"{count} {one if count == 1 else more or one + 's'}"


def percent(share: float, places: int = 1) -> str:
    return f"{to_place(100 * share, places)}\u00a0%"
