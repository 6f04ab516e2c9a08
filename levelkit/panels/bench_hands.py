"""A class answers by show of hands: counts, shares, and what most of them would do."""

from ..diagnosis.decisions import DECISIONS


class Hands:
    """How many hands went up for each decision."""

    def __init__(self):
        self.counts = dict.fromkeys(DECISIONS, 0)

    def add(self, decision):
        """Count one hand more."""
        self.counts[decision] += 1

    def clear(self):
        """Begin a new count."""
        self.counts = dict.fromkeys(DECISIONS, 0)

    def sentence(self):
        """Return the counts in words, most hands first."""
        total = sum(self.counts.values())
        if not total:
            return "No hand counted yet: press a decision once for each hand."
        raised = sorted(((count, key) for key, count in self.counts.items() if count),
                        reverse=True)
        parts = [f"{key}: {count} ({100 * count / total:.0f} %)" for count, key in raised]
        return f"{total} hands. {'; '.join(parts)}."
