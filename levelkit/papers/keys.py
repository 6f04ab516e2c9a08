"""A table of a sheet file, read key by key; every complaint names file, key and cure."""

import datetime
from difflib import get_close_matches

from ..errors import InputError


class Keys:
    """A table of the sheet file; every complaint names file, key and cure."""

    def __init__(self, place, content):
        self.place, self.content = place, content

    def fault(self, key, words):
        """Return the error for one key."""
        return InputError(f"{self.place}, key {key}: {words}.")

    def only(self, known):
        """Complain about a key that nobody asks for."""
        for key in self.content:
            if key not in known:
                near = get_close_matches(key, known, 1)
                hint = f"Perhaps {near[0]} is meant" if near else "Take it out"
                raise self.fault(key, f"it is unknown; known are {', '.join(sorted(known))}. "
                                      f"{hint}")

    def _value(self, key, default, wanted):
        if key in self.content:
            return self.content[key]
        if default is None:
            raise self.fault(key, f"it is missing. Add {key} = {wanted}")
        return default

    def text(self, key, default=None):
        """Return a text, or the default where the key is absent."""
        value = self._value(key, default, '"some text"')
        if not isinstance(value, str) or (default is None and not value.strip()):
            raise self.fault(key, f"is {value!r}, which is no text. Write it in quotation marks")
        return value

    def texts(self, key, default=None):
        """Return a list of texts as a tuple."""
        value = self._value(key, default, '["one", "two"]')
        if not isinstance(value, (list, tuple)) or not all(isinstance(one, str) for one in value) \
                or (default is None and not value):
            raise self.fault(key, 'has to be a list of texts, such as ["one", "two"]')
        return tuple(value)

    def whole(self, key, low, high, default=None):
        """Return a whole number inside its range."""
        value = self._value(key, default, f"a number from {low} to {high}")
        if value is default and default is not None:
            return value
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            raise self.fault(key, f"is {value!r}; the allowed range is {low} to {high}. Write a "
                                  "whole number")
        return value

    def flag(self, key, default):
        """Return true or false."""
        value = self._value(key, default, "true or false")
        if not isinstance(value, bool):
            raise self.fault(key, f"is {value!r}; write true or false without quotation marks")
        return value

    def date(self, key):
        """Return a date."""
        value = self._value(key, None, "2026-03-12")
        if not isinstance(value, datetime.date) or isinstance(value, datetime.datetime):
            raise self.fault(key, f"is {value!r}; write a date such as 2026-03-12, without "
                                  "quotation marks")
        return value

    def table(self, key):
        """Return a table inside this one."""
        value = self.content[key]
        if not isinstance(value, dict):
            raise self.fault(key, f"has to be a table that begins with a line [{key}]")
        return Keys(f"{self.place}, table [{key}]", value)
