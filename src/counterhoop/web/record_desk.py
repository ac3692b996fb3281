"""The record of a job as its page and its papers find it: by the plan that there is by now."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.web.folder_index import job_address
from counterhoop.web.parts_desk import PartsDesk, parts_desk

if TYPE_CHECKING:  # the planner takes a second to load
    from counterhoop.bench.record.record_of import DrumRecord


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordDesk:
    """A job with the record of each of its drums.

    Attributes
    ----------
    parts : PartsDesk
        The job, and what is planned of it.
    records : tuple of DrumRecord
    """

    parts: PartsDesk
    records: tuple[DrumRecord, ...]

    @property
    def job(self) -> KeptJob:
        """The folder."""
        return self.parts.job

    @property
    def address(self) -> str:
        """Of the page."""
        return f"{job_address(self.job)}/handed-over"

    def of(self, drum_id: str) -> DrumRecord:
        """Return the record of a drum.

        Raises
        ------
        BadInput
            When the job has none of that name in sight.
        """
        for one in self.records:
            if one.drum.id == drum_id:
                return one
        raise BadInput("no such drum in this job", where="drum", given=drum_id)

    def papers(self, drum: KeptDrum) -> tuple[tuple[str, str], ...]:
        """Return the papers that go with a drum: what each is called, and where it is."""
        at = f"{self.address}/{drum.id}"
        return (("Handover record", f"{at}/record.pdf"), ("Care sheet", f"{at}/care.pdf"))


def record_desk(shop: Workshop, job: str) -> RecordDesk:
    """Return the record of a job."""
    from counterhoop.bench.record.record_of import record_of

    desk = parts_desk(shop, job)
    return RecordDesk(parts=desk, records=record_of(shop, desk.job, desk.planned.plan))
