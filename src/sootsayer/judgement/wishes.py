"""A wish of the customer that the law does not allow."""

from __future__ import annotations

from sootsayer.casework.model import Case

REMOVAL = "customer-wants-removal"


def wish_entered(case: Case) -> bool:
    """Whether an entry says anything of a wish to remove or defeat; what counts, a plan tells."""
    return any(said.slot == REMOVAL for entry in case.entries for said in entry.said)
