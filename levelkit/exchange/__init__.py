"""To other systems: question packages for a learning platform, the syllabus map as CSV."""
