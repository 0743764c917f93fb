"""Exports: no name in them, the chain whole, and erasing a person changes nothing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from sootsayer.casework.people import Person, erase_person, people_path, write_person
from sootsayer.commands.main import main
from sootsayer.documents.writing import CannotWrite
from sootsayer.ledger.adding import add
from sootsayer.ledger.chain import check
from sootsayer.ledger.exporting import NamesSomebody, export
from sootsayer.ledger.folder import ledger_in
from sootsayer.ledger.reading import find
from sootsayer.ledger.replay_model import Again, Why
from sootsayer.ledger.replaying import replay
from tests.ledger.books import CASE, kept
from tests.ledger.golden_ledger import case_text, use_frozen
from tests.ledger.making import body, ledger_of

JO = Person("Jo Winterbottom", "AB12 CDE", "WXY12345678901234")
NOTE = (
    '- {at: 2031-03-14T08:40Z, by: tech-1, note: "WINTERBOTTOM rang: ab12-cde, '
    'WXY 12345678901234, jo  winterbottom"}\n'
)


def everything(folder: Path) -> str:
    """All that is in a folder, and the names of its files: the signs alone."""
    found = [path.name + path.read_bytes().decode("utf-8", "replace")
             for path in sorted(folder.rglob("*")) if path.is_file()]  # fmt: skip
    return re.sub(r"[\W_]", "", "".join(found)).casefold()


def names_in(folder: Path) -> list[str]:
    """What of the person is in the folder."""
    told = everything(folder)
    return [s for s in ("winterbottom", "ab12cde", "wxy12345678901234", "901234") if s in told]


@pytest.fixture(name="shop")
def a_shop(
    tmp_path: Path, tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> Path:
    """A shop with a customer whose name, plate and chassis number stand wherever they can."""
    use_frozen(monkeypatch, tmp_path_factory.mktemp("program"))
    shop = tmp_path / "shop"
    (shop / "cases").mkdir(parents=True)
    (shop / "shop.yaml").write_text("format: 1\nname: Winterbottom and Daughter\n")
    case = shop / "cases" / "van-7.yaml"
    text = case_text().decode("utf-8")
    text = re.sub(r"(?m)^case: .*$", "case: van-7  # Jo Winterbottom", text)
    text = re.sub(r"(?m)^story: .*$", "story: Jo Winterbottom's van, AB12 CDE.", text)
    text = text.replace("label: 2.0 L panel van", 'label: "2.0 L panel van (AB12CDE)"')
    case.write_text(text + NOTE)
    write_person(people_path(case), "van-7", JO)
    return shop


def keep(shop: Path, *more: str) -> int:
    return main(["records", "keep", "van-7", "--by", "tech-1", "--shop", str(shop), *more])


def test_no_name_enters_a_record_or_an_export(
    shop: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Name, plate and chassis number stand in the case's note, story, label and comment, in the
    shop's name, in what was decided and in the proof: in no file of ledger and export."""
    assert names_in(shop / "cases") == ["winterbottom", "ab12cde", "wxy12345678901234", "901234"]
    what, why = "Winterbottom wanted a new one", "AB 12 CDE is leased, number 901234"
    assert keep(shop, "--otherwise", what, "--why", why) == 0
    outcome = ["--faults", "sensor-offset", "--proved-by", "road run with Jo Winterbottom"]
    ended = main(["records", "outcome", "van-7", "--by", "tech-1", "--shop", str(shop), *outcome])
    assert ended == 0
    assert main(["records", "list", "--shop", str(shop)]) == 0
    copy = tmp_path / "copy"
    assert main(["records", "export", str(copy), "--shop", str(shop)]) == 0
    assert "Looked for 1 person" in capsys.readouterr().out
    assert names_in(shop / "records") == []
    assert names_in(copy) == []
    told = everything(copy)
    assert "chassisnumber" in told  # what stands there instead
    assert "isleased" in told


def test_erasing_a_person_leaves_the_chain_whole(shop: Path) -> None:
    """The person goes from people.yaml; not a byte of the ledger changes, and it verifies."""
    assert keep(shop, "--as-advised") == 0
    ledger = ledger_in(shop / "records")
    before, found = ledger.file.read_bytes(), check(ledger)
    assert erase_person(shop / "cases" / "people.yaml", "van-7")
    assert ledger.file.read_bytes() == before
    assert check(ledger) == found
    assert found.flaw is None
    assert replay(ledger, find(ledger, "1")).again is Again.SAME


def test_who_became_known_later_stops_an_export(tmp_path: Path) -> None:
    """A record that was kept before the name was written down is not handed over; others are."""
    ledger, _ = kept(tmp_path / "l", case=CASE.replace("A van.", "Kim Ostrander's van."))
    kept(tmp_path / "l")
    people = {"van-9": Person("Kim Ostrander", "", "")}
    with pytest.raises(NamesSomebody) as caught:
        export(ledger, tmp_path / "all", None, people)
    assert (caught.value.found.number, caught.value.found.case) == (1, "van-9")
    assert not (tmp_path / "all").exists()
    done = export(ledger, tmp_path / "second", {2}, people)
    assert (done.whole, done.closed) == (1, 1)
    assert "ostrander" not in everything(tmp_path / "second")


@pytest.mark.parametrize(
    ("person", "said"),
    [
        (Person("", "AB12 CDE", ""), "plate ab-12-cde"),
        (Person("", "", "WXY12345678901234"), "ends in 901234"),
        (Person("Ann Li", "", ""), "for ANN  LI"),
    ],
)
def test_each_of_them_is_found(person: Person, said: str, tmp_path: Path) -> None:
    """However it is written: the search of an export can find what it is for."""
    ledger = ledger_of(tmp_path / "l", 1)
    add(ledger, body(2, decided=[{"what": said, "why": ""}]))
    with pytest.raises(NamesSomebody):
        export(ledger, tmp_path / "copy", None, {"x": person})


def test_the_copy_has_the_ledgers_chain(tmp_path: Path) -> None:
    """One record whole among four: the copy verifies with the head of the ledger, replays its
    record, says of the others that they are not in it, and is listed."""
    ledger, _ = kept(tmp_path / "l")
    for _ in range(3):
        kept(tmp_path / "l")
    export(ledger, tmp_path / "copy", {2}, {})
    copy = ledger_in(tmp_path / "copy")
    found = check(copy, head=check(ledger).head)
    assert (found.count, found.closed, found.asked_for, found.flaw) == (4, 3, 4, None)
    assert replay(copy, find(copy, "2")).again is Again.SAME
    assert replay(copy, find(copy, "3")).why is Why.CLOSED
    assert main(["records", "list", "--ledger", str(copy.folder)]) == 0


def test_outcomes_come_along(shop: Path, tmp_path: Path) -> None:
    """Who exports a verdict hands over what came of it too."""
    assert keep(shop, "--as-advised") == 0
    assert keep(shop, "--as-advised") == 0
    tail = ["--faults", "none", "--by", "tech-1", "--shop", str(shop)]
    assert main(["records", "outcome", "1", *tail]) == 0
    copy = tmp_path / "copy"
    assert main(["records", "export", str(copy), "1", "--shop", str(shop)]) == 0
    assert check(ledger_in(copy)).closed == 1
    assert [find(ledger_in(copy), n).kind for n in ("1", "2", "3")] == ["verdict", "", "outcome"]


def test_a_folder_with_something_in_it_is_left_alone(tmp_path: Path) -> None:
    """Nothing is written over, and no second copy into the first."""
    ledger_of(tmp_path / "l", 1)
    (tmp_path / "copy").mkdir()
    (tmp_path / "copy" / "mine.txt").write_text("x")
    assert main(["records", "export", str(tmp_path / "copy"), "--ledger", str(tmp_path / "l")]) == 2
    assert [p.name for p in (tmp_path / "copy").iterdir()] == ["mine.txt"]


@pytest.mark.parametrize("was_there", [False, True])
def test_a_copy_that_cannot_be_written_whole_is_taken_back(
    was_there: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the disk is full before the last file the folder is as before, and can be used."""
    ledger, copy = ledger_of(tmp_path / "records", 2), tmp_path / "copy"
    if was_there:
        copy.mkdir()

    def full(path: Path, *_: object, **__: object) -> None:
        assert list((copy / "kept").iterdir())  # some of it was written by then
        raise CannotWrite(path, "the disk is full")

    with monkeypatch.context() as patch:
        patch.setattr("sootsayer.ledger.exporting.replace_file", full)
        with pytest.raises(CannotWrite, match="the disk is full"):
            export(ledger, copy, None, {})
    assert copy.exists() == was_there
    assert not was_there or list(copy.iterdir()) == []
    assert export(ledger, copy, None, {}).whole == 2
