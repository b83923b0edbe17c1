"""The bill of materials, for programs that look for known faults: the parts of `notices` as a CycloneDX 1.6 file.

It has no date and its serial number follows from its contents, so that the same sources give the same file.
"""

from __future__ import annotations

import uuid

from cyclonedx.contrib.license.factories import LicenseFactory
from cyclonedx.model.bom import Bom
from cyclonedx.model.component import Component, ComponentType
from cyclonedx.output.json import JsonV1Dot6
from packageurl import PackageURL

from tools.site import notices

FILE = "about/bill-of-materials.cdx.json"
ADDRESS = "pb-bill-of-materials:"


def bill_of_materials() -> str:
    """The bill of materials, as JSON."""
    parts = notices.parts()
    bill = Bom(serial_number=uuid.uuid5(uuid.NAMESPACE_URL, ADDRESS + repr([(part.name, part.version) for part in parts])))
    bill.metadata.timestamp = None  # type: ignore[assignment]  # optional in CycloneDX
    for part in parts:
        address = PackageURL(part.registry, name=part.name.lower(), version=part.version) if part.registry else None
        licences = [LicenseFactory().make_from_string(part.licence)]
        kind = ComponentType.LIBRARY
        bill.components.add(
            Component(
                name=part.name,
                version=part.version or None,
                type=kind,
                purl=address,
                licenses=licences,
                description=part.purpose,
                bom_ref=f"{part.name} {part.version}".strip(),
            )
        )
    return JsonV1Dot6(bill).output_as_string(indent=1) + "\n"
