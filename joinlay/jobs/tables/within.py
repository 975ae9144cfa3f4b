"""A table within another table of a job file."""

from typing import TYPE_CHECKING, Annotated, Any, TypeVar

from pydantic import BaseModel, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema
from pydantic_core.core_schema import no_info_plain_validator_function, with_info_plain_validator_function

__all__ = ["Within"]

_T = TypeVar("_T")


class _Within:
    """A table within another one. Its own check is made when the first such table is met, so that a job waits only for those it
    has: most have a third of the keys there are. What it finds wrong stands where it would stand otherwise.
    """

    def __init__(self, table: type[BaseModel]) -> None:
        self._table = table

    def __get_pydantic_core_schema__(self, source_type: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """The check by ``_table``, with the same context."""
        del source_type, handler
        return with_info_plain_validator_function(lambda given, info: self._table.model_validate(given, context=info.context))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        """The table's own, under its name, so that it stands in the schema of the job once."""
        del schema
        table = self._table
        table.model_rebuild()
        own: Any = {**table.__pydantic_core_schema__, "ref": f"{table.__module__}.{table.__qualname__}:{id(table)}"}
        return handler(no_info_plain_validator_function(table.model_validate, json_schema_input_schema=own))


if TYPE_CHECKING:
    Within = Annotated[_T, ...]
else:

    class Within:
        """``Within[GlueEntry]``: the type of a key that is a table of its own, read as that."""

        def __class_getitem__(cls, table: type[BaseModel]) -> object:
            """The type."""
            return Annotated[table, _Within(table)]
