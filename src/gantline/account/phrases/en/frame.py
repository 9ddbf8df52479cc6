"""A frame: a whole sentence with slots, and what must be true of the rig for it to be said."""

from msgspec import Struct


class Frame(Struct, frozen=True):
    """`when` is a list of tags that must hold, those with `!` in front must not. `say` has `{numbers}` and `[names]`;
    an empty one says that the step is left out. `idea` is the step in two or three words."""

    when: str
    say: str
    idea: str = ""

    def holds(self, tags: set[str]) -> bool:
        return all((tag[1:] not in tags) if tag[0] == "!" else tag in tags for tag in self.when.split())


Frames = dict[str, tuple[Frame, ...]]
