"""One table of a scenario file, read key by key; every mistake names file, table and key."""

from difflib import get_close_matches

from ..errors import InputError, ScenarioError, checked


class Table:
    """A TOML table that remembers where it stands and which keys were asked for."""

    def __init__(self, file, name, content):
        self.place = f"{file}, table [{name}]" if name else file
        self._file, self._name = file, name
        self._content, self._known = content, []

    def _value(self, key, wanted):
        self._known.append(key)
        if key not in self._content:
            raise ScenarioError(f"{self.place}: the key {key} is missing. Add {key} = {wanted}.")
        return self._content[key]

    def number(self, key, low, high, unit, remedy=""):
        """Return a number inside its range."""
        value = self._value(key, f"a number from {low:g} to {high:g} {unit}".rstrip())
        if isinstance(value, (list, dict)):
            value = str(value)  # a list of numbers is not one number
        try:
            return checked(key, value, low, high, unit, remedy)
        except InputError as fault:
            raise ScenarioError(f"{self.place}: {fault}") from None

    def text(self, key):
        """Return a text that is not empty."""
        value = self._value(key, '"some text"')
        if not isinstance(value, str) or not value.strip():
            raise ScenarioError(
                f"{self.place}: {key} is {value!r}, which is no text. Write it in quotation marks.")
        return value

    def choice(self, key, options):
        """Return one of some words."""
        listed = ", ".join(f'"{option}"' for option in options)
        value = self._value(key, f"one of {listed}")
        if value not in options:
            raise ScenarioError(
                f"{self.place}: {key} is {value!r}; the allowed values are {listed}. Choose one.")
        return value

    def flag(self, key):
        """Return true or false."""
        value = self._value(key, "true or false")
        if not isinstance(value, bool):
            raise ScenarioError(f"{self.place}: {key} is {value!r}; the allowed values are true "
                                "and false, without quotation marks. Write one of them.")
        return value

    def table(self, key, holds="keys of its own"):
        """Return a table inside this one."""
        path = f"{self._name}.{key}" if self._name else key
        self._known.append(key)
        content = self._content.get(key)
        if not isinstance(content, dict):
            found = "is missing" if content is None else f"is {content!r}"
            raise ScenarioError(f"{self._file}: the table [{path}] {found}. "
                                f"Add a line [{path}] and below it {holds}.")
        return Table(self._file, path, content)

    def names(self):
        """Return the keys that stand in the table."""
        return list(self._content)

    def finish(self):
        """Complain about the first key that nobody asked for."""
        for key in self._content:
            if key not in self._known:
                near = get_close_matches(key, self._known, 1)
                hint = f"Did you mean {near[0]}?" if near else "Take it out."
                raise ScenarioError(f"{self.place}: the key {key} is unknown; the keys here are "
                                    f"{', '.join(self._known)}. {hint}")

    def fault(self, sentence):
        """Return the error for something that is wrong with the table as a whole."""
        return ScenarioError(f"{self.place}: {sentence}")
