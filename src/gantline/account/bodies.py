"""One body at a time: what pulls it up, what pulls it down, what it weighs."""

from fractions import Fraction

from .facts import Body
from .hops import pulls_on
from .phrases import en
from .writing import Writer


def body_line(writer: Writer, body: Body, step: str) -> None:
    """The sentence that balances a body, or sets it moving, with its equation."""
    facts = writer.facts
    pulls = pulls_on(body)
    loads = [load.name for load in facts.rig.loads if load.name in body.parts]
    weights = [f"{{{writer.part_key[name]}_bare}}" for name, value in facts.body_weights(body)]
    name = loads[0] if loads else body.parts[0]
    up = [(writer.nouns[f"rope {rope}"], times) for rope, times in pulls.items() if times > 0]
    down = [(writer.nouns[f"rope {rope}"], -times) for rope, times in pulls.items() if times < 0]
    relation = facts.answer.relation(f"balance:{body.name}") or facts.answer.relation(f"newton:{body.name}")
    true = {"down" if down else "free", "weighs" if weights else "light", "carried" if len(body.parts) > 1 else "bare"}
    mass = f"mass_{facts.bodies.index(body)}"
    words = {
        "body": writer.nouns[name], "up": en.pulls(up), "down": en.pulls(down), "weights": en.joined(weights or ["nothing"]),
        "mass": f"{{{mass}}}", "lead": writer.nouns[body.parts[0]],
    }  # fmt: skip
    writer.step(
        step, "newton" if step == "newton" else "free-body", lit=(*body.parts, *(s.name for s in body.strands)),
        formula=relation.holds if relation else None, cites=(relation.id,) if relation else (), true=true, words=words,
    )  # fmt: skip


def tell_masses(writer: Writer) -> None:
    """The mass of every body that is given by mass, as the file gives it."""
    from gantline.mechanics import Value

    for n, body in enumerate(writer.facts.bodies):
        given = [mass for name in body.parts if (mass := writer.facts.rig.part(name).mass)]  # type: ignore[union-attr]
        numbers = [mass.number for mass in given if mass.number is not None]
        if given and len(numbers) == len(given):
            writer.tell(**{f"mass_{n}": Value(sum(numbers, Fraction(0)), "kg", None)})
