"""Short accounts of rigs that no pull can hold, whose pulls are undecided, or where a rope goes slack."""

from .account import Account
from .bodies import body_line
from .facts import Body
from .status import about
from .writing import Writer


def trouble(writer: Writer) -> Account:
    """What can be said by balance, and where it stops."""
    facts = writer.facts
    finding = facts.answer.finding
    true, words = about(writer)
    concerned = [
        b for b in facts.bodies if set(b.parts) & set(finding.parts) or {s.name for s in b.strands} & set(finding.parts)
    ]
    for body in _locally_right_first(writer, concerned):
        body_line(writer, body, "body")
    step = {"impossible": "clash", "indeterminate": "undecided", "slack": "push", "holds": "held"}[facts.answer.status]
    parts = [name for body in concerned for name in body.parts]
    writer.step(step, "free-body", lit=parts or (facts.load,), true=true, words=words, pause=2.0)
    writer.step("mend", "bare", lit=parts or (facts.load,), true=true, words=words)
    return writer.account(None)


def _locally_right_first(writer: Writer, bodies: list[Body]) -> list[Body]:
    """The body a reader would begin with, where all is well, then the one out of balance."""
    return sorted(bodies, key=lambda body: body != writer.facts.body(writer.facts.load))
