"""Every sentence of the marking, in one place, by key. None tells the right number."""

SENTENCES = {
    "blank": "Nothing is entered for “{ask}”.",
    "right": "Right.",
    "followed": "Right from your own earlier value: the follow-through marks are yours.",
    "wrong": "Not within the tolerance. Take the hint of this step and try again.",
    "wrong_after_own": "Not within the tolerance, and it does not follow from your own earlier "
                       "value either. Take the hint of this step and try again.",
    "own_impossible": "One of your earlier values describes a state that cannot exist, so the "
                      "later steps are marked from the given data alone.",
    "sign": "The size is right and the sign is not. Say first which way, then how much.",
    "direction": "The size is right; the direction is not. Empty one side in your mind and ask "
                 "which way the reading goes.",
    "no_direction": "State the direction too: {negative} or {positive}.",
    "contradiction": "“{text}” states two directions that contradict each other. Write a number "
                     "with a sign, or a number with one of the words {negative} and {positive}.",
    "unit": "The number would fit in {other}; you wrote it as {unit}. Convert before you write "
            "the unit down.",
    "unit_unwritten": "The number would fit in {other}; asked for is {unit}. Convert it, or write "
                      "the unit behind the number.",
    "gauge_for_absolute": "That is the gauge pressure; asked for is the absolute one.",
    "absolute_for_gauge": "That is the absolute pressure; asked for is the gauge one.",
    "dimension": "“{text}” has the unit {unit}, which does not measure what is asked for: "
                 "give a value in {asked}.",
    "words": "“{text}” holds “{word}”, which cannot be read here. Write a number with its unit, "
             "such as {sample}.",
    "no_number": "“{text}” holds no number. Write a number with its unit, such as {sample}.",
    "too_long": "What you entered has {length} characters; write one number with its unit, such "
                "as {sample}.",
    "option": "“{text}” is not one of the answers offered. Choose one of them.",
}


def sentence(key, **words):
    """Return a sentence of the marking with its words filled in.

    Examples
    --------
    >>> sentence("no_direction", negative="low", positive="high")
    'State the direction too: low or high.'
    """
    return SENTENCES[key].format(**words)
