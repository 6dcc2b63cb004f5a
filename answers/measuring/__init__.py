"""How well questions are read: gold letters, the marks given, a plain baseline beside them, a page with pictures."""
