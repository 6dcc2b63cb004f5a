"""Twenty people at one desk at the same time: nothing that was kept is lost, and nothing is kept that was refused."""

import re
from concurrent.futures import ThreadPoolExecutor

import httpx

PEOPLE = 20
ROUNDS = 6
CSRF = re.compile(r'name="csrf" value="([^"]+)"')
VERSION = re.compile(r'name="version" value="(\d+)"')


def test_twenty_at_once_lose_nothing(lime_store, engine, served):
    """Each opens the same letter and saves; a save is either in the history with its text, or was refused as late."""
    with served(lime_store.path, engine, "Ida") as address:

        def person(number):
            kept = []
            with httpx.Client(base_url=address, timeout=60) as client:
                for turn in range(ROUNDS):
                    shown = client.get("/letter/ann-1%231").text
                    form = {"csrf": CSRF.search(shown)[1], "version": VERSION.search(shown)[1], "part": "email"}
                    text = f"Dear Ann, from {number} in turn {turn}"
                    answer = client.post("/letter/ann-1%231/edit", data={**form, "text": text})
                    assert answer.status_code in (303, 409), answer.text
                    if answer.status_code == 303:
                        kept.append(text)
                    else:
                        assert text in answer.text  # what was typed is given back
                    assert client.get("/").status_code == 200
            return kept

        with ThreadPoolExecutor(PEOPLE) as pool:
            kept = [text for texts in pool.map(person, range(PEOPLE)) for text in texts]
    steps = lime_store.ask("select * from history where question_id = 'ann-1#1' order by version")
    assert [s["version"] for s in steps] == list(range(1, len(kept) + 1))  # no step lost, none twice
    written = [*(s["before"] for s in steps[1:]), lime_store.one("ann-1#1")["email"]]
    assert all(any(text in was for was in written) for text in kept)
    assert lime_store.one("ann-1#1")["version"] == len(kept) >= ROUNDS


def test_twenty_at_their_own_letters_are_all_kept(lime_store, engine, served, take_in):
    """Nobody is refused when nobody works on the same letter."""
    ids = take_in(
        lime_store, engine, [(f"Writer{i}", f"How much lime for {i + 20} x 60 feet, pH 5.4?") for i in range(20)]
    )
    with served(lime_store.path, engine, "Ida") as address:

        def person(id_):
            with httpx.Client(base_url=address, timeout=60) as client:
                path = f"/letter/{id_.replace('#', '%23')}"
                shown = client.get(path).text
                form = {"csrf": CSRF.search(shown)[1], "version": VERSION.search(shown)[1], "part": "email"}
                return client.post(f"{path}/edit", data={**form, "text": f"for {id_}"}).status_code

        with ThreadPoolExecutor(PEOPLE) as pool:
            assert set(pool.map(person, ids)) == {303}
    assert all(lime_store.one(id_)["email"] == f"for {id_}\n" for id_ in ids)
