"""Notebooks of a few lines, for what is measured in the browser."""

import nbformat


def write_notebook(path, *cells):
    """Write a notebook of code cells."""
    book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(cell) for cell in cells])
    book.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3",
                                   "language": "python"}
    nbformat.write(book, path)
