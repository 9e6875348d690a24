"""How far a record answers Object ID and the core categories of CDWA."""

from __future__ import annotations

from collections.abc import Mapping

from catalogue.collection.measuring import has_overall_size
from catalogue.collection.records import Quilt
from catalogue.collection.related import Related
from catalogue.collection.settings import Settings
from catalogue.collection.summary import headline_date
from catalogue.description import cdwa, object_id
from catalogue.description.asking import Completeness

# Views that show inscriptions, damage and repairs close up.
_CLOSE = ("block", "border", "label", "quilting", "damage", "detail")


def object_id_of(
    quilt: Quilt, related: Related, house: Settings, *, second_copy: bool = False
) -> Completeness:
    """Return the record's answers to the questions of Object ID, all of its groups.

    `second_copy` says whether a verified copy holds the record as it now is.
    """
    answers = {**_answers(quilt, related, house), "second_copy": second_copy}
    return object_id.completeness(answers, *object_id.GROUPS)


def cdwa_of(quilt: Quilt, related: Related, house: Settings) -> Completeness:
    """Return the record's answers to the core categories of CDWA."""
    return cdwa.completeness(_answers(quilt, related, house))


def _answers(quilt: Quilt, related: Related, house: Settings) -> Mapping[str, object]:
    """Return what the record says, by the names of the facts that the questions ask for."""
    dates = [phase.date for phase in quilt.phases if phase.date is not None]
    views = {photograph.view for photograph in quilt.photographs}
    measured = has_overall_size(quilt)
    return {
        "object_type": quilt.object_type,
        "title": quilt.title,
        "accession_number": quilt.accession,
        "classification": quilt.object_type if quilt.techniques else "",
        "subject": quilt.subject or bool(related.patterns_of(quilt)),
        "distinguishing_features": quilt.distinguishing_features,
        "materials": quilt.materials,
        "techniques": quilt.techniques,
        "overall_width": measured,
        "overall_length": measured,
        "inscriptions": quilt.inscriptions or quilt.no_inscriptions,
        "date": headline_date(quilt) if dates else "",
        "date_earliest": any(date.earliest for date in dates),
        "date_latest": any(date.latest for date in dates),
        "maker": related.makers_of(quilt) or quilt.maker_unknown,
        "maker_role": any(phase.makers for phase in quilt.phases) or quilt.maker_unknown,
        "place_made": any(phase.place for phase in quilt.phases),
        "photograph_overall": "overall" in views,
        "photograph_details": views & set(_CLOSE),
        "description": quilt.description or quilt.paragraph,
        "related_material": quilt.related_material,
        "documented_on": quilt.revision > 0,
        "repository": house.name and quilt.locations,
    }
