"""No state of physics takes a number that cannot be: not a number, or beyond all bounds."""

import dataclasses
import math

import pytest
from example_calls import MODULES, example_states, is_number

from levelkit.errors import InputError

LOOKED_AT_LATER = {
    # looked at by the function that needs them, together with other values
    "TwoFluidState.fluid_temperature", "TwoFluidState.filling",
    # computed by levelkit itself, from values that were looked at
    "GlassContents.time", "GaugeFitting.ball_lift_flow",
}
WITHOUT_END = {"LoopState.leakage_resistance", "Receiver.shunt"}  # no leak: no end


@pytest.mark.parametrize("module", MODULES)
def test_a_state_refuses_what_is_no_number_or_beyond_all_bounds(module):
    for kind, state in example_states().items():
        if not (kind.__module__.endswith(f".{module}") and hasattr(kind, "__post_init__")):
            continue
        for field in dataclasses.fields(kind):
            place = f"{kind.__name__}.{field.name}"
            if not is_number(getattr(state, field.name)) or place in LOOKED_AT_LATER:
                continue
            for bad in (math.nan, -1e300) + (() if place in WITHOUT_END else (1e300,)):
                with pytest.raises(InputError):
                    dataclasses.replace(state, **{field.name: bad})
                    pytest.fail(f"{place} takes {bad}", pytrace=False)


def test_the_examples_make_most_states():
    assert sum(hasattr(kind, "__post_init__") for kind in example_states()) >= 30
