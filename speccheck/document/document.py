"""The document as a whole: what a person declares about one building."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from speccheck.document.assembly import Assembly
from speccheck.document.entry import Entry, Identifier
from speccheck.document.junction import Junction, Opening, Penetration
from speccheck.document.product import Product
from speccheck.document.project import Project
from speccheck.document.site import SiteTest, Waiver

__all__ = ["FORMAT", "Document"]

FORMAT = 1


def _number(value: Any) -> Any:
    """Keep `true`, which Python takes for 1, from passing as a version."""
    return str(value).lower() if isinstance(value, bool) else value


class Document(Entry):
    """One building's specification. Only `speccheck` and one assembly are needed."""

    speccheck: Annotated[Literal[1], BeforeValidator(_number)] = Field(
        description="Version of this document's form."
    )
    project: Annotated[
        Project, Field(description="Where the building stands, what it is used for, the codes it follows.")
    ] = Project.model_construct(
        adopted=(),
        indoor=Project.model_fields["indoor"].default,
        airtightness=Project.model_fields["airtightness"].default,
    )
    products: Annotated[
        dict[Identifier, Product],
        Field(
            description="Products by a name of your own, each as its data sheet states it; layers name them."
        ),
    ] = {}
    assemblies: Annotated[
        dict[Identifier, Assembly],
        Field(min_length=1, max_length=500, description="Walls, roofs, ceilings, floors and slabs, by name."),
    ]
    junctions: Annotated[
        dict[Identifier, Junction],
        Field(max_length=5000, description="Where assemblies meet, by a name of your own, such as `eave`."),
    ] = {}
    openings: Annotated[
        dict[Identifier, Opening],
        Field(max_length=5000, description="Windows, doors, hatches and skylights, by a name of your own."),
    ] = {}
    penetrations: Annotated[
        dict[Identifier, Penetration],
        Field(
            max_length=5000,
            description="Pipes, ducts, cables, flues and beams that cross the enclosure, by name.",
        ),
    ] = {}
    site_tests: Annotated[
        tuple[SiteTest, ...],
        Field(max_length=5000, description="Readings taken on the building, in any order."),
    ] = ()
    waivers: Annotated[
        tuple[Waiver, ...],
        Field(max_length=500, description="Findings set aside with a reason, a name and a last day."),
    ] = ()
