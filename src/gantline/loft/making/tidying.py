"""The whole text in its one tidy form: columns lined up, comments kept."""

from collections.abc import Mapping
from typing import Any

from gantline.notation import parse, tidy

from .edited import Edited, Refused, edited
from .slip import Change, Slip


def tidied(slip: Slip, _: Mapping[str, Any]) -> Edited:
    """The tidy text. Raises Refused where a line cannot be read."""
    tree, problems = parse(slip.text)
    if problems:
        raise Refused(f"Mend line {problems[0].place.line} first: {problems[0].says}.", problems)
    new = tidy(tree)
    if new == slip.text:
        raise Refused("It is tidy already.")
    return edited(slip, [Change(0, len(slip.text), new)], "The columns are lined up.")
