"""A sweep gives what solving each variant gives."""

import numpy as np
import pytest
from texts import BURTON, PLANTER, answer, lossy, rig

from gantline.mechanics import sweep


def test_a_sweep_is_the_closed_form_over_arrays() -> None:
    weights = np.array([0.0, 12.0, 24.0, 100.0])
    swept = sweep(rig(BURTON), {"w": weights}, ("effort", "advantage", "long:1"))
    for n, weight in enumerate(weights[1:], 1):
        one = answer(BURTON.replace("24 N", f"{weight} N")).ideal
        assert swept["effort"][n] == pytest.approx(float(one.effort.number), rel=1e-12)  # type: ignore[union-attr, arg-type]
        assert swept["long:1"][n] == pytest.approx(float(one.tension("long:1").number), rel=1e-12)  # type: ignore[union-attr, arg-type]


def test_a_sweep_of_two_givens_broadcasts_and_knows_regimes() -> None:
    losses, loads = np.linspace(0.5, 1, 6)[:, None], np.array([100.0, 348.0])
    swept = sweep(rig(lossy(PLANTER)), {"e": losses, "W": loads}, ("raising.effort",))["raising.effort"]
    assert swept.shape == (6, 2)
    assert swept[-1, 1] == pytest.approx(90)


def test_a_sweep_names_what_it_does_not_know() -> None:
    with pytest.raises(KeyError, match="nothing"):
        sweep(rig(PLANTER), {"nothing": np.ones(2)})
    with pytest.raises(KeyError):
        sweep(rig(PLANTER), {"W": np.ones(2)}, ("raising.effort",))
