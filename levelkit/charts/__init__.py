"""What is looked at long: sweeps and maps typeset by matplotlib, and frames for live curves.

Matplotlib is imported inside the functions: whoever draws no chart does not wait for it.
"""
