"""Which moves each step makes, in their order: what is done to pencil, what is spoken of to ink, then what happens."""

from gantline.account import Step

from .storyboard import Act, Kind, Move

PENCIL, INK, SET, FORMULA = 0.3, 0.5, 0.2, 0.3


def card_moves(kind: Kind) -> tuple[Move, ...]:
    """A title or recap card: its words are set."""
    return (Move("set", "title" if kind == "title" else "recap", FORMULA),)


def moves_of(act: Act, step: Step, before: Step | None) -> tuple[Move, ...]:
    """The moves of a step after the step before it."""
    moves: list[Move] = []
    if before is not None and before.lit != step.lit:
        moves.append(Move("pencil", "what is done", PENCIL))
    moves.append(Move("ink", "what is spoken of", INK))
    if step.formula is not None or step.formula_text:
        moves.append(Move("set", "formula", FORMULA, "said"))
    if step.view == "ask" or (step.pause >= 5 and "?" in step.formula_text):
        moves += [Move("set", "turn", SET, "pause")] * round(step.pause)
    return tuple(moves)
