"""One body at a time: what pulls it up, what pulls it down, what it weighs."""

from collections import Counter
from collections.abc import Collection
from fractions import Fraction

from gantline.mechanics import Value
from gantline.quantity import Number, Quotient, Symbol
from gantline.rig import Sheave, Strand

from .facts import Body
from .phrases import en
from .phrases.en import Noun
from .writing import Writer


def body_line(writer: Writer, body: Body, step: str, true: Collection[str] = ()) -> None:
    """The sentence that balances a body, or sets it moving, with its equation."""
    facts = writer.facts
    loads = facts.loads_of(body)
    keys = [writer.part_key[name] for name, _ in facts.body_weights(body)]
    weights = [f"{{{key}{'' if n == len(keys) else '_bare'}}}" for n, key in enumerate(keys, 1)]
    if facts.ideal.load is not None and body == facts.aim:
        weights[0] = en.UNKNOWN if len(body.parts) == 1 else f"its {en.UNKNOWN}"
    name = loads[0] if loads else body.parts[0]
    up, down = (_ropes(writer, side) for side in (body.up, body.down))
    relation = facts.answer.relation(f"balance:{body.name}") or facts.answer.relation(f"newton:{body.name}")
    true = {
        *true,
        "down" if down else "free",
        "held" if up else "falls",
        "weighs" if weights else "light",
        "carried" if len(body.parts) > 1 else "bare",
    }
    true |= {"self"} if facts.rides and body == facts.body("hand") else set()
    mass = f"mass_{facts.bodies.index(body)}"
    true |= {"massed"} if writer.knows(mass) else set()
    words: dict[str, str | Noun] = {
        "body": writer.nouns[name], "up": en.pulls(up), "down": en.pulls(down), "mass": f"{{{mass}}}",
        "weights": en.joined(weights or ["nothing"]),
    }  # fmt: skip
    writer.step(
        step, "free-body", lit=(*body.parts, *(s.name for s in body.strands)),
        formula=relation.holds if relation else None, cites=(relation.id,) if relation else (), true=true, words=words,
    )  # fmt: skip


def turn(writer: Writer, sheave: Sheave) -> None:
    """The sentence of a wheel with mass: what is left over between its two sides makes it turn faster."""
    disc = sheave.disc
    known = disc is not None and disc.number is not None
    if disc is not None and disc.number is not None:
        writer.tell(
            disc=Value(disc.number, "kg", Symbol(disc.symbol)),
            at_rim=Value(disc.number / 2, "kg", Quotient(Symbol(disc.symbol), Number(Fraction(2)))),
        )
    sides = [s for s in writer.facts.rig.strands if sheave in (s.start.sheave, s.end.sheave)]
    writer.step(
        "turn", "free-body", lit=(sheave.block, *(s.name for s in sides)), true={"disc"} if known else set(),
        words={"wheel": writer.nouns[sheave.block]},
    )  # fmt: skip


def _ropes(writer: Writer, strands: tuple[Strand, ...]) -> list[tuple[Noun, int]]:
    """Each rope that pulls on one side, with how often."""
    counts = Counter(strand.rope for strand in strands)
    return [(writer.nouns[f"rope {rope}"], times) for rope, times in counts.items()]


def tell_masses(writer: Writer) -> None:
    """The mass of every body that is given by mass, as the file gives it."""
    for n, body in enumerate(writer.facts.bodies):
        given = [mass for name in body.parts if (mass := writer.facts.rig.part(name).mass)]
        numbers = [mass.number for mass in given if mass.number is not None]
        if given and len(numbers) == len(given):
            writer.tell(**{f"mass_{n}": Value(sum(numbers, Fraction(0)), "kg", None)})
