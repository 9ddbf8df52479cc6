"""What each wrong rule overlooks, said kindly, and what to look at instead."""

# rule -> (the sentence, where to look)
WRONG: dict[str, tuple[str, str]] = {
    "M01": ("You counted wheels. Count what holds [the load]: the strands that go up from it.", "strands"),
    "M02": (
        "You counted the strand in your hand as well; it pulls on what stays, and does not lift [the load].",
        "hand",
    ),
    "M03": ("You counted the wheels that move. Each of them hangs on two strands, not on one.", "strands"),
    "M04": ("You halved the pull at every wheel; it is halved only where one rope hands over to another.", "strands"),
    "M05": ("You halved the pull at every moving wheel; on one rope the strands are counted, not doubled.", "strands"),
    "M06": ("You added the two tackles; but the one pulls on the other's rope, so their gains multiply.", "strands"),
    "M07": (
        "You multiplied, as if one rope pulled only the next; but both hold [the load], and there their pulls add.",
        "strands",
    ),
    "M08": ("You let the wheels that stay halve the pull too; they only turn it round.", "supports"),
    "M09": ("You let the pull get smaller as it passes a wheel; one rope pulls alike on both sides.", "strands"),
    "M18": ("You hung only the weights on it; the rope in your hand pulls there as well.", "supports"),
    "M19": ("You counted only the rope above you; the strand in your own hands holds you up too.", "hand"),
    "M20": (
        "You let your hand go as far as [the load]; every strand gives up that much, and it all comes to you.",
        "hand",
    ),
    "M21": ("You made the way shorter with the pull; it is the price of the pull, and grows.", "hand"),
    "M22": ("You counted wheels for the way as well; count the strands that get shorter.", "strands"),
    "M23": ("You took the way of [the load]; take the way that your own hand goes.", "hand"),
    "M24": ("You took your hand's way for [the load]; that rises less.", "load"),
    "M30": ("You lifted [the load] and let the block float; it hangs on the same ropes.", "load"),
    "M31": ("You carried the whole block yourself; the ropes share it as they share [the load].", "load"),
    "M32": ("You took the block's weight off; but it goes up with [the load], so it counts.", "load"),
    "M40": ("You let the rope pull with the whole weight of what sinks; then that could never start to sink.", "load"),
    "M41": ("You let the difference move one of the two only; it has both to move.", "load"),
    "M42": ("You gave [the load] the speed of the hauled end; it gathers speed more slowly than that.", "load"),
    "M45": ("You let both gather speed alike; the hauled end must run faster than [the load].", "load"),
    "M46": ("You made one lump of the two on the moving wheel; that is right only while they hang still.", "load"),
    "M48": (
        "You hung the whole weight up there; what falls while it gathers speed weighs less on its rope.",
        "supports",
    ),
    "M51": ("You left out the strand in your hand; here it comes off the moving block, and pulls up.", "hand"),
    "M52": ("You carried a block that is on its way down; it works for you.", "helper"),
    "M53": ("You counted strands of different ropes as if they pulled alike.", "strands"),
    "M57": ("You hung every block on [the load]; the farther ones weigh on fewer of your strands.", "load"),
}
