"""The desk: a local page where a newsroom sorts, edits and clears answers, for several people at once."""
