"""No text of cautions, leaves or answers promises safety: the word stands in refusals only."""

from __future__ import annotations

import re

import pytest
from leaf_reading import handbook, trade
from test_cautions import ANSWERING

from site_builder import terminal
from site_builder.markup.elements import plain

PROMISE = re.compile(
    r"\b(safe|safely|safer|safest|unsafe|harmless|foolproof|risk-free|danger-free)\b"
    r"|\b(no|not|without|never) (any )?(danger|dangerous|risk|hazard)\b"
    r"|\bthere is no harm\b"
    r"|\b(cannot|can not|will not|never) (burn|catch fire|explode|harm)\b",
    re.IGNORECASE,
)

# Every sentence that may hold such a word, as it stands: each says that something is NOT so.
ALLOWED = {
    "No ratio of wax and rosin may be called safe in a hot car",
    "A softening estimate is not a safe service temperature",
    "It is no safe margin for a pot",
    "A rule on how heated liquids are classed and stored, not a safe margin for a pot",
    "It is not a safe margin for a pot",
    "that anything is safe",
    "A material that no table tells of is named as not known, never as harmless",
    "It does not say that there is no harm",
    "It never says that there is no hazard",
    "Not known is not harmless",
    "Band, no safe limit",
    "A small figure is not a safe room",
    "What the household calls harmless: bleach, peroxide, vinegar, drain cleaner",
    "Not known here is not harmless: read section 2 of the supplier's safety data sheet",
    "read section 2 of the supplier's safety data sheet; no row does not mean harmless",
}
NOT_SO = re.compile(r"\b(no|not|never|nothing|cannot tell)\b", re.IGNORECASE)
# These two deny by where they stand: under "It cannot tell", and in a list of what to store apart.
DENIED_AROUND = {
    "that anything is safe",
    "What the household calls harmless: bleach, peroxide, vinegar, drain cleaner",
}


def sentences(text):
    """Give the sentences of a text, on one line each."""
    whole = " ".join(text.split())
    return [one.strip(" .!?") for one in re.split(r"(?<=[.!?]) |\n", whole)]


def promised(texts):
    """List the sentences that hold a word of promise and are not among the allowed."""
    found = {one for text in texts for one in sentences(text) if PROMISE.search(one)}
    return {one for one in found if not any(allowed in one for allowed in ALLOWED)}


def blocks(tree):
    """Give the text of each block of a leaf, cells, drawn words and forms among them."""
    kinds = ("p", "li", "td", "th", "h2", "h3", "h4", "dd", "dt", "text", "figcaption", "desc")
    told = [plain(one) for one in tree.iter() if one.tag in kinds]
    forms = ("label", "heads", "options")
    return told + [one.get(name, "") for one in tree.iter() for name in forms]


def test_an_allowed_sentence_denies():
    """The list itself holds no promise."""
    assert [one for one in ALLOWED - DENIED_AROUND if not NOT_SO.search(one)] == []


@pytest.mark.parametrize(
    "text",
    [
        "This pot is safe to leave.",
        "Below 100 °C the wax cannot burn.",
        "Hold it safely. No ratio of wax and rosin may be called safe in a hot car.",
        "There is no danger.",
    ],
)
def test_a_promise_is_found(text):
    """A sentence that promises is found, also beside one that is allowed."""
    assert len(promised([text])) == 1


def test_no_caution_promises():
    """Nothing in the table of cautions, of pairs or of protection is called safe."""
    tables = [trade().cautions.values(), trade().incompatible, trade().protection.values()]
    values = [str(value) for rows in tables for row in rows for value in vars(row).values()]
    texts = [value for value in values if " " in value]  # what is one word is an id
    assert promised(texts) == set()


def test_no_leaf_promises():
    """No leaf of the handbook does, with all that is placed on it."""
    said = {leaf.number: promised(blocks(leaf.tree)) for leaf in handbook().leaves}
    assert {number: found for number, found in said.items() if found} == {}


def test_no_summary_promises():
    """Nor do the words that stand beside a leaf's title in the contents."""
    assert promised([f"{leaf.title}. {leaf.summary}" for leaf in handbook().leaves]) == set()


@pytest.mark.parametrize("commands", ANSWERING, ids=lambda names: names[0])
def test_no_answer_promises(commands, capsys):
    """What a command prints, as text and as JSON, promises nothing."""
    for found in ANSWERING[commands](trade()):
        for as_json in (False, True):
            terminal.show(found, trade(), as_json)
    shown = capsys.readouterr()
    assert len(shown.out) > 200
    assert promised([shown.out.replace("\n", " "), shown.err]) == set()
