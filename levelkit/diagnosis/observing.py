"""What the checks show on a bench, as a person would read it; cases drawn from a seed."""

from dataclasses import replace
from random import Random

from .checks import CHECKS, SPREAD
from .faulty import NO_FAULT, is_out_of_sight
from .readings import bench_result


def observed(result, checks, memory=None):
    """Return what checks show on a bench, without noise.

    Parameters
    ----------
    result : BenchResult [-]
        The bench as it is.
    checks : tuple of str
        Keys of the checks that are done.
    memory : dict, optional [-]
        What was worked out before, kept between calls.

    Returns
    -------
    dict of tuple to float [mm, degC, mA and so on]
        (what, instrument) to number.

    References
    ----------
    None: it collects what the checks say.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> seen = observed(bench_result(example_setting()), ("clinometer",))
    >>> seen["list", "ship"]
    0.0
    """
    memory = {} if memory is None else memory
    seen = {}
    for check in checks:
        seen |= CHECKS[check].observe(result, memory)
    return seen


def with_noise(seen, random):
    """Return observations as a person would read them: each off by its spread.

    Parameters
    ----------
    seen : mapping of tuple to float [mm, degC, mA and so on]
        Without noise.
    random : random.Random [-]
        Where the noise comes from.

    Returns
    -------
    dict of tuple to float [mm, degC, mA and so on]
        With normal noise, independent for each.

    References
    ----------
    [GUM] a standard uncertainty for each reading.

    Examples
    --------
    >>> with_noise({("list", "ship"): 0.0}, Random(1)) != {("list", "ship"): 0.0}
    True
    """
    return {name: value + random.gauss(0.0, SPREAD[name[0]]) for name, value in seen.items()}


def seeded_case(signatures, seed):
    """Return a single fault and a bench with it, both drawn from a seed.

    Every suspect has the same chance, every centimetre of level within sight too.

    Parameters
    ----------
    signatures : Signatures [-]
        Of the boiler state.
    seed : int
        Of the case.

    Returns
    -------
    tuple of Placed and BenchResult [-]
        What is wrong, and everything that is so.

    References
    ----------
    None: a draw.

    Examples
    --------
    >>> from levelkit.diagnosis.example import signatures
    >>> placed, result = seeded_case(signatures(), 3)
    >>> result.faults == (placed,)
    True
    """
    random = Random(seed)
    placed = random.choice(signatures.suspects)
    low, high = signatures.knots[0], signatures.knots[-1]
    level = round(random.uniform(low, high), 2)
    if is_out_of_sight(placed.key):
        level = signatures.setting.level_before
    faults = () if placed == NO_FAULT else (placed,)
    return placed, bench_result(replace(signatures.setting, level=level), faults)


def seeded_pair(signatures, pairs, seed):
    """Return a pair of faults and a bench with both, drawn from a seed.

    Parameters
    ----------
    signatures : Signatures [-]
        Of the boiler state.
    pairs : sequence of tuple of Placed [-]
        The pairs to draw from.
    seed : int
        Of the case.

    Returns
    -------
    tuple of tuple of Placed and BenchResult [-]
        What is wrong, and everything that is so.

    References
    ----------
    None: a draw.

    Examples
    --------
    >>> from levelkit.diagnosis.example import signatures
    >>> two = (signatures().suspects[1:3],)
    >>> seeded_pair(signatures(), two, 3)[0] == two[0]
    True
    """
    random = Random(f"pair {seed}")
    pair = random.choice(pairs)
    level = round(random.uniform(signatures.knots[0], signatures.knots[-1]), 2)
    if any(is_out_of_sight(placed.key) for placed in pair):
        level = signatures.setting.level_before
    return pair, bench_result(replace(signatures.setting, level=level), tuple(pair))
