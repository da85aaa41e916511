"""The short code of a label: the rule of server/docs/labels.md, on its own example and on clashes."""

from pathlib import Path
from uuid import UUID, uuid4

from rackside.office.short_code import SHORTEST, SIGNS, code_of, matches, signs_of

DOCUMENT = Path(__file__).parents[2] / "server" / "docs" / "labels.md"
EXAMPLE = "00000000-0000-4000-8000-0000000003e1"


def test_the_document_and_the_code_agree() -> None:
    told = DOCUMENT.read_text()
    assert SIGNS in told
    assert EXAMPLE in told
    assert signs_of(EXAMPLE)[:6] == "3Z2222"
    assert "`3Z2222`" in told


def test_no_two_signs_look_alike() -> None:
    assert len(set(SIGNS)) == 32
    assert not set("01IO") & set(SIGNS)


def test_an_id_is_told_whole_by_its_signs() -> None:
    for _ in range(200):
        one = uuid4()
        number = sum(SIGNS.index(sign) << 5 * place for place, sign in enumerate(signs_of(str(one))))
        assert UUID(int=number & (1 << 125) - 1) == UUID(int=one.int & (1 << 125) - 1)


def test_a_code_grows_until_it_tells_a_machine_from_every_other() -> None:
    twin = str(UUID(int=UUID(EXAMPLE).int + (1 << 42)))
    assert code_of(EXAMPLE, [EXAMPLE, str(uuid4())]) == "3Z2222"
    longer = code_of(EXAMPLE, [EXAMPLE, twin])
    assert len(longer) > SHORTEST
    assert matches(longer, [EXAMPLE, twin]) == [EXAMPLE]
    assert matches("3Z2222", [EXAMPLE, twin]) == [EXAMPLE, twin]


def test_a_typed_code_may_be_small_and_spaced_but_not_short() -> None:
    assert matches(" 3z2-222 ", [EXAMPLE]) == [EXAMPLE]
    assert matches("3Z222", [EXAMPLE]) == []
    assert matches("3Z222O", [EXAMPLE]) == []
