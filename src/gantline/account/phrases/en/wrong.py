"""What each wrong rule overlooks, said kindly, and what to look at instead."""

from msgspec import Struct


class Slip(Struct, frozen=True):
    """What is overlooked. `when` is a list of tags that must hold, those with `!` in front must not; `look` is where
    to look instead."""

    when: str
    say: str
    look: str

    def holds(self, tags: set[str]) -> bool:
        return all((tag[1:] not in tags) if tag[0] == "!" else tag in tags for tag in self.when.split())


def _always(say: str, look: str) -> tuple[Slip, ...]:
    return (Slip("", say, look),)


# rule -> what it overlooks, the first that is true of the rig
WRONG: dict[str, tuple[Slip, ...]] = {
    "M01": (
        Slip("ropes", "You counted wheels. Follow the pull from rope to rope until it reaches [the load].", "strands"),
        Slip("", "You counted wheels. Count what holds [the load]: the strands that go up from it.", "strands"),
    ),
    "M02": _always(
        "You counted the strand in your hand as well; it pulls on what stays, and does not lift [the load].", "hand"
    ),
    "M03": (
        Slip("ropes", "You counted the wheels that move. Count the pulls at [the load], not the wheels.", "strands"),
        Slip("", "You counted the wheels that move. Each of them hangs on two strands, not on one.", "strands"),
    ),
    "M04": (
        Slip("one-rope", "You halved the pull at every wheel; on one rope it stays the same all along.", "strands"),
        Slip(
            "",
            "You halved the pull at every wheel; it changes only where one rope hands over to another.",
            "strands",
        ),
    ),
    "M05": (
        Slip(
            "one-rope",
            "You halved the pull at every moving wheel; on one rope the strands are counted, not doubled.",
            "strands",
        ),
        Slip(
            "",
            "You halved the pull at every moving wheel; look what each wheel really hands on to the next.",
            "strands",
        ),
    ),
    "M06": _always(
        "You added the tackles; but each pulls on the rope of the one before, so their gains multiply.", "strands"
    ),
    "M07": _always(
        "You multiplied, as if one rope pulled only the next; but both hold [the load], and there their pulls add.",
        "strands",
    ),
    "M08": _always("You let the wheels that stay halve the pull too; they only turn it round.", "supports"),
    "M09": _always("You let the pull get smaller as it passes a wheel; one rope pulls alike on both sides.", "strands"),
    "M18": (
        Slip("pulls-up", "You hung all of it up there; your own hand holds a part, from above.", "supports"),
        Slip("", "You hung only the weights on it; the rope in your hand pulls there as well.", "supports"),
    ),
    "M19": _always("You counted only the rope above you; the strand in your own hands holds you up too.", "hand"),
    "M20": _always(
        "You let your hand go as far as [the load]; every strand gives up that much, and it all comes to you.", "hand"
    ),
    "M21": _always("You made the way shorter with the pull; it is the price of the pull, and grows.", "hand"),
    "M22": (
        Slip("ropes", "You counted wheels for the way as well; follow how far each rope's end must go.", "strands"),
        Slip("", "You counted wheels for the way as well; count the strands that get shorter.", "strands"),
    ),
    "M23": _always("You took the way of [the load]; take the way that your own hand goes.", "hand"),
    "M24": _always("You took your hand's way for [the load]; that rises less.", "load"),
    "M30": (
        Slip(
            "helps !own-heavy",
            "You left out what hangs between the ropes; it goes down as [the load] comes up, and helps you.",
            "helper",
        ),
        Slip("several-bodies", "You lifted [the load] and let the blocks float; they hang on the ropes too.", "load"),
        Slip("own-block", "You lifted [the load] and let the block float; it hangs on the same strands.", "load"),
        Slip("", "You lifted [the load] and let the wheel float; it hangs on the same strands.", "load"),
    ),
    "M31": (
        Slip("helps !own-heavy", "You carried a block that is on its way down; it works for you.", "helper"),
        Slip("several-bodies", "You carried the blocks alone; the ropes share them as they share [the load].", "load"),
        Slip("own-block", "You carried the whole block yourself; the strands share it with [the load].", "load"),
        Slip("", "You carried the whole wheel yourself; the strands share it with [the load].", "load"),
    ),
    "M32": (
        Slip(
            "helps",
            "You took off each block's weight as it stands; it counts by how far it goes, and which way.",
            "helper",
        ),
        Slip(
            "several-bodies", "You took the blocks' weight off; but they go up with [the load], so it counts.", "load"
        ),
        Slip("own-block", "You took the block's weight off; but it goes up with [the load], so it counts.", "load"),
        Slip("", "You took the wheel's weight off; but it goes up with [the load], so it counts.", "load"),
    ),
    "M33": _always(
        "You let one wheel's loss serve for all; every wheel that the rope passes takes its own share.", "wheels"
    ),
    "M35": _always("You added the losses; but each wheel loses a part of what the one before has left.", "wheels"),
    "M36": _always(
        "You let it down with the pull that raises it; on the way down the drag of the wheels helps you hold.", "hand"
    ),
    "M39": _always(
        "You let the rope pull as hard as what hangs there weighs; then nothing would be left over to move it.", "load"
    ),
    "M40": _always(
        "You let the rope pull with the whole weight of what sinks; then that could never start to sink.", "load"
    ),
    "M41": _always("You let the difference move one of the two only; it has both to move.", "load"),
    "M42": _always("You gave [the load] the speed of the hauled end; it gathers speed more slowly than that.", "load"),
    "M44": _always("You pulled as if [the load] only hung there; nothing would be left over to move it.", "hand"),
    "M45": _always("You let both gather speed alike; the hauled end must run faster than [the load].", "load"),
    "M46": _always(
        "You made one lump of the two on the moving wheel; that is right only while they hang still.", "load"
    ),
    "M47": (
        Slip(
            "heavy-wheel",
            "You let the wheel have equal pulls on its two sides; but it is heavy, and then nothing would turn it.",
            "wheels",
        ),
        Slip(
            "",
            "You let the rope pull alike on both sides; but a stiff wheel turns only if one side pulls harder.",
            "wheels",
        ),
    ),
    "M48": (
        Slip("effort-given", "You hung all of it up there; your own hand holds a part, from above.", "supports"),
        Slip(
            "",
            "You hung the whole weight up there; what falls while it gathers speed weighs less on its rope.",
            "supports",
        ),
    ),
    "M51": _always(
        "You left out the strand in your hand; here it comes off what it lifts, and pulls up as well.", "hand"
    ),
    "M52": (
        Slip("helpers", "You carried blocks that are on their way down; they work for you.", "helper"),
        Slip("", "You carried a block that is on its way down; it works for you.", "helper"),
    ),
    "M53": _always("You counted strands of different ropes as if they pulled alike.", "strands"),
    "M54": _always(
        "You counted the whole wheel as if it ran as fast as the rope; near its middle it hardly moves, and counts "
        "for less.",
        "wheels",
    ),
    "M55": _always(
        "You shared it alike; that is one way among many, and nothing here makes the ropes choose it.", "strands"
    ),
    "M56": _always("You asked only [the load]; everything else that can move has to be in balance too.", "load"),
    "M57": _always("You hung every block on [the load]; each counts only by how far it goes as that rises.", "load"),
}
