"""Making by hand: pure functions from a text and a wish to the text that comes of it. No state, no file, no HTTP."""

from .draft import Draft, draft, undrawn
from .edited import Edited
from .editing import EDITS, FROM_NOTHING, edit
from .mending import GIVEN
from .offering import Offers, offers
from .tags import Tag, tag

__all__ = [
    "EDITS", "FROM_NOTHING", "GIVEN", "Draft", "Edited", "Offers", "Tag", "draft", "edit", "offers", "tag", "undrawn",
]  # fmt: skip
