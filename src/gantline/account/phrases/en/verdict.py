"""Frames for the one sentence that says how it stands with a rig, and for rigs that do not hold."""

from .frame import Frame as F
from .frame import Frames

VERDICT: Frames = {
    "verdict": (
        F(
            "impossible pair",
            "No pull can hold this: what balances [the first] leaves [the second] out of balance, for they "
            "share a rope.",
        ),
        F("impossible", "No pull can hold this: [the first] is out of balance, however hard the rope is pulled."),
        F(
            "indeterminate bodies pull-given",
            "What happens cannot be told from this file: the pull is given, and nothing says how [the first] "
            "shares it.",
        ),
        F(
            "indeterminate bodies",
            "What happens cannot be told from this file: [the first] weighs nothing, and no rope says how it goes.",
        ),
        F(
            "indeterminate",
            "The pulls cannot be told: [k] strands share [the first], and balance gives fewer equations than "
            "there are pulls.",
        ),
        F(
            "slack helper-lighter load-heavier",
            "It does not hold: [rope] would have to push, for [the helper] outweighs what it pulls against.",
        ),
        F(
            "slack helper-heavier",
            "It does not hold: [rope] would have to push, for [the helper] is too light for [the load].",
        ),
        F("slack", "It does not hold: [rope] would have to push, and ropes only pull."),
        F("holds held", "It stays as it is: friction in the wheels holds it, though free wheels would let it run."),
        F("holds load-asked", "A pull of {F} holds [a load] of {W_near}."),
        F("holds effort-asked free", "No pull is needed to hold [the load]: the weights balance by themselves."),
        F(
            "holds effort-asked asked company numeric !rider !unit-gain !lowers",
            "A pull of {F_near} holds [loads], and {s} of rope raise them {h}.",
        ),
        F("holds effort-asked company numeric !rider !asked", "A pull of {F_near} holds [loads]."),
        F("holds effort-asked rider numeric", "You hold yourself with a pull of {F_near}."),
        F(
            "holds effort-asked asked numeric unit-gain",
            "A pull of {F_near} holds [the load]; the rope you take in is as long as the rise.",
        ),
        F(
            "holds effort-asked asked lowers numeric",
            "A pull of {F_near} holds [the load], and {s} of rope let it down {h}.",
        ),
        F("holds effort-asked asked numeric", "A pull of {F_near} holds [the load], and {s} of rope raise it {h}."),
        F("holds effort-asked", "A pull of {F_near} holds [the load]."),
        F("holds effort-given", "A pull of {F} just holds [the load]: nothing speeds up."),
        F("holds", "It all hangs still: on every part the pulls balance the weights."),
        F("accelerates effort-given up", "A pull of {F} lifts [the first], which gathers speed at {a_near}."),
        F(
            "accelerates effort-given",
            "A pull of {F} does not hold [the first]: it sinks, gathering speed at {a_near}.",
        ),
        F("accelerates rests", "Let go, and [the first] stays, while [the second] sinks, gathering speed at {a_near}."),
        F("accelerates up", "Let go, and [the first] rises, gathering speed at {a_near}."),
        F("accelerates", "Let go, and [the first] sinks, gathering speed at {a_near}."),
    ),
}
