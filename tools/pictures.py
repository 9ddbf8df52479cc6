"""Draws the pictures of the README from rigs of the shelf."""

from pathlib import Path

import gantline

ROOT = Path(__file__).resolve().parents[1]
PICTURES = {
    "planter-cut": ("planter", "cut", 700),
    "planter-displacement": ("planter", "displacement", 700),
    "burton-labelled": ("burton-heavy", "labelled", 450),
    "planter-tried": ("planter", "tried", 900),
}


def main() -> None:
    folder = ROOT / "docs" / "img"
    folder.mkdir(exist_ok=True)
    for name, (ready, view, width) in PICTURES.items():
        rig, problems = gantline.load(ROOT / "src" / "gantline" / "shelf" / f"{ready}.rig")
        if rig is None:
            raise SystemExit(f"{ready}: {problems[0].says}")
        (folder / f"{name}.png").write_bytes(gantline.draw(rig, view).png(width))


if __name__ == "__main__":
    main()
