"""What a letter says of the plants it names, and which of them it is about."""

import pytest

from answers.letters.letter import Question
from answers.reading.context import asked_about, beside_the_point, not_there
from answers.reading.heard import is_kind_of
from answers.reading.read import Reader
from kb.load import load

KNOWLEDGE = load()
READER = Reader(KNOWLEDGE)


@pytest.mark.parametrize(
    ("plant", "wider", "expected"),
    [
        ("japanese-maple", "maple", True),
        ("zucchini", "squash", True),
        ("bluegrass", "lawn", True),
        ("tomato", "vegetable-garden", True),
        ("maple", "japanese-maple", False),
        ("maple", "oak", False),
        ("maple", "maple", False),
        ("lawn", "lawn", False),
    ],
)
def test_a_narrower_name_is_a_kind_of_a_wider_one(plant, wider, expected):
    """By `kind_of` in the rule base, or because the wider one stands for the whole group."""
    assert is_kind_of(plant, wider, KNOWLEDGE) is expected


@pytest.mark.parametrize(
    ("text", "lost"),
    [
        ("We lost the ash to borers.", True),
        ("The ash died last year.", True),
        ("The ash has been cut down.", True),
        ("No ash for us, please.", True),
        ("It is an ash, no sorry, the other one", True),
        ("My ash has holes in the bark.", False),
        ("Is the ash worth saving?", False),
        ("Half of my ash died this summer, the leaves still hang on.", False),  # it stands, and is what is asked about
        ("The ash died back to the ground", False),
        ("The ash we already took down.", True),
    ],
)
def test_a_plant_may_be_named_that_is_not_there(text, lost):
    """Lost, dead, cut down, pulled out; or one that is ruled out or taken back."""
    (mention,) = READER.plants_in(text)
    assert not_there(text, mention) is lost


@pytest.mark.parametrize(
    ("text", "well"),
    [
        ("The pears are loaded", True),
        ("The pears beside it are crisp yet", True),
        ("The pears came up nice and stocky", True),
        ("The pears haven't wilted a bit", True),
        ("My pears were gorgeous on Friday and now they hang like rags", False),  # it was well
        ("The pears haven't bloomed", False),
        ("Pears by the gate OK.", True),
        ("Will the pears be OK?", False),  # that is the question
        ("My neighbor's pears are full of it", True),
        ("The pears in the same bed look like a magazine cover", True),
        ("The pears don't have it", True),
        ("Pears isnt out yet", True),
        ("It has spread. The pears are the neighbor's", True),
        ("The pears are my mother's pride and they are rotting", False),
        ("I'm waiting for the pears to ripen", False),
        ("Do I wait until the pears finish blooming before I prune them", False),
        ("The pears look wonderful but the leaves have orange spots", False),
    ],
)
def test_a_plant_may_be_beside_the_point(text, well):
    """Somebody else's, or well; not one that was well until the trouble came."""
    (mention,) = READER.plants_in(text)
    assert beside_the_point(text, mention) is well


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("White powder everywhere, and it's the pears I care about most", True),
        ("Pears are what I'm asking about.", True),
        ("My trouble is with the pears.", True),
        ("I'm calling about our old pears", True),
        ("It's pears I meant to say", True),
        ("I like pears", False),
        ("The pears have spots", False),
    ],
)
def test_a_writer_may_say_which_plant_is_meant(text, meant):
    """In so many words."""
    (mention,) = READER.plants_in(text)
    assert asked_about(text, mention) is meant


@pytest.mark.parametrize(
    ("text", "plant"),
    [
        ("Squirrels ate my tulips before, so no tulips. How deep do I plant 200 daffodils this fall?", "daffodil"),
        ("I have a lawn of zoysia and want more. How far apart do zoysia plugs go, and does the fescue die?", "zoysia"),
        ("Zucchinis, four plants, flowers every morning and not one squash on them. Why?", "zucchini"),
        ("My Jap. maple, one limb wilted and there are dark streaks in the wood. It is a red one.", "japanese-maple"),
        ("Three leaflets and purple flowers that smell of grape, a vine all over the barn and the pines.", "kudzu"),
        ("Flat weed in the drive, red stems, milky sap when you break it. What kills it?", "spurge"),
    ],
)
def test_the_plant_asked_about(text, plant):
    """Not the one ruled out, wider, or only grown over; a description will do for a name."""
    assert READER.read(Question("x", 1, text, None)).plant == plant


def test_words_that_describe_no_plant_bring_none_in():
    """A letter without a known word describes nothing, whatever the problem occurs on."""
    given = READER.plant_evidence_of(Question("x", 1, "zzq qqz", None), "winter-burn")
    assert not any(kinds.get("described best") for kinds in given.values())


@pytest.mark.parametrize(
    ("text", "plant"),
    [
        ("a yard tree", "tree"),
        ("our Mister Lincoln", "rose"),
        ("foundation shrubs", "shrub"),
        ("bob gordon elderberry", "elderberry"),
        ("hardy althea", "rose-of-sharon"),
    ],
)
def test_a_name_stands_with_the_plant_it_is_a_name_of(text, plant):
    """Once these stood with tree-of-heaven, rose of Sharon, shrub dogwood and ornamental elderberry."""
    assert {m.id for m in READER.plants_in(text)} == {plant}
