"""Every change that can be made by hand, by its name."""

from collections.abc import Callable, Mapping
from typing import Any

from .building import add_block, add_sheave, hang, hang_load
from .edited import Edited, Refused, edited
from .laying import back, lead, out, take
from .mending import mend
from .naming import rename
from .removing import remove, take_sheave
from .setting import raise_part, set_value, write_in
from .slip import Change, Slip
from .tidying import tidied

FROM_NOTHING = "load     sack    weight W\n"

Wish = Mapping[str, Any]


def nothing(slip: Slip, _: Wish) -> Edited:
    """A beam, one load whose weight is a letter, and a rope in hand."""
    says = "From nothing: a beam, and a sack that weighs W."
    return edited(slip, [Change(0, len(slip.text), FROM_NOTHING)], says, focus="sack")


EDITS: dict[str, Callable[[Slip, Wish], Edited]] = {
    "nothing": nothing,
    "take": take,
    "back": back,
    "lead": lead,
    "out": out,
    "add-block": add_block,
    "add-sheave": add_sheave,
    "take-sheave": take_sheave,
    "hang-load": hang_load,
    "hang": hang,
    "set": set_value,
    "raise": raise_part,
    "write-in": write_in,
    "rename": rename,
    "remove": remove,
    "mend": mend,
    "tidy": tidied,
}


def edit(text: str, action: Wish) -> Edited:
    """The text that comes of an action: {"do": one of EDITS, ...}. Only the characters concerned change.

    Where it cannot be done, the text is as it was and `refused` says why.
    """
    slip = Slip(text)
    name = str(action.get("do", ""))
    if name not in EDITS:
        return Edited(text, (), "", refused=f"Nothing is done by {name[:40] or 'no word'}.")
    try:
        return EDITS[name](slip, action)
    except Refused as reason:
        return Edited(text, (), reason.says, refused=reason.says, problems=reason.problems)
