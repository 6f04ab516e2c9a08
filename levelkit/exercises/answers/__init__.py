"""Answer functions: each calls physics for the steps and adds the known slips, in SI.

A function takes the record (``work``) and the given quantities by their names in the
bank. The steps come from :mod:`levelkit.physics`; a slip is a wrong formula and stands
here, in one line.
"""
