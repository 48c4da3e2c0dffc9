"""JSON Schemas of the season's files, made from the model, so that editors complete and check.

Draft 2020-12. A pattern is only the shape of a value; the program itself judges units and ids.
"""

from __future__ import annotations

from typing import Any

from reportgen.model import fields as kind
from reportgen.model import kinds
from reportgen.model.fields import Field, Record
from reportgen.model.records import BATCH, ONLY_SEASON, RECORDS, SEASON, SHORT
from reportgen.model.season_head import WEIGHTS
from reportgen.model.weights import REST
from reportgen.read import dates, ids, short_lines
from reportgen.read.units import kind as kind_of_unit
from reportgen.units import FRESH, HOUR, ONE, Unit

Schema = dict[str, Any]

_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_NUMBER = r"\+?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?"
_UNIT = r"(fl\.?\s+oz\.?|[A-Za-z¢][A-Za-z0-9-]*)"
_PER = r"(\s*/\s*|\s+(per|an?)\s+)"
_CLOCK = dates.CLOCK.replace("[ap]", "[aApP]").replace("m\\", "[mM]\\")
_SLOTS = {"fresh": "lb", "dried": "oz", "distance": "mile", "money": "USD"}
_NOTHING: Schema = {"type": "null"}


def season_schema() -> Schema:
    """The schema of ``season.yaml``, and of a single file that holds everything."""
    properties: Schema = {each.name: _field(each) for each in SEASON}
    properties["currency"] = {
        "type": "string",
        "pattern": "^[A-Z]{3}$",
        "description": "ISO 4217 code.",
    }
    weights = {"enum": list(WEIGHTS)}
    properties["units"] = {
        "type": "object",
        "description": "How weights are shown, before and after drying.",
        "properties": {"fresh": weights, "dried": weights},
        "additionalProperties": False,
    }
    for name in (*ONLY_SEASON, *BATCH):
        properties[name] = _table(RECORDS[name])
    return {
        "$schema": _DIALECT,
        "title": "A season of freeze-drying",
        "type": "object",
        "properties": properties,
        "required": [each.name for each in SEASON if each.required],
        "additionalProperties": False,
    }


def batch_schema() -> Schema:
    """The schema of a batch file: lists of records, or the short form."""
    lists = {
        "title": "Lists of records",
        "type": "object",
        "properties": {name: _table(RECORDS[name]) for name in BATCH},
        "additionalProperties": False,
    }
    return {
        "$schema": _DIALECT,
        "title": "A batch of freeze-drying",
        "anyOf": [lists, _short_form(), _NOTHING],
    }


def recipe_schema() -> Schema:
    """The schema of a recipe."""
    return {"$schema": _DIALECT, "title": "Product data", **_record(RECORDS["products"])}


def _short_form() -> Schema:
    lot = {each.name: each for each in RECORDS["lots"].fields}
    load = {each.name: each for each in RECORDS["loads"].fields}
    run = _record(RECORDS["runs"])
    del run["properties"]["loads"]
    moment = _text(rf"^(\d{{4}}-\d{{2}}-\d{{2}}[ T]+)?({_CLOCK})$|^\d{{4}}-\d{{2}}-\d{{2}}$")
    for name in ("started", "ended"):
        run["properties"][name] = {
            "description": "A clock time on the day of the file, or a day and a time.",
            **_or_nothing(moment),
        }
    pack = {key: held for key, held in _record(RECORDS["packs"]).items() if key != "required"}
    line = {"type": "string", "description": short_lines.PACKED}
    properties: Schema = {"id": _field(lot["id"]), "product": _field(lot["product"])}
    properties["bought"] = {
        "type": "string",
        "description": short_lines.BOUGHT,
    }
    properties |= {name: _field(load[name]) for name in SHORT.load}
    properties["run"] = run
    properties["packed"] = _or_nothing(line, pack, {"type": "array", "items": _any_of(line, pack)})
    properties |= {name: _field(lot[name]) for name in SHORT.lot if name not in properties}
    return {
        "title": "The short form: one lot, one run and its packs",
        "type": "object",
        "properties": properties,
        "required": ["product"],
        "additionalProperties": False,
    }


def _table(record: Record) -> Schema:
    """A single record, or a list of them."""
    schema = _record(record)
    if record.key == "single":
        return _or_nothing(schema)
    if record.named:
        by_name = {
            "propertyNames": {"pattern": ids.PATTERN},
            "additionalProperties": _or_nothing(schema),
        }
        return _or_nothing({"type": "object", "description": record.doc, **by_name})
    return _or_nothing({"type": "array", "items": schema, "description": record.doc})


def _record(record: Record) -> Schema:
    schema: Schema = {
        "type": "object",
        "description": record.doc,
        "properties": {each.name: _field(each) for each in record.fields},
        "additionalProperties": False,
    }
    required = [each.name for each in record.fields if each.required]
    return {**schema, "required": required} if required else schema


def _field(field: Field) -> Schema:
    """The schema of a key, with its description; a value may always be left empty."""
    return {"description": field.doc, **_or_nothing(*_forms(field))}


def _forms(field: Field) -> list[Schema]:
    match field:
        case kinds.Tariff():
            return [_quantity(field), _list(_record(RECORDS["periods"]))]
        case kinds.Weight():
            return _weights(field)
        case kind.Quantity():
            return [_quantity(field)]
        case kind.Share():
            return [_text(rf"^{_NUMBER}\s*%$")]
        case kind.Count():
            words = rf"(\s*({'|'.join(field.words)}))?" if field.words else ""
            least = 1 if field.positive else 0
            return [{"type": "integer", "minimum": least}, _text(rf"^{_NUMBER}{words}$")]
        case kind.Id() | kind.OwnId() | kind.Word():
            return [_text(ids.PATTERN)]
        case kind.Clock():
            return [_text(rf"^({_CLOCK})$")]
        case kind.Days() | kind.Several():
            return [{"type": "string"}, _list({"type": "string"})]
        case kind.Day():
            time = rf"([ T]+({_CLOCK}))?" if field.clock else ""
            return [_text(rf"^\d{{4}}-\d{{2}}-\d{{2}}{time}$")]
        case kind.Flag():
            return [{"type": "boolean"}]
        case kind.Choice():
            return [{"enum": list(field.words)}]
        case kind.Ref():
            return [{"type": "string"}]
        case kind.Refs():
            return [{"type": "string"}, _list({"type": "string"})]
        case kind.Text():
            return [{"type": ["string", "number"]}]
        case _:
            return _compound(field)


def _weights(field: kinds.Weight) -> list[Schema]:
    """A weight, gross and tare, or where they are added up a list of these."""
    pattern = rf"^\s*([~≈]\s*|[A-Za-z]+\.?\s+)?({_NUMBER}\s*[A-Za-z][A-Za-z0-9-]*\s*)+$"
    one: Schema = {**_quantity(field), "pattern": pattern}
    if field.rest:
        one = _any_of(one, {"const": REST})
    if not field.summed:
        return [one, _object({"gross": one, "tare": one})]
    several = _any_of(one, _list(one))
    net = _object({"gross": several, "tare": several})
    return [one, net, _list(_any_of(one, net))]


def _compound(field: Field) -> list[Schema]:
    match field:
        case kinds.LotPrice():
            of_what = rf"({_PER}[A-Za-z][A-Za-z0-9-]*|\s+(each|apiece|ea\.?))"
            return [_text(rf"^{_NUMBER}\s*{_UNIT}{of_what}?$")]
        case kinds.AtMost():
            containers = rf"^\s*{_NUMBER}\s*([A-Za-z][A-Za-z0-9-]*)?\s*$"
            return [{"type": "number"}, _text(containers), _measure(FRESH)]
        case kinds.Energy():
            reading = _measure(field.inputs[0].unit)
            return [reading, _object({"from": reading, "to": reading})]
        case kinds.Dryness():
            weight = _measure(field.inputs[0].unit)
            weights = {"weights": _any_of(weight, _list(weight))} if field.weighings else {}
            readings = {
                "water_activity": {"type": ["number", "string"]},
                "moisture_meter": _text(rf"^{_NUMBER}\s*%$"),
            }
            return [_object({**weights, **readings})]
        case kinds.Purpose():
            return [{"enum": list(field.words)}, _text(ids.PATTERN)]
        case kinds.CostChange():
            percent = _text(rf"^{_NUMBER}\s*%$")
            return [percent, _measure(field.rate)] if field.rate else [percent]
        case kinds.Nested():
            return [_object({each.name: _field(each) for each in field.fields})]
        case kinds.Items():
            return [_list(_record(RECORDS[field.record]))]
        case kinds.Named():
            record = RECORDS[field.record]
            inner = next(each for each in record.fields if each.name == field.value)
            value = _field(inner)
            if isinstance(inner, kinds.Sourced):
                return [{"type": "object", "additionalProperties": value}]
            keys = {each.name: _field(each) for each in record.fields if each.name != field.label}
            return [{"type": "object", "additionalProperties": _any_of(value, _object(keys))}]
        case kinds.Across():
            fields = RECORDS[field.record].fields
            inner = next(each for each in fields if each.name == field.filled)
            return [{"type": "object", "additionalProperties": _field(inner)}]
        case kinds.Sourced():
            value = _any_of(*_forms(field.of))
            text: Schema = {"type": "string"}
            words = {"source": text, "note": text, "basis": text}
            return [value, _object({"value": value, "low": value, "high": value, **words})]
        case kinds.Words():
            return [_list({"type": "string"})]
        case kinds.Cautions():
            return [_list(_object({"text": {"type": "string"}, "source": {"type": "string"}}))]
    raise TypeError(f"no schema for {type(field).__name__}")


def _quantity(field: kind.Quantity) -> Schema:
    return _measure(field.unit, field.per)


def _measure(unit: Unit, words: tuple[str, ...] = ()) -> Schema:
    """A number with a unit; only the shape, for an editor does not know units."""
    example = kind_of_unit(unit)[1].format(unit.text(_SLOTS))
    if unit == ONE:
        return {"type": ["number", "string"], "examples": [0.24]}
    if unit == HOUR:
        pattern = rf"^({_NUMBER}\s*[a-z]+\s*)+$|^[0-9]{{1,4}}:[0-9]{{2}}(:[0-9]{{2}})?$"
    elif all(power > 0 for _, power in unit.powers):
        pattern = rf"^({_NUMBER}\s*{_UNIT}\s*)+$"
    else:
        pattern = rf"^{_NUMBER}\s*{_UNIT}{_PER}[A-Za-z][A-Za-z0-9-]*$"
    return {**_text(pattern), "examples": [example]}


def _text(pattern: str) -> Schema:
    return {"type": "string", "pattern": pattern}


def _list(items: Schema) -> Schema:
    return {"type": "array", "items": items}


def _object(properties: Schema) -> Schema:
    return {"type": "object", "properties": properties, "additionalProperties": False}


def _any_of(*forms: Schema) -> Schema:
    return forms[0] if len(forms) == 1 else {"anyOf": list(forms)}


def _or_nothing(*forms: Schema) -> Schema:
    """Any of the forms, or nothing: an empty value is a value left out."""
    return {"anyOf": [*forms, _NOTHING]}
