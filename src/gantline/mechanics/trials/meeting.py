"""Block to block: whether the way asked for is longer than the parts are apart."""

from gantline.rig import Rig

from .nouns import Meeting
from .statics import Statics

_NONE = 1e-9  # of the way asked for, or of a metre per metre: less is none


def meeting(rig: Rig, statics: Statics) -> Meeting | None:
    """Which two parts meet before the rise asked for is done, were the rope not to stretch; None where none do.

    None also where nothing is to be raised, or what is has no number.
    """
    asked = rig.asked
    if asked is None or asked.sense < 0 or asked.distance.number is None:
        return None
    setup, rates, wanted = statics.setup, statics.rates(), float(asked.distance.number)
    names = [body.name for body in setup.bodies]
    rate = rates[names.index(rig.bearer(asked.part))]
    if rate <= _NONE:
        return None
    assumed = {part for one in setup.assumed if one.what == "apart" for part in one.parts}
    found = []
    for span, closing in zip(setup.spans, statics.lift.T @ rates / rate, strict=True):
        spare = span.length - sum(touch.radius for touch in span.touches)
        if not span.hauled and closing > _NONE and spare < closing * wanted * (1 - _NONE):
            ends = [rig.bearer(touch.part.partition(".")[0]) for touch in span.touches]
            pair = {" and ".join(ends), " and ".join(reversed(ends))}
            found.append((max(spare / closing, 0.0), (ends[0], ends[1]), span.length, bool(pair & assumed)))
    if not found:
        return None
    rise, parts, apart, taken = min(found)
    return Meeting(asked.part, wanted, rise, parts, apart, taken)
