"""The diagnosis bench: one drum, six indicators, and what their disagreement means."""
