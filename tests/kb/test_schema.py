"""The published JSON Schemas are current, and agree with the shipped files (checked by the jsonschema library)."""

import json
from importlib.resources import files

import jsonschema
import pytest
import yaml

from kb.load import ENTRIES
from kb.schema import schema


@pytest.mark.parametrize("table", ENTRIES)
def test_the_published_schema_is_current(table):
    """Changing entries.py without `python -m kb.schema` fails here."""
    published = json.loads((files("kb") / "schema" / f"{table}.json").read_text("utf-8"))
    assert published == schema(table)
    jsonschema.Draft202012Validator.check_schema(published)


@pytest.mark.parametrize("table", ENTRIES)
def test_shipped_files_meet_the_schema(table):
    """What the loader accepts, an editor with the schema accepts too."""
    from kb.yaml_lines import read_yaml

    root = files("kb")
    single = root / f"{table}.yaml"
    documents = [single] if single.is_file() else [f for f in (root / table).iterdir() if f.name.endswith(".yaml")]
    assert documents
    for document in documents:
        values = read_yaml(document.read_text("utf-8"), document.name, [])
        jsonschema.validate(values, schema(table))


def test_the_schema_refuses_an_unknown_field():
    """The schema can fail."""
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(yaml.safe_load("- {id: a, common: a, group: tree, colour: red}"), schema("plants"))
