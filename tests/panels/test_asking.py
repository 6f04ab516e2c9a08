"""Predict before reveal, and self-checks that answer per option."""

import pytest

from levelkit.lesson import Prediction, SelfCheck, gauge_glass_panel


def test_a_prediction_hides_the_truth_until_it_is_locked():
    panel = gauge_glass_panel("auxiliary")
    card = Prediction("What happens?", ["sinks", "rises"], "sinks", "It is denser.", panel)
    assert not panel.truth.value and panel.truth.disabled and card.reveal.disabled
    card.lock.click()
    assert "Choose one" in card.said and card.reveal.disabled
    card.options.value = "rises"
    card.lock.click()
    assert card.options.disabled and not card.reveal.disabled and "Locked" in card.said
    assert "It is denser" not in card.said
    card.reveal.click()
    assert panel.truth.value and "Not so" in card.said and "It is denser" in card.said


def test_a_right_prediction_is_confirmed():
    card = Prediction("What happens?", ["sinks", "rises"], "sinks", "It is denser.")
    card.options.value = "sinks"
    card.lock.click()
    card.reveal.click()
    assert "As you predicted" in card.said


def test_every_option_of_a_self_check_has_its_own_answer():
    card = SelfCheck("Which?", {"a": "why not a", "b": "why b"}, right="b")
    card.check.click()
    assert "Choose one" in card.said
    card.options.value = "a"
    card.check.click()
    assert "Not yet. why not a" in card.said
    card.options.value = "b"
    card.check.click()
    assert "Right. why b" in card.said


def test_an_answer_that_is_no_option_is_refused():
    with pytest.raises(ValueError, match="not among"):
        Prediction("?", ["a"], "b", "")
    with pytest.raises(ValueError, match="not among"):
        SelfCheck("?", {"a": ""}, right="b")
