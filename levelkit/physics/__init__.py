"""Physics of level indication: plain functions and frozen dataclasses, SI, no widgets, no drawing.

Densities come in as numbers; nothing here asks for a steam table. Every indicator
is the same rule, the column list of :mod:`levelkit.physics.columns`, with other columns.
"""
