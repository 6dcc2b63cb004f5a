"""A file of mail becomes letters, and letters become questions."""
