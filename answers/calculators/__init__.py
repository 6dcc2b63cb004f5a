"""Numbers in, a Figure with its working out; nothing here knows about letters."""
