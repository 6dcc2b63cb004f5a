"""How much each kind of evidence counts in a reading, in log-odds, and the bar for deciding.

Not here: gathering the evidence (read.py). The figures were set by hand with `python tests/bench/reading.py` in view
(cross-validation on the rules' examples), not by fitting them to the demonstration letters.
"""

NAMED = 3.0  # the problem is named in the letter
PHRASE = 1.5  # a phrase people use for it stands in the letter (at most twice)
SUITS = 2.0  # it occurs on a plant the letter names (times the fit, 0 to 1)
DOES_NOT_SUIT = -3.0  # the letter names plants, and it occurs on none of them
PLANT_BUT_NONE = 1.6  # it names a plant: that speaks for "none of our problems" nearly as much as for one of them
SHARPNESS = 1.6  # scales the text model's scores before the rest is added
DECIDED = 0.6  # probability of the leading pair from which a draft gives an answer
KNOWN_WORDS = 0.4  # share of words the examples use, below which nothing is decided (English letters: 0.6 and more)
CANDIDATES = 6
COVERAGE = 0.95  # candidates are listed until they hold this much probability
