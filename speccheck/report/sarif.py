"""The report as SARIF 2.1.0, the format that editors and code hosts read results of checks in.

How our words map. A warning is a result of level ``warning``: we know no error. A question is kind ``open``, which
SARIF defines as too little information to decide; a referral is kind ``review``, a result that a person must judge.
For both the standard fixes the level at ``none`` (3.27.9 and 3.27.10, from memory). What holds is kind ``pass`` and
written only in full, since some readers show every result as an alert. The rank tells outside from caution.
"""

import hashlib
import json
from collections.abc import Iterable
from typing import Any

from speccheck import __version__
from speccheck.document import Problem
from speccheck.document.problem import Mark, printable
from speccheck.judgement.finding import Finding, Level, Limit
from speccheck.judgement.pack import Pack, Rule
from speccheck.report.digest import area_of
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.plain import json_text
from speccheck.report.problem_words import problem_words
from speccheck.report.rule_help import help_markdown, help_text
from speccheck.report.summary import summarise
from speccheck.report.uri import uri_of
from speccheck.report.wording import DEFERRAL, limit_words, margin_words
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked

__all__ = ["FORMAT", "fingerprints"]

_SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_BASE = "%SRCROOT%"
_RANKS = {"outside": 90.0, "caution": 60.0, "refer": 40.0, "ask": 20.0, "held-back": 10.0}
"""They order results and measure nothing."""
_STATES = {"new": "new", "same": "unchanged", "worse": "updated", "unsure": "updated", "better": "updated"}
_LONGEST = 8_000


def fingerprints(file: str, rule: str, place: str) -> dict[str, str]:
    """Return what identifies a result from run to run: rule and place, alone and with the document; never a line."""
    parts = {"ruleAndPlace/v1": [rule, place], "documentRuleAndPlace/v1": [uri_of(file), rule, place]}
    return {name: hashlib.sha256(json.dumps(part).encode()).hexdigest() for name, part in parts.items()}


def _part(checked: Checked, manner: Manner, against: Against | None) -> dict[str, Any]:
    """Return the results of one document and the rules they name."""
    states = {move.record.key: _STATES.get(move.trend, "") for move in against.moves} if against else {}
    rules = {(pack.id, rule.id): (rule, pack) for pack in checked.packs for rule in pack.rules}
    findings = [
        finding
        for finding in summarise(checked.findings).findings
        if manner.full or finding.level is not Level.PASS
    ]
    results = [_result(finding, manner.units, states.get(finding.key, "")) for finding in findings]
    results += _gone(checked.loaded.name, against)
    named = dict.fromkeys((finding.pack, finding.rule) for finding in findings)
    return {
        "results": results,
        "rules": [_descriptor(*rules[key]) for key in named if key in rules],
        "packs": [{"id": pack.id, "edition": pack.edition, "title": pack.title} for pack in checked.packs],
    }


def _result(finding: Finding, system: str, state: str) -> dict[str, Any]:
    kind, level = _kind(finding)
    result: dict[str, Any] = {"ruleId": finding.rule}
    result |= {"kind": kind} if kind else {}
    result |= {"level": level, "message": {"text": _message(_words(finding, system))}}
    rank = _RANKS.get(finding.severity)
    result |= {"rank": rank} if rank is not None else {}
    result["locations"] = [_location(finding)]
    result["partialFingerprints"] = fingerprints(finding.file, finding.rule, finding.place)
    result["suppressions"] = _suppressions(finding)
    result |= {"baselineState": state} if state else {}
    result["properties"] = _properties(finding)
    return result


def _kind(finding: Finding) -> tuple[str, str]:
    """Return SARIF's kind, empty for its default, and level; what is waived keeps the kind it had."""
    if finding.level is Level.PASS:
        return "pass", "none"
    if finding.strength:
        return "", "warning"
    return ("open", "none") if finding.level is Level.ASK or finding.gaps else ("review", "none")


def _words(finding: Finding, system: str) -> str:
    words = finding.reason or finding.title  # what should hold stands in the short description of the rule
    if finding.measured is not None and finding.level is not Level.ASK:
        limits = f"{limit_words(finding.measured, system)}; {margin_words(finding, system)}"
        words += f" {limits[0].upper()}{limits[1:]}."
    questions = dict.fromkeys(gap.question for gap in finding.gaps)
    return " ".join([words, *(question for question in questions if question not in words)])


def _message(text: str) -> str:
    """Return a message of plain text: brackets make links in SARIF, and braces placeholders (3.11.5, 3.11.6)."""
    shown = printable(text, _LONGEST).replace("\\", "\\\\")
    return shown.replace("[", "\\[").replace("]", "\\]").replace("{", "{{").replace("}", "}}")


def _location(finding: Finding) -> dict[str, Any]:
    region = {"startLine": finding.line, "startColumn": max(finding.column, 1)} if finding.line else None
    physical: dict[str, Any] = {"artifactLocation": _artifact(finding.file)}
    physical |= {"region": region} if region else {}
    place = printable(finding.place)
    logical = {"name": place.rpartition(".")[2], "fullyQualifiedName": place, "kind": "object"}
    return {"physicalLocation": physical, "logicalLocations": [logical]}


def _artifact(file: str) -> dict[str, Any]:
    uri = uri_of(file)
    return {"uri": uri} if uri.startswith("file:") else {"uri": uri, "uriBaseId": _BASE}


def _suppressions(finding: Finding) -> list[dict[str, str]]:
    """Return the waiver; it stands in the document itself, which is SARIF's ``inSource``. Every result has the list."""
    if finding.level is not Level.WAIVED:
        return []
    return [{"kind": "inSource", "status": "accepted", "justification": printable(finding.waiver, _LONGEST)}]


def _properties(finding: Finding) -> dict[str, Any]:
    return {
        "severity": finding.severity,
        "pack": finding.pack,
        "consequence": finding.consequence,
        "confidence": finding.confidence,
        "do": [printable(step, _LONGEST) for step in finding.do],
        "doIs": finding.do_is or None,
        "assumed": [printable(line, _LONGEST) for line in finding.assumed],
        "measured": _measured(finding.measured),
    }


def _measured(limit: Limit | None) -> dict[str, Any] | None:
    if limit is None:
        return None
    numbers = {"observed": limit.observed, "limit": limit.limit, "margin": limit.margin}
    rounded = {name: float(f"{number:.10g}") for name, number in numbers.items()}
    return {"fact": limit.fact, "kind": limit.kind, "sense": limit.sense, **rounded}


def _gone(file: str, against: Against | None) -> list[dict[str, Any]]:
    """Return the findings of the baseline that are there no more."""
    return [
        {
            "ruleId": printable(move.record.rule),
            "kind": "notApplicable",
            "level": "none",
            "message": {"text": _message(f"{move.record.title}. It is in the baseline and no longer found.")},
            "locations": [{"physicalLocation": {"artifactLocation": _artifact(file)}}],
            "partialFingerprints": fingerprints(file, *move.record.key),
            "suppressions": [],
            "baselineState": "absent",
        }
        for move in (against.of("gone") if against is not None else ())
    ]


def _descriptor(rule: Rule, pack: Pack) -> dict[str, Any]:
    outcomes = {rule.when_not, *(band.outcome for band in rule.bands)}
    level = "warning" if outcomes & {"outside", "caution"} else "none"
    return {
        "id": rule.id,
        "shortDescription": {"text": rule.title},
        "fullDescription": {"text": rule.why},
        "help": {"text": help_text(rule, pack), "markdown": help_markdown(rule, pack)},
        "defaultConfiguration": {"level": level},
        "properties": {
            "tags": list(dict.fromkeys((area_of(rule.id), rule.consequence))),
            "pack": pack.id,
            "edition": pack.edition,
            "confidence": rule.confidence,
        },
    }


def _whole(run: Run) -> str:
    rules = _once(descriptor for one in run.told for descriptor in one.part["rules"])
    index = {descriptor["id"]: number for number, descriptor in enumerate(rules)}
    results = [
        {"ruleId": result["ruleId"], "ruleIndex": index[result["ruleId"]], **result}
        if result["ruleId"] in index
        else result
        for one in run.told
        for result in one.part["results"]
    ]
    files = [*(one.digest.file for one in run.told), *(name for name, _ in run.unread)]
    log = {
        "tool": {
            "driver": {
                "name": "speccheck",
                "version": __version__,
                "semanticVersion": __version__,
                "language": "en-GB",
                "rules": rules,
            }
        },
        "language": "en-GB",
        "invocations": [_invocation(run)],
        "originalUriBaseIds": {_BASE: {"description": {"text": "The folder the command ran in."}}},
        "artifacts": [{"location": _artifact(file), "roles": ["analysisTarget"]} for file in files],
        "results": results,
        "columnKind": "unicodeCodePoints",
        "properties": {
            "deferral": DEFERRAL,
            "packs": _once(pack for one in run.told for pack in one.part["packs"]),
        },
    }
    return json_text({"$schema": _SCHEMA, "version": "2.1.0", "runs": [log]})


def _once(entries: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return entries of different ids, each once, in the order of their first occurrence."""
    return list({entry["id"]: entry for entry in reversed(list(entries))}.values())[::-1]


def _invocation(run: Run) -> dict[str, Any]:
    invocation: dict[str, Any] = {"executionSuccessful": not run.unread, "exitCode": run.status}
    notes = [_notification(name, problem) for name, problems in run.unread for problem in problems]
    return invocation | ({"toolExecutionNotifications": notes} if notes else {})


def _notification(name: str, problem: Problem) -> dict[str, Any]:
    mark: Mark | None = problem.mark
    physical: dict[str, Any] = {"artifactLocation": _artifact(name)}
    physical |= {"region": {"startLine": mark.line, "startColumn": mark.column}} if mark else {}
    return {
        "level": "error",
        "message": {"text": _message(problem_words(problem))},
        "locations": [{"physicalLocation": physical}],
    }


FORMAT = Format(_part, _whole, ".sarif")
"""For editors and code hosts."""
