"""A question becomes a reading: what was understood, and how sure we are."""
