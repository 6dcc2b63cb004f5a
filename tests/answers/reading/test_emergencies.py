"""Emergencies are caught by plain signs, and by how they are told; recall first."""

import json
from pathlib import Path

import pytest

from answers.letters.letter import Question
from answers.reading.emergencies import Signs
from answers.reading.read import Reader
from kb.load import load

GOLD = Path(__file__).parents[2] / "gold"
CAUGHT, FALSE = 0.9, 0.1


@pytest.fixture(scope="module")
def knowledge():
    return load()


@pytest.mark.parametrize(
    ("text", "who"),
    [
        ("My 3 year old just ate some berries off the yew", "poison-centre"),
        ("grandson swallowed a castor bean", "poison-centre"),
        ("our toddler was chewing on a philodendron leaf", "poison-centre"),
        ("my daughter may have eaten a mushroom from the yard", "poison-centre"),
        ("he drank some weed killer from a soda bottle, my son", "poison-centre"),
        ("the baby put a holly berry in her mouth", "poison-centre"),
        ("had a handful of the white bells and I think at least one was in her mouth", "poison-centre"),
        ("the little one has purple juice all over her mouth from those berries", "poison-centre"),
        ("I pulled two seed pods out of his mouth", "poison-centre"),
        ("my husband sprayed the roses and just fainted on the patio", "emergency-services"),
        ("grandma still eats them and her lips are numb and she is nauseous", "poison-centre"),
        ("grandpa is throwing up after spraying the insecticide", "poison-centre"),
        ("kids ate the red berries on the yew", "poison-centre"),
        ("my pet rabbit ate foxglove leaves", "animal-poison"),
        ("horse chewed on the yew hedge", "animal-poison"),
        ("cat is drooling after biting the lily", "animal-poison"),
        ("weed killer splashed in my eyes this morning", "poison-centre"),
        ("I feel dizzy after using the insecticide", "poison-centre"),
        ("some of the concentrate splashed up into one eye and it stings", "poison-centre"),
        ("found toadstools under the pine, cooked them for supper, now we are both ill", "poison-centre"),
        ("my boy eat red berry from bush, what I do", "poison-centre"),
        ("cleared the hedge and got into a nest, my lips feel numb and swollen", "emergency-services"),
        ("after burning vines he is wheezing badly", "emergency-services"),
        ("she has trouble breathing since we sprayed", "emergency-services"),
        ("My wife dusted the roses with sulfur, got a lungful and is gasping", "poison-centre"),
        ("My mother in law is swollen around the mouth after eating the dieffenbachia", "poison-centre"),
        ("The rhubarb leaves looked nice so I put some in the soup, and now we both have belly ache", "poison-centre"),
        ("My horse has been browsing the red maple and is breathing hard", "animal-poison"),
        ("I was stung at least 30 times by the compost heap", "emergency-services"),
        ("my dog eat the snail bait, all box", "animal-poison"),
        ("cat was in the lilies and is trembling", "animal-poison"),
        ("backhoe caught a pipe by the hedge and it is hissing", "gas-utility"),
        ("strong smell of gas where we dug for the new tree", "gas-utility"),
        ("the dog ate half a bag of cocoa mulch", "animal-poison"),
        ("our puppy got into the slug bait", "animal-poison"),
        ("a limb is resting on the power line", "electric-utility"),
        ("the big maple is leaning on the electric wire", "electric-utility"),
        ("branch on the wires is sparking", "electric-utility"),
        ("tree fell on the power lines last night", "electric-utility"),
        ("I think we hit the gas line digging, can smell gas", "gas-utility"),
        ("split limb hanging over the house", "arborist-hazard"),
        ("Saw jumped while limbing, my forearm is bleeding and won't quit", "emergency-services"),
        ("the chainsaw slipped and cut his knee", "emergency-services"),
        ("our dog ate it and keeps vomiting", "animal-poison"),
        ("The frost took it all, and I feel hopeless. I have the jug of weed poison here on the table", "crisis-line"),
        ("some days i dont want to live and the roses are all that is left", "crisis-line"),
        ("I could kill myself. She planted every one of these", "crisis-line"),
        ("A rattler bit our neighbor by the rhubarb", "emergency-services"),
        ("I fell off the ladder picking cherries and my feet are numb", "emergency-services"),
        ("Tree on wire, low over the lane", "electric-utility"),
        ("there is a wire down in the peonies", "electric-utility"),
        ("my spade cut a cable, there was a blue flash, how deep do I plant", "electric-utility"),
        ("the wind snapped the top, it is hung up right over the front walk", "arborist-hazard"),
        ("soil has lifted on one side and the spruce leans toward us", "arborist-hazard"),
    ],
)
def test_an_emergency_is_caught(knowledge, text, who):
    """Whatever else the letter says, the right people come first."""
    assert who in Signs(knowledge).hand_offs(text)
    assert knowledge.hand_offs[who].urgent


@pytest.mark.parametrize(
    "text",
    [
        "Something ate all my lettuce leaves overnight",
        "the peace lily from dad's funeral gets a drink whenever it faints, and the spider plant has babies",
        "the leaves are puckered and swollen, can i still eat the peaches",
        "Somebody told me to mow the raspberries in March and I about fainted",
        "How much fertilizer for a maple?",
        "Something that looks like dog vomit is on my mulch, bright yellow and foamy",
        "I dont want to kill myself on that steep bank with a mower. What can I plant?",
        "the squash is hopeless, should I end it and pull the vines? I have a bottle of neem oil",
        "I can't go on killing myself over crabgrass",
        "deer have eaten my hostas",
        "Can I plant a dogwood near the power line?",
        "The leaves of our smoke tree are turning brown",
        "Bees are buzzing around the linden tree, is that normal?",
        "My 3 year old apple tree is being eaten by caterpillars",
        "Our ten year old maple has leaves eaten full of holes",
        "A rabbit ate the tops off my tulips",
        "the neighbor's goat ate my rose bush to the ground",
        "My husband planted beans and something has eaten the seeds",
        "My wife and I have eaten our own tomatoes for years, but this year they rot",
        "My mother gave me a peace lily. The leaves are being eaten.",
        "Gnats got in my face when I watered the pothos",
        "Birds have eaten the berries on our holly",
        "My compost smells like rotten eggs",
        "The bee hives stand next to our orchard, can I still spray?",
        "There are faint spots on the leaves of my rose",
        "the sap is bleeding where I cut the grape",
        "by noon everything in the pots has fainted",
        "my beans are on a wire trellis and the wires are down at one end of the row",
        "The chicken wire is down along the fence",
        "I cut the wire fence and the vine came with it",
        "snake plant leaves are bent",
        "the maple leans a little, has for thirty years",
        "mushrooms keep coming up in my lawn, how do I get rid of them",
        "Can I burn the brush pile, or is there poison ivy smoke to think of?",
        "The apples taste like gas from the mower, is that possible",
        "How deep do I dig the line of holes for my hedge?",
        "We pull twitch grass out of the beds by hand and it sprouts from every bit left behind",
    ],
)
def test_ordinary_questions_are_no_emergency(knowledge, text):
    """Plants being eaten is everyday mail."""
    assert not any(knowledge.hand_offs[h].urgent for h in Signs(knowledge).hand_offs(text))


@pytest.mark.parametrize(
    "text",
    [
        "I have the beetle in a sealed jar for you",
        "In the jar test my soil settled under the lid in three layers",
        "The tomatoes are canned and the beans are frozen, how do I keep the carrots",
        "I plan on canning in September, will the late blight be gone?",
    ],
)
def test_a_jar_is_not_always_of_food(knowledge, text):
    """Specimens, soil in a jar, what was put up already."""
    assert "food-preservation" not in Signs(knowledge).hand_offs(text)


@pytest.mark.parametrize(
    ("text", "who"),
    [
        ("The farmer next door sprayed and now our grapes are cupped and twisted", "pesticide-regulator"),
        ("I think we have spray drift on the tomatoes", "pesticide-regulator"),
        ("the oak stands on the property line and my neighbor wants to cut it", "lawyer-or-town"),
        ("can I sue them for cutting my tree", "lawyer-or-town"),
        ("The lids on four of my jars did not seal, can I process them again?", "food-preservation"),
        ("Is it safe to use a water-bath canner for green beans", "food-preservation"),
    ],
)
def test_a_question_for_somebody_else_is_handed_on(knowledge, text, who):
    """Regulators, the town office, the food and nutrition educator have their own signs."""
    assert who in Signs(knowledge).hand_offs(text)


@pytest.mark.parametrize(
    "text",
    [
        "When do I prune lilacs? Thanks, Sue",
        "They said to spray my roses but the leaves still curl",
        "The county office told me to spray the apple; some leaves died anyway",
    ],
)
def test_a_name_or_a_neighbourly_word_is_not_handed_on(knowledge, text):
    """Sue is a name, and advice to spray is not drift."""
    assert Signs(knowledge).hand_offs(text) == ()


@pytest.mark.parametrize(
    ("text", "urgent"),
    [
        ("He had some of the jam I made from the wild grapes and now he sees double. Should I have strained it?", True),
        (
            "The calf got in with the wilted cherry limbs this morning and is breathing funny, what grass do I seed?",
            True,
        ),
        ("Grandson had the seeds of the morning glory, he is talking funny. Will they grow again from seed?", True),
        ("We ate some wild ones last night. Twelve hours later, my wife is vomiting. What ought we to do first?", True),
        ("Goat got out and ate mountain laurel, is drooling. Will the laurel leaf out again?", True),
        ("Would you tell me which hydrangeas bloom on new wood, and how far apart they go?", False),
        ("Uh, hi, this is Walt, I've got brown patches in the zoysia, they're getting bigger. Call me back.", False),
    ],
)
def test_urgent_letters_are_put_first(knowledge, text, urgent):
    """By the signs, or by a model of how people tell such things; such a letter gets no answer by itself."""
    read = Reader(knowledge).read(Question("x", 1, text, None))
    assert read.emergency is urgent
    assert not (urgent and read.decided)


def test_urgent_letters_that_were_never_seen_are_caught(knowledge):
    """80 letters by a writer apart, for measuring only (tests/gold/README.md); half of them only sound urgent.

    The bounds are a little below what was measured when they were new.
    """
    reader = Reader(knowledge)
    lines = [json.loads(line) for line in (GOLD / "urgent.jsonl").read_text("utf-8").splitlines()]
    found = [(g["emergency"], reader.read(Question(g["id"], 1, g["text"], None)).emergency) for g in lines]
    caught = [got for urgent, got in found if urgent]
    false = [got for urgent, got in found if not urgent]
    assert sum(caught) >= CAUGHT * len(caught)
    assert sum(false) <= FALSE * len(false)
