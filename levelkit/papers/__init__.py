"""Printed papers out of the bank: question papers, mark schemes, data sheet, answer book, handouts.

A sheet file (TOML) says which questions, for whom and when. Everything printed comes out of one
:class:`~levelkit.papers.class_paper.ClassPaper`, so that paper, scheme and data sheet cannot
disagree; it is kept beside them as a plain JSON file, from which hand-ins are marked later.
"""
