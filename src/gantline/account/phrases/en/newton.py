"""Frames for Newton's law, part by part."""

from .frame import Frame as F
from .frame import Frames

NEWTON: Frames = {
    "ask": (
        F(
            "pull-given",
            "You pull with {F} and keep on pulling. Does [the lead] rise, sink, or stay? Decide now.",
            "your guess",
        ),
        F(
            "",
            "Now let go of everything at once. Does [the lead] rise, sink, or stay? Decide before we go on.",
            "your guess",
        ),
    ),
    "no-count": (
        F(
            "at-rest one-load",
            "{F_rest_near} would just hold [the lead]. You pull with {F_bare}, so the pulls do not balance: what is "
            "left over moves it.",
            "why not balance",
        ),
        F(
            "one-load !several-bodies",
            "[the lead] will not stay at rest, so the pulls need not balance the weight. What is left over moves it.",
            "why not balance",
        ),
        F(
            "",
            "Nothing here will be at rest, so pulls need not balance weights. We ask each body what is left "
            "over on it.",
            "why not balance",
        ),
    ),
    "pull": (
        F(
            "turned",
            "The wheel is heavy, so something must turn it: [the rope] cannot pull alike on its two sides.",
            "the pulls differ",
        ),
        F(
            "one-rope pull-given",
            "One rope, and its wheels turn freely, so all along it the pull is the one in your hand.",
            "one rope, one pull",
        ),
        F(
            "effort-given one-rope",
            "One rope, and its wheels turn freely: all along it the pull is the one in your hand.",
            "one rope, one pull",
        ),
        F(
            "one-rope",
            "One rope over wheels that are light and turn freely: so it pulls alike all along. Call that pull T.",
            "one rope, one pull",
        ),
        F(
            "",
            "[the rope] runs over light wheels that turn freely, so it pulls equally hard at both its ends.",
            "one rope, one pull",
        ),
    ),
    "tie": (
        F(
            "equal",
            "[the rope] keeps its length, so what [the first] gains in speed, [the second] gains the other way.",
            "movements tied",
        ),
        F(
            "ratio",
            "[the rope] keeps its length, so [the second] must gather speed [ratio] as fast as [the first], the "
            "other way.",
            "movements tied",
        ),
        F(
            "",
            "Riding on [the wheel], you would see [the one] and [the other] go opposite ways equally fast. From "
            "the floor, its own motion comes on top.",
            "movements tied",
        ),
    ),
    "newton": (
        F(
            "light down",
            "[the body] weighs nothing, so nothing may be left over on it: [down] downward is just [up] upward.",
            "a light part",
        ),
        F("light", "[the body] weighs nothing, so nothing may be left over on it.", "a light part"),
        F("falls", "Nothing holds [the body]: its whole weight makes it gather speed.", "one body"),
        F("down", "[the body]: [up] upward, [down] and the weight downward. What is left over moves it.", "one body"),
        F("massed later", "[the body]: [up] up, its [weights] down, and [mass] for the rest to move.", "one body"),
        F(
            "massed",
            "[the body]: [up] upward, its [weights] downward. What is left over must make [mass] gather speed.",
            "one body",
        ),
        F(
            "",
            "[the body]: [up] upward, its [weights] downward. What is left over makes it gather speed.",
            "one body",
        ),
    ),
    "turn": (
        F(
            "disc",
            "What is left over between its two sides turns [the wheel]: a solid disc of {disc} counts like {at_rim} "
            "on the rope.",
            "a heavy wheel",
        ),
        F("", "What is left over between its two sides makes [the wheel] turn faster and faster.", "a heavy wheel"),
    ),
    "solve": (
        F("symbolic", "Solve these lines together, and they leave one value for each.", "the answer"),
        F(
            "up one-rope effort-given",
            "What is left over lifts [the lead]: it gathers speed upward at {a_near}.",
            "the answer",
        ),
        F(
            "effort-given one-rope",
            "Too little is left: [the lead] sinks, and gathers speed at {a_near}.",
            "the answer",
        ),
        F(
            "rests",
            "All lines must hold at once: so its rope pulls with {T_near}, just what [the lead] weighs, and it stays.",
            "the answer",
        ),
        F(
            "up one-rope heavy-wheel",
            "All lines must hold at once. Then [the lead] rises, gathering speed at {a_near}; its side of the rope "
            "pulls with {T}.",
            "the answer",
        ),
        F(
            "one-rope heavy-wheel",
            "All lines must hold at once. Then [the lead] sinks, gathering speed at {a_near}; its side of the rope "
            "pulls with {T}.",
            "the answer",
        ),
        F(
            "up one-rope",
            "All lines must hold at once. Then [the lead] rises, gathering speed at {a_near}, and the rope "
            "pulls with {T_near}.",
            "the answer",
        ),
        F(
            "one-rope",
            "All lines must hold at once. Then [the lead] sinks, gathering speed at {a_near}, and the rope "
            "pulls with {T_near}.",
            "the answer",
        ),
        F(
            "up",
            "All lines must hold at once: so its rope pulls with {T_near}, and [the lead] rises, gathering "
            "speed at {a_near}.",
            "the answer",
        ),
        F(
            "",
            "All lines must hold at once: so its rope pulls with {T_near}, and [the lead] sinks, gathering "
            "speed at {a_near}.",
            "the answer",
        ),
    ),
    "others": (
        F(
            "as-fast heavy-wheel up",
            "And [the other] rises just as fast, on a pull of {T_other} only.",
            "and the other",
        ),
        F("as-fast heavy-wheel", "And [the other] sinks just as fast, on a pull of {T_other}.", "and the other"),
        F("as-fast up", "And [the other] rises just as fast.", "and the other"),
        F("as-fast", "And [the other] sinks just as fast.", "and the other"),
        F("", "And so [others].", "and the others"),
    ),
    "beam": (
        F(
            "less",
            "Up above, [the anchor] feels {R}, while {hangs_bare} hang below: whatever falls freely enough "
            "hangs lightly.",
            "what the beam feels",
        ),
        F("", "Up above, [the anchor] feels {R}.", "what the beam feels"),
    ),
    "really": (
        F(
            "lossy",
            "So much for perfect wheels. Here [loss], and so [the lead] gathers speed at about {a_loss} only.",
            "what really happens",
        ),
        F(
            "one-wheel",
            "That was a perfect wheel. If this one loses 5 per cent, [the lead] gathers speed at about {a_loss}.",
            "what really happens",
        ),
        F(
            "",
            "Those were perfect wheels. If each loses 5 per cent, [the lead] gathers speed at about {a_loss}.",
            "what really happens",
        ),
    ),
    "recap": (
        F(
            "one-load !several-bodies",
            "Pulls up, weight down, and what is left over moves the mass: that is all of Newton's law here.",
            "in one breath",
        ),
        F(
            "two-ropes",
            "Weights compare only while things hang still. Each body had its own line, and the ropes tied the "
            "answers together.",
            "in one breath",
        ),
        F(
            "",
            "Each body has its own line, what is left over moves it, and the rope ties the lines together.",
            "in one breath",
        ),
    ),
    "twist": (
        F(
            "even",
            "Now share the two on the moving wheel evenly, {half} each. What does [the single] do then?",
            "one thing changed",
        ),
    ),
    "answer": (
        F(
            "even still",
            "It stays. The pair is even, nothing falls, so it hangs with its full weight: the split decides, "
            "not the total.",
            "and the answer",
        ),
        F(
            "even up",
            "It rises, at {a_even}: an even pair hangs with its full weight. The split decides, not the total.",
            "and the answer",
        ),
        F(
            "even",
            "It sinks, at {a_even}: an even pair hangs with its full weight. The split decides, not the total.",
            "and the answer",
        ),
    ),
}
