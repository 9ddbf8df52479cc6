"""How an account of a rig that speeds up closes."""

from fractions import Fraction

from msgspec.structs import replace

from gantline.mechanics import Value, solve
from gantline.rig import Load, with_efficiency

from .account import Account
from .closing import wrong
from .loss import ASSUMED_LOSS, loss_text, loss_words
from .phrases import en
from .steps import size
from .writing import Writer
from .wrong_moving import pair_on_wheel


def close_moving(writer: Writer, result: Value) -> Account:
    """How an account of a rig that speeds up closes."""
    facts = writer.facts
    supports = [s for s in facts.ideal.supports if s.force and s.force.number is not None and facts.strands_at(s.name)]
    weights = [value.number for part in facts.rig.movers if (value := facts.weights.get(part.name)) and value.number]
    if len(supports) == 1 and supports[0].force and supports[0].force.number is not None:
        hangs = sum(weights, Fraction(0))
        writer.tell(R=size(supports[0].force), hangs=Value(hangs, "N", None))
        force = writer.mark(supports[0].force)
        less = {"less"} if supports[0].force.number < hangs and facts.rig.hand is None else set()
        writer.step(
            "beam", "solve", lit=(supports[0].name,), true=less, cites=(f"support:{supports[0].name}",),
            marks=[(supports[0].name, force)], words={"anchor": writer.nouns[supports[0].name]}, formula_text=force,
        )  # fmt: skip
    mistake = wrong(writer, "wheel" if facts.heavy_sheaves else "motion", {})
    _really_moving(writer)
    writer.step("recap", "newton", lit=[name for body in facts.bodies for name in body.parts])
    _even_pair(writer)
    return writer.account(result, mistake)


def _really_moving(writer: Writer) -> None:
    """The same with loss in the wheels: the file's own, or an assumed one."""
    facts = writer.facts
    answer = facts.answer if facts.lossy else solve(with_efficiency(facts.rig, 1 - ASSUMED_LOSS))
    regime = next((r for r in answer.regimes if r.way in ("raising", "lowering")), None)
    lead = next((n for n, noun in writer.nouns.items() if n != "lead" and noun == writer.nouns["lead"]), "")
    rate = next((m.acceleration for m in (regime.motions if regime else ()) if m.name == lead), None)
    if rate is None or not rate.number or not facts.sheaves:
        return
    writer.tell(a_loss=size(rate))
    writer.keep_apart("a", "a_loss")
    writer.step("really", "tensions", formula_text=loss_text(facts), words={"loss": loss_words(facts)})


def _even_pair(writer: Writer) -> None:
    """Where two hang on a moving wheel: what happens when they are made even."""
    facts = writer.facts
    found = pair_on_wheel(facts)
    if found is None:
        return
    masses = [facts.rig.part(name).mass for name in found[1]]
    if any(mass is None or mass.number is None for mass in masses) or masses[0] == masses[1]:
        return
    half = sum((mass.number for mass in masses if mass and mass.number), Fraction(0)) / 2
    if half == masses[0].number:  # type: ignore[union-attr]
        return
    parts = tuple(
        replace(p, mass=replace(p.mass, number=half)) if p.name in found[1] and isinstance(p, Load) and p.mass else p
        for p in facts.rig.parts
    )
    even = solve(replace(facts.rig, parts=parts))
    rate = next((m.acceleration for m in even.ideal.motions if m.name == found[0]), None)
    if rate is None or rate.number is None:
        return
    writer.tell(half=Value(half, "kg", None), a_even=size(rate))
    true = {"still"} if rate.number == 0 else {"up" if rate.number > 0 else "sinks"}
    words: dict[str, str | en.Noun] = {
        "one": writer.nouns[found[1][0]],
        "other": writer.nouns[found[1][1]],
        "single": writer.nouns[found[0]],
    }
    writer.step("twist", "bare", lit=found[1], formula_text="a = ?", pause=6.0, true={"even"}, words=words)
    writer.step("answer", "newton", lit=(found[0],), true={"even"} | true, words=words, formula=writer.number("a_even"))
