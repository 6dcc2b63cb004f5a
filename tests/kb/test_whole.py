"""A file is written whole or not at all."""

import pytest

from kb.whole import written_whole


def test_a_file_is_replaced_when_all_is_written(tmp_path):
    """Its folder is made if need be."""
    path = tmp_path / "new" / "file"
    for content in (b"one", b"two"):
        with written_whole(path) as file:
            file.write(content)
        assert path.read_bytes() == content
    assert list(path.parent.iterdir()) == [path]


def test_a_failure_half_way_changes_nothing(tmp_path):
    """The old file stays, and no part of the new one is left lying."""
    path = tmp_path / "file"
    path.write_bytes(b"old")

    def fails():
        with written_whole(path) as file:
            file.write(b"half")
            raise RuntimeError("the lights went out")

    with pytest.raises(RuntimeError):
        fails()
    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


def test_a_folder_that_cannot_be_made_is_an_os_error(tmp_path):
    """Those who keep only a cache pass over it."""
    (tmp_path / "file").write_text("")
    with pytest.raises(OSError, match="file"), written_whole(tmp_path / "file" / "below"):
        pass
