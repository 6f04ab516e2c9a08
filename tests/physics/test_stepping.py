"""Steps and limits of a run, on rates whose sums are known by hand."""

import numpy as np
import pytest

from levelkit.errors import InputError
from levelkit.physics.transients import TO_THE_END, BoilerInputs, InputStep, stepped


def filling(*feeds, starts=(0.0,), until=10.0, points=11, limits=(), begin=1.0):
    """A tank of 1 kg that only takes up the feed."""
    steps = [InputStep(at, BoilerInputs(0.0, 0.0, feed, 0.0))
             for at, feed in zip(starts, feeds, strict=True)]
    return stepped(lambda time, state, inputs: [inputs.feed_flow], [begin], steps, until, points,
                   limits)


def test_each_step_goes_on_from_where_the_one_before_ended():
    run = filling(2.0, 3.0, 0.5, starts=(0.0, 4.0, 7.5))
    by_hand = [1, 3, 5, 7, 9, 12, 15, 18, 19.5 + 0.25, 20.25, 20.75]
    assert run.time.tolist() == list(range(11))
    assert run.states[0] == pytest.approx(by_hand)
    assert [inputs.feed_flow for inputs in run.inputs] == [2.0] * 4 + [3.0] * 4 + [0.5] * 3
    assert run.ended == TO_THE_END


def test_a_step_on_no_instant_of_the_record_leaves_no_instant_of_its_own():
    run = filling(2.0, 4.0, starts=(0.0, 2.5), until=4.0, points=5)
    assert run.time.tolist() == [0.0, 1.0, 2.0, 3.0, 4.0]
    assert run.states[0] == pytest.approx([1.0, 3.0, 5.0, 8.0, 12.0])


def test_the_last_record_is_the_place_where_the_limit_was_met():
    limits = (("never", lambda state: 1e9 - state[0]), ("full at 6 kg", lambda s: 6.0 - s[0]))
    run = filling(2.0, 4.0, starts=(0.0, 2.0), limits=limits)
    assert run.ended == "full at 6 kg"
    assert run.time == pytest.approx([0.0, 1.0, 2.0, 2.25])
    assert run.states[0] == pytest.approx([1.0, 3.0, 5.0, 6.0])
    assert len(run.inputs) == 4


def test_a_start_on_the_limit_is_beyond_it():
    with pytest.raises(InputError, match="beyond a limit of the model: empty"):
        filling(2.0, limits=(("empty", lambda state: state[0]),), begin=0.0)


def test_a_record_of_two_instants_has_the_two_ends():
    assert filling(2.0, until=7.0, points=2).time.tolist() == [0.0, 7.0]
    with pytest.raises(InputError, match="number of instants"):
        filling(2.0, points=1)


@pytest.mark.parametrize("starts", [(), (1.0,), (0.0, 5.0, 4.0)])
def test_steps_begin_at_nought_and_rise(starts):
    with pytest.raises(InputError, match="rising order"):
        filling(*np.ones(len(starts)), starts=starts)
