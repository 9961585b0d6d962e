"""Which finding speaks of which tire: a specimen under the name that findings have for it."""

from collections.abc import Iterable

from studio.graphics.catalogue import CannotShow, Request
from studio.model.episode import Episode
from studio.model.finding import SEVERITY, Finding, Findings
from studio.model.places import CORNERS, ON_CAR
from studio.model.specimen import Specimen


def subject_of(episode: Episode, specimen: Specimen) -> str:
    """Its place on the car; its id where it lies on the bench or another stands at its place."""
    on_car = specimen.place in ON_CAR and episode.standing_at(specimen.place) is specimen
    return specimen.place if on_car else specimen.id


def chosen_subjects(episode: Episode, request: Request, most: int) -> tuple[str, ...]:
    """The subjects of the specimens asked for, in their order. Raises CannotShow for one that the episode lacks."""
    subjects = []
    for id_ in request.specimens[:most]:
        specimen = episode.specimen(id_)
        if specimen is None:
            raise CannotShow(f"the tire {id_} is not in the episode any more")
        subjects.append(subject_of(episode, specimen))
    return tuple(dict.fromkeys(subjects))


def finding_for(findings: Findings, topic: str, subject: str) -> Finding:
    """The finding of a topic on a subject. Raises CannotShow where there is none."""
    finding = findings.get(f"{topic}.{subject}")
    if finding is None:
        raise CannotShow(f"nothing is known of the tire {subject.replace('_', ' ')} yet")
    return finding


def gravest(findings: Iterable[Finding]) -> Finding | None:
    """The finding whose verdict weighs most, of those with a value; of equal ones a wheel first, then least margin."""
    known = [finding for finding in findings if finding.value is not None]
    return max(known, key=_gravity, default=None)


def most_urgent(findings: Iterable[Finding]) -> Finding | None:
    """The gravest of the four wheels on the car; of all tires where none of those was measured."""
    known = tuple(findings)
    return gravest(f for f in known if f.subject in CORNERS) or gravest(known)


def _gravity(finding: Finding) -> tuple[int, bool, float]:
    severity = SEVERITY.index(finding.verdict) if finding.verdict in SEVERITY else -1
    return (severity, finding.subject in CORNERS, -(finding.margin or 0.0))
