"""How fast viewers of each level read, and how long a line of caption may be for them."""

from msgspec import Struct


class Level(Struct, frozen=True):
    """Limits for captions: spoken words a minute, signs in a line, signs a second. `source` has no default."""

    words_a_minute: int
    line: int
    signs_a_second: int
    source: str


LEVELS = {
    "lower": Level(130, 32, 15, "DCMP Captioning Key: lower level; 32 signs a line; up to 15 a second for the young"),
    "middle": Level(140, 37, 15, "DCMP Captioning Key: middle level; broadcasters' lines of about 37 signs"),
    "upper": Level(160, 42, 17, "DCMP Captioning Key: upper level; common practice on the web, 42 signs, 17 a second"),
}
