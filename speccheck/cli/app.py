"""The commands, their options and help. What each does lies in a room of its own, imported when it is called."""

from datetime import date, datetime
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from speccheck import __version__

__all__ = ["app"]

app = typer.Typer(
    name="speccheck",
    help="Check a building-envelope specification: pass, warn, ask or refer, with reasons.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"]},
)


class Format(StrEnum):
    """Output of a command that writes for a person or a program."""

    TEXT = "text"
    JSON = "json"


class CheckFormat(StrEnum):
    """Output of a check; the rooms are named in ``speccheck.report.formats``."""

    TEXT = "text"
    JSON = "json"
    MATRIX = "matrix"
    CSV = "csv"
    MARKDOWN = "markdown"
    SARIF = "sarif"
    JUNIT = "junit"
    GITHUB = "github"
    HTML = "html"
    LETTER = "letter"
    LETTER_HTML = "letter-html"
    BRIEF = "brief"
    BRIEF_HTML = "brief-html"


class Units(StrEnum):
    """Units to show."""

    BOTH = "both"
    US = "us"
    SI = "si"


class FailOn(StrEnum):
    """The mildest severity that makes the exit status 1 (3 where only questions are open)."""

    OUTSIDE = "outside"
    CAUTION = "caution"
    REFER = "refer"
    ASK = "ask"
    NEVER = "never"


FormatOption = Annotated[Format, typer.Option("--format", "-f", help="text to read, json for machines.")]
UnitsOption = Annotated[Units, typer.Option("--units", help="Units to show.")]
FullOption = Annotated[bool, typer.Option("--full", help="Write out what holds, and every question.")]
PackOption = Annotated[
    list[Path] | None, typer.Option("--pack", help="A rule pack of your own, besides those that ship.")
]
TodayOption = Annotated[
    datetime | None, typer.Option("--today", formats=["%Y-%m-%d"], help="Day that waivers are held against.")
]
OutOption = Annotated[Path | None, typer.Option("--out", "-o", help="File to write to, whole or not at all.")]
WidthOption = Annotated[
    int | None, typer.Option("--width", min=40, max=120, help="Columns; the terminal's if absent.")
]


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"speccheck {__version__}")
        raise typer.Exit


@app.callback()
def _top(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_show_version, is_eager=True, help="Show the version and leave."),
    ] = False,
) -> None:
    del version


@app.command("check")
def _check(
    paths: Annotated[list[Path], typer.Argument(help="Documents, or folders of them.")],
    format: Annotated[  # noqa: A002 - the option's name
        CheckFormat,
        typer.Option("--format", "-f", help="What to write; the exit status is the same in each."),
    ] = CheckFormat.TEXT,
    out: OutOption = None,
    out_dir: Annotated[
        Path | None,
        typer.Option("--out-dir", help="Folder for a report of each document, an index page and a matrix."),
    ] = None,
    baseline: Annotated[
        Path | None,
        typer.Option("--baseline", help="Older report in JSON: only what is new or worse counts."),
    ] = None,
    units: UnitsOption = Units.BOTH,
    fail_on: Annotated[
        FailOn,
        typer.Option(
            "--fail-on", help="Mildest severity that makes the exit status 1, or 3 for questions alone."
        ),
    ] = FailOn.ASK,
    full: FullOption = False,
    facts: Annotated[bool, typer.Option("--facts", help="With json: every fact too.")] = False,
    pack: PackOption = None,
    today: TodayOption = None,
    width: WidthOption = None,
    jobs: Annotated[
        int | None,
        typer.Option("--jobs", "-j", min=1, max=64, help="Processes; as many as pay if absent."),
    ] = None,
    documents_only: Annotated[
        bool,
        typer.Option("--documents-only", help="Pass over named files that do not say they are documents."),
    ] = False,
) -> None:
    """Judge documents: what holds, what to worry about, what is missing, why, and by whose rule.

    Exit status: 0 nothing found, 1 findings, 2 cannot run, 3 only questions open.
    """
    from speccheck.cli.check import Wishes, run_check

    wishes = Wishes(
        format=format.value,
        units=units.value,
        fail_on=fail_on.value,
        full=full,
        facts=facts,
        packs=tuple(pack or ()),
        today=_day(today),
        width=width,
        out=out,
        out_dir=out_dir,
        baseline=baseline,
        jobs=jobs,
        documents_only=documents_only,
    )
    raise typer.Exit(run_check(paths, wishes))


@app.command("facts")
def _facts(
    path: Annotated[Path, typer.Argument(help="A document.")],
    place: Annotated[
        str | None,
        typer.Argument(help="A place such as north-wall, or one fact such as north-wall.effective_r."),
    ] = None,
    format: FormatOption = Format.TEXT,  # noqa: A002 - the option's name
    units: UnitsOption = Units.BOTH,
    width: WidthOption = None,
) -> None:
    """Show every number with its unit, origin and source; of one fact, all it rests on."""
    from speccheck.cli.facts import run_facts

    raise typer.Exit(run_facts(path, place, format.value, units.value, width))


@app.command("explain")
def _explain(
    name: Annotated[
        str,
        typer.Argument(
            help="A rule, fact, material, kind of junction, means of sealing or pack; "
            "or rules, facts, materials, junctions, sealing, packs."
        ),
    ],
    units: UnitsOption = Units.BOTH,
    pack: PackOption = None,
    width: WidthOption = None,
) -> None:
    """Explain a rule, a fact, a material, a kind of junction or a means of sealing, offline."""
    from speccheck.cli.explain import run_explain

    raise typer.Exit(run_explain(name, units.value, tuple(pack or ()), width))


@app.command("swap")
def _swap(
    path: Annotated[Path, typer.Argument(help="A document.")],
    place: Annotated[
        str, typer.Argument(help="A layer such as north-wall.control, or a product of the document.")
    ],
    product: Annotated[Path, typer.Option("--with", help="YAML of what the substitute's data sheet states.")],
    format: FormatOption = Format.TEXT,  # noqa: A002 - the option's name
    units: UnitsOption = Units.BOTH,
    pack: PackOption = None,
    today: TodayOption = None,
    width: WidthOption = None,
) -> None:
    """Tell what a substitute product changes: better, equal, worse, or ask the designer."""
    from speccheck.cli.swap import run_swap

    raise typer.Exit(
        run_swap(path, place, product, format.value, units.value, tuple(pack or ()), _day(today), width)
    )


@app.command("compare")
def _compare(
    before: Annotated[Path, typer.Argument(help="The older document, or an older report in JSON.")],
    after: Annotated[Path, typer.Argument(help="The newer document, or a newer report in JSON.")],
    format: FormatOption = Format.TEXT,  # noqa: A002 - the option's name
    out: OutOption = None,
    units: UnitsOption = Units.BOTH,
    pack: PackOption = None,
    today: TodayOption = None,
    width: WidthOption = None,
) -> None:
    """Hold two documents or two reports side by side: findings that appear, vanish or move, facts that differ.

    Exit status: 0 no worse, 1 worse, 2 cannot run, 3 only new questions.
    """
    from speccheck.cli.compare import run_compare

    packs = tuple(pack or ())
    raise typer.Exit(run_compare(before, after, format.value, units.value, packs, _day(today), width, out))


@app.command("schema")
def _schema(
    name: Annotated[str, typer.Argument(help="document, product, pack, materials, report or compare.")],
    out: OutOption = None,
    where: Annotated[bool, typer.Option("--where", help="Say where it lies instead.")] = False,
) -> None:
    """Write a JSON Schema, for an editor that completes and checks a document as it is typed."""
    from speccheck.cli.schema import run_schema

    raise typer.Exit(run_schema(name, out, where=where))


@app.command("line")
def _line(
    path: Annotated[Path, typer.Argument(help="A document.")],
    svg: Annotated[
        Path | None, typer.Option("--svg", help="Draw it into this SVG file, whole or not at all.")
    ] = None,
    width: WidthOption = None,
) -> None:
    """Follow the air barrier round the building: where it is joined, where the pen lifts, what is not shown.

    Exit status: 0 the line closes, 1 it does not, 3 it cannot be told, 2 the document cannot be read.
    """
    from speccheck.cli.line import run_line

    raise typer.Exit(run_line(path, svg, width))


@app.command("new")
def _new(
    kind: Annotated[
        str,
        typer.Argument(help="wall, roof, floor, house, product, or a kind of junction such as wall-to-slab."),
    ],
    schema: Annotated[
        Path | None,
        typer.Option("--schema", help="Write its JSON Schema to this file, and name it for editors."),
    ] = None,
) -> None:
    """Write a commented starting document to standard output."""
    from speccheck.cli.new import run_new

    raise typer.Exit(run_new(kind, schema))


def _day(given: datetime | None) -> date | None:
    return given.date() if given is not None else None
