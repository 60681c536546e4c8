"""The outcome of a whole run in one sentence: what could not be read, then the verdict on the rest."""

from speccheck.judgement.finding import SEVERITIES
from speccheck.report.formats import Run
from speccheck.report.summary import worst
from speccheck.report.wording import verdict_words

__all__ = ["run_words"]


def run_words(run: Run) -> str:
    """Return what came of a run, such as ``1 document could not be read; warn (caution): 2 cautions, 14 hold``."""
    words = []
    if run.unread:
        count = len(run.unread)
        words.append(f"{count} {'document' if count == 1 else 'documents'} could not be read")
    if run.told:
        counts = {severity: sum(one.counts[severity] for one in run.digests) for severity in SEVERITIES}
        words.append(verdict_words(worst(s for s, count in counts.items() if count), counts))
    return "; ".join(words)
