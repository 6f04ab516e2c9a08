"""Balance of a gauge cover on its gasket: cubic beam elements, gasket springs at the nodes."""

import numpy as np

from ..errors import InputError

ELEMENTS_PER_PITCH = 4
ATTEMPTS = 200


class CoverBeam:
    """A cover, four elements to a bolt pitch, ends free.

    A shape holds deflection (into the gasket) and slope of every node in turn.
    """

    def __init__(self, cover):
        self.cover = cover
        self.element_length = h = cover.pitch / ELEMENTS_PER_PITCH
        elements = ELEMENTS_PER_PITCH * cover.pairs
        self.nodes = elements + 1
        self.element = cover.bending_stiffness / h**3 * np.array([
            [12, 6 * h, -12, 6 * h], [6 * h, 4 * h**2, -6 * h, 2 * h**2],
            [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h**2, -6 * h, 4 * h**2]])
        self.stiffness = np.zeros((2 * self.nodes,) * 2)
        for first in range(0, 2 * elements, 2):
            self.stiffness[first:first + 4, first:first + 4] += self.element
        self.share = np.full(self.nodes, h)  # metres of gasket that each node stands for
        self.share[[0, -1]] /= 2
        self.bolt_nodes = np.repeat(
            ELEMENTS_PER_PITCH // 2 + ELEMENTS_PER_PITCH * np.arange(cover.pairs), 2)

    def gasket(self, shape, squeezed):
        """Load and stiffness per metre at each node, after an earlier compression."""
        first = self.cover.gasket_stiffness
        back = self.cover.gasket_set * first
        new = shape[0::2] >= squeezed
        load = np.where(new, first * shape[0::2],
                        first * squeezed - back * (squeezed - shape[0::2]))
        # a trace of stiffness under a lifted cover keeps the equations solvable
        slope = np.where(load < 0, 1e-7 * first, np.where(new, first, back))
        return np.maximum(load, 0.0), slope

    def bolts(self, shape, advance):
        """Pull and stiffness of each bolt; a slack bolt does not push."""
        pull = self.cover.bolt_stiffness * (advance - shape[2 * self.bolt_nodes])
        return np.maximum(pull, 0.0), np.where(pull < 0, 0.0, self.cover.bolt_stiffness)

    def settled(self, shape, squeezed, advance, bolt, pull):
        """Shape in which cover, gasket and bolts balance, one bolt at a given pull."""
        diagonal = np.arange(0, 2 * self.nodes, 2)
        bolt_rows = 2 * self.bolt_nodes

        def unbalanced(shape):
            load, slope = self.gasket(shape, squeezed)
            pulls, give = self.bolts(shape, advance)
            pulls[bolt], give[bolt] = pull, 0.0
            force = self.stiffness @ shape
            force[0::2] += load * self.share
            np.subtract.at(force, bolt_rows, pulls)
            return force, slope, give

        force, slope, give = unbalanced(shape)
        for _ in range(ATTEMPTS):
            # a stiff cover makes its balance the difference of huge forces: allow their rounding
            rounding = 1e-15 * np.abs(self.stiffness).max() * np.abs(shape).max()
            if np.abs(force[0::2]).max() < 1e-9 * self.cover.bolt_load + rounding:
                return shape
            tangent = self.stiffness.copy()
            tangent[diagonal, diagonal] += slope * self.share
            np.add.at(tangent, (bolt_rows, bolt_rows), give)
            step, stride = -np.linalg.solve(tangent, force), 1.0
            # the kinks of gasket and bolts make a plain step overshoot: the energy is
            # convex, so the right stride is where the force along the step vanishes
            while True:
                trial = unbalanced(shape + stride * step)
                if stride < 1e-3 or trial[0] @ step < 1e-3 * abs(force @ step):
                    break
                stride /= 2
            shape, (force, slope, give) = shape + stride * step, trial
        raise InputError(
            f"The cover does not settle: {ATTEMPTS} attempts at balance failed. Use cover, gasket "
            "and bolt stiffness nearer to those of a real gauge.")

    def largest_moment(self, shape):
        """Largest bending moment at any node."""
        ends = [self.element[1] @ shape[first:first + 4]
                for first in range(0, 2 * self.nodes - 2, 2)]
        return np.abs(ends).max()
