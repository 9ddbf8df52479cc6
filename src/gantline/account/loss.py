"""What loss in the wheels does: the file's own, or an assumed one."""

from fractions import Fraction

from gantline.mechanics import solve
from gantline.rig import with_efficiency

from .facts import Facts
from .phrases import en
from .writing import Writer

ASSUMED_LOSS = Fraction(5, 100)  # of a wheel where the file gives none: a good small block, common practice


def really(writer: Writer) -> None:
    """What loss in the wheels does: the file's own, or an assumed one."""
    facts = writer.facts
    if facts.ideal.load is not None:
        return
    answer = facts.answer if facts.lossy else solve(with_efficiency(facts.rig, 1 - ASSUMED_LOSS))
    up, down = answer.regime("raising"), answer.regime("lowering")
    if up is None or down is None or up.effort is None or down.effort is None or not facts.sheaves:
        return
    if up.effort.number is None or down.effort.number is None:
        return
    writer.tell(F_up=up.effort, F_down=down.effort)
    writer.keep_apart("F", "F_up", "F_down")
    lowering_first = {"lowering-first"} if "lowers" in writer.tags else set()
    marks = [(p.name, writer.mark(p.tension)) for p in (down if lowering_first else up).strands if p.tension]
    writer.step(
        "really",
        "tensions",
        marks=marks,
        formula_text=loss_text(facts),
        true=lowering_first,
        words={"loss": loss_words(facts)},
    )
    if "one-wheel" in writer.tags or facts.lossy:
        low, high = writer.number("F_down").shown, writer.number("F_up").shown
        writer.step("still", "tensions", lit=("hand",), formula_text=f"{low} to {high}")


def loss_text(facts: Facts) -> str:
    """The efficiencies that are given, or the assumed one, as they stand beside the figure."""
    given = [sheave.efficiency for sheave in facts.sheaves if sheave.efficiency]
    found = dict.fromkeys(f"{e.symbol} = {float(e.number):g}" for e in given if e.number not in (None, 1))
    return f"with {', '.join(found)}" if found else f"with e = {float(1 - ASSUMED_LOSS):g}"


def loss_words(facts: Facts) -> str:
    """What the wheels lose: each of these 10 per cent, or the one bad wheel."""
    numbers = [sheave.efficiency.number for sheave in facts.sheaves if sheave.efficiency]
    losses = [100 * (1 - number) for number in numbers if number is not None and number != 1]
    return en.losses(losses, len(facts.sheaves))
