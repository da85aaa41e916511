"""The template environment that reports and office pages share: everything is escaped."""

from pathlib import Path

from jinja2 import Environment, FileSystemLoader, select_autoescape

from rackside.reports import findings, money, text

TEMPLATES = Path(__file__).parent / "templates"
STATIC = Path(__file__).parent / "static"


def environment(*folders: Path) -> Environment:
    """Return an environment over these template folders and the reports' own."""
    made = Environment(
        loader=FileSystemLoader([*folders, TEMPLATES]),
        autoescape=select_autoescape(default=True, default_for_string=True),
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(
        number=text.number,
        moment=text.moment,
        source=text.source_words,
        by_urgency=findings.by_urgency,
        money=money.spoken,
    )
    made.globals.update(
        name=text.name,
        VERDICT_WORDS=text.VERDICT_WORDS,
        LABEL_WORDS=text.LABEL_WORDS,
        DECISION_WORDS=text.DECISION_WORDS,
    )
    return made
