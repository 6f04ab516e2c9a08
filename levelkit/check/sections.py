"""The sections of the check page, and how much outside evidence each of them has."""

from dataclasses import dataclass

from .values import check_values

SECTIONS = {
    "water and steam": ("water properties", "saturation and leg densities"),
    "columns and manometers": ("manometer",),
    "gauge glass": ("gauge glass", "gauge glass table", "gauge glass worked example"),
    "what the eye sees": ("optics", "meniscus"),
    "cocks": ("cocks",),
    "breakage": ("critical flow", "breakage"),
    "heat loss": ("heat loss",),
    "two-fluid indicator": ("fluid table", "indicating fluid"),
    "transmitter and reference leg": (
        "wet leg", "wet leg on a drum", "interface with filled leg",
        "suppressed and elevated zero", "direction", "reference leg table",
        "uncompensated table", "manifold"),
    "signal": ("signal", "level and current"),
    "ship motion": ("ship motion",),
    "swell and shrink": ("swell",),
    "natural-circulation boiler": ("drum dynamics",),
    "protection and voting": ("protection", "voting"),
    "rules": ("rules",),
}


@dataclass(frozen=True, slots=True)
class Evidence:
    """What stands behind one section: its check values, counted by how they are known."""

    section: str
    rows: tuple

    @property
    def sources(self):
        """Ids of the documents, in the order of the rows."""
        return tuple(dict.fromkeys(row.source for row in self.rows))

    def count(self, known):
        """How many values are known so: "seen", "from memory", "computed"."""
        return sum(row.known == known for row in self.rows)

    @property
    def self_consistent(self):
        """How many rows test our implementation only, for their number was computed for us."""
        return sum(row.evidence == "SELF-CONSISTENT" for row in self.rows)


def evidence():
    """Return the evidence of every section, in the order of the page."""
    rows = check_values().values()
    return tuple(Evidence(section, tuple(row for row in rows if row.topic in topics))
                 for section, topics in SECTIONS.items())
