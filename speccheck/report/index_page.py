"""The index page of a folder of reports: the matrix of the documents, each with a link to its own report."""

from collections.abc import Sequence
from typing import Any

from speccheck import __version__
from speccheck.document import Problem
from speccheck.judgement.finding import SEVERITIES
from speccheck.report.digest import Digest, areas_of
from speccheck.report.matrix import CELLS
from speccheck.report.problem_words import problem_words
from speccheck.report.uri import uri_of
from speccheck.report.wording import DEFERRAL

__all__ = ["index_page"]


def index_page(
    digests: Sequence[Digest], links: Sequence[str], unread: Sequence[tuple[str, Sequence[Problem]]] = ()
) -> str:
    """Return the index as one HTML page without scripts.

    Args:
        digests: the documents that could be read.
        links: for each of them the file of its report, seen from the index.
        unread: name and problems of each that could not.
    """
    from speccheck.report.page.environment import html_environment

    areas = areas_of(list(digests))
    verdicts = [one.verdict for one in digests]
    total = len(digests) + len(unread)
    return (
        html_environment()
        .get_template("index.html.j2")
        .render(
            name=f"{total} document{'' if total == 1 else 's'}",
            version=__version__,
            deferral=DEFERRAL,
            verdicts=[(key, CELLS[key].capitalize(), verdicts.count(key)) for key in SEVERITIES],
            areas=areas,
            rows=[_row(one, link, areas) for one, link in zip(digests, links, strict=True)],
            unread=[(name, [_told(problem) for problem in problems]) for name, problems in unread],
        )
    )


def _told(problem: Problem) -> str:
    mark = problem.mark
    return (
        f"Line {mark.line}, column {mark.column}: {problem_words(problem)}"
        if mark
        else problem_words(problem)
    )


def _row(digest: Digest, link: str, areas: Sequence[str]) -> dict[str, Any]:
    return {
        "file": digest.file,
        "link": uri_of(link),
        "project": digest.project,
        "verdict": digest.verdict,
        "label": CELLS[digest.verdict].capitalize(),
        "cells": [(area, *_cell(digest, area)) for area in areas],
    }


def _cell(digest: Digest, area: str) -> tuple[str, str]:
    if area not in digest.areas:
        return "", "—"
    severity, count = digest.areas[area]
    return severity, f"{CELLS[severity]} {count}"
