"""Class records: answers in, marks, feedback and reports out, in plain files that open anywhere.

What candidates hand in is read as text and never run. A row that cannot be read is reported with
file, line and what to do; the rest is marked. Nothing is overwritten without a dated copy, and no
name stands in a file name or in any record: only the register knows the names.
"""
