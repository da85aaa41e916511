"""The command `rackside`."""

import json
import sys
from pathlib import Path
from typing import Annotated

import typer
import uvicorn

from rackside import host
from rackside.app import create_app
from rackside.cli import demo as demonstration
from rackside.cli import moving
from rackside.cli.asked import Url, chosen, fail, opened
from rackside.cli.explain import explained
from rackside.cli.people import key, user
from rackside.cli.restore import restore
from rackside.cli.webhooks import webhook
from rackside.records import archive, projection

app = typer.Typer(
    help="Rackside: judge cases, run the server, look after its records.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_show_locals=False,
)
app.add_typer(user, name="user")
app.add_typer(key, name="key")
app.add_typer(webhook, name="webhook")
app.command("export")(moving.export)
app.command("import")(moving.load)
app.command()(restore)


@app.command()
def judge(
    file: Annotated[str, typer.Argument(help="A case as JSON; - reads standard input.")],
    language: Annotated[str, typer.Option(help="Language of the sentences.")] = "en",
) -> None:
    """Judge a case and print the result as JSON.

    An invalid case ends with 2 and one line per fault on stderr: its JSON pointer, and what is wrong there.
    """
    try:
        text = sys.stdin.read() if file == "-" else Path(file).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise fail(f"{file}: {error}", 2) from None
    try:
        result = host.judge_text(text, language)
    except host.InvalidCase as invalid:
        lines = [f"{fault['pointer'] or '(whole case)'}: {fault['detail']}" for fault in invalid.errors]
        raise fail("\n".join(lines), 2) from None
    typer.echo(json.dumps(json.loads(result), indent=2, ensure_ascii=False))


@app.command()
def explain(check: Annotated[str, typer.Argument(help="Name of a check, like supply_voltage_unbalance.")]) -> None:
    """Print a check's formula, limits, sources and worked example."""
    text = explained(check, host.describe())
    if text is None:
        raise fail(f"There is no check {check!r}. Checks: {', '.join(host.checks())}.", 2)
    typer.echo(text)


Host = Annotated[str | None, typer.Option(help="Address to listen on. [127.0.0.1]")]
Port = Annotated[int | None, typer.Option(help="Port to listen on. [8000]")]


@app.command()
def serve(host: Host = None, port: Port = None, database: Url = None) -> None:
    """Run the server: phone page, office and API."""
    settings = chosen(host=host, port=port, database_url=database)
    typer.echo(f"Rackside at http://{settings.host}:{settings.port} (office: /office, API: /api/v1/openapi.json)")
    uvicorn.run(create_app(settings), host=settings.host, port=settings.port, log_level="warning", access_log=False)


@app.command()
def demo(host: Host = None, port: Port = None, database: Url = None) -> None:
    """Run the server with the invented co-operative loaded, and print who may sign in."""
    settings = chosen(host=host, port=port, database_url=database)
    if not demonstration.run(create_app(settings), settings, typer.echo):
        raise typer.Exit(1)


@app.command()
def backup(file: Annotated[Path, typer.Argument(help="The new file.")], database: Url = None) -> None:
    """Copy the database while the server works, and verify the copy. Photos are plain files: copy their folder too."""
    try:
        told = archive.backup(opened(database), file)
    except archive.BackupFailed as failed:
        raise fail(str(failed)) from None
    typer.echo(f"{file}: {told}")


@app.command()
def rebuild(database: Url = None) -> None:
    """Make the typed tables anew from the log, and say whether they came out the same."""
    with opened(database).writing() as connection:
        count, same = projection.rebuild_and_compare(connection)
    typer.echo(f"{count} entries read again; the tables are {'the same as before' if same else 'now different'}.")
