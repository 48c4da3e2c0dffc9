"""Records from nodes: each key to its field, each list to the drafts of its table."""

from __future__ import annotations

from reportgen.model.compound import MAKERS
from reportgen.model.draft import Draft, Gathering, shape_problem
from reportgen.model.fields import Field, Id, Record, Refs
from reportgen.model.keys import mapping_of
from reportgen.model.kinds import Across, Cautions, Items, Named, Nested, Sourced, Tariff, Words
from reportgen.model.readers import Reader, id_, of_text, single, text_
from reportgen.model.records import RECORDS
from reportgen.read.near import in_sentence
from reportgen.read.nodes import Mapping, Node, Scalar, Sequence
from reportgen.read.problem import Refusal


class Binder:
    """Binds nodes to records; keeps a reader for every field it has met."""

    def __init__(self, gathering: Gathering) -> None:
        self.gathering = gathering
        self._readers: dict[str, dict[str, Reader]] = {}
        self._across: dict[tuple[int, str], Draft] = {}
        """Rows that several mappings of a record fill, by the record and the id."""
        self.words: dict[str, dict[str, list[tuple[str, str]]]] = {"allergens": {}, "cautions": {}}
        """What hand-outs show of a recipe: key → product → texts with their sources."""

    def readers(self, record: Record) -> dict[str, Reader]:
        """The readers of a record's keys."""
        if record.name not in self._readers:
            self._readers[record.name] = {each.name: self._reader(each) for each in record.fields}
        return self._readers[record.name]

    def record(self, record: Record, node: Node, owner: Draft | None = None) -> Draft:
        """One record, added to its table."""
        draft = Draft(record, node, owner)
        readable = mapping_of(node, draft, self.readers(record), record.name, self.gathering)
        if readable:
            self._required(record, draft)
        elif isinstance(node, Scalar) and node.empty and record.key != "single":
            self.gathering.problem(
                node.place, "this item is empty", f"a {record.one}", "delete the '-', or fill it in"
            )
        if readable or isinstance(node, Mapping):
            self.gathering.add(draft)  # what is no record at all lacks nothing that one has
        return draft

    def named(self, record: Record, node: Node) -> None:
        """Records by their ids: ``stall: {fees: 3 %}``."""
        if not isinstance(node, Mapping):
            if not (isinstance(node, Scalar) and node.empty):
                shape_problem(
                    self.gathering,
                    node,
                    f"{record.name} by name",
                    f"write the name of each {record.one}, and its keys below it",
                )
            return
        for key, held in node.entries:
            draft = Draft(record, held)
            draft.place = key.place
            self._id()(key, draft)
            mapping_of(held, draft, self.readers(record), record.name, self.gathering)
            self.gathering.add(draft)

    def records(
        self, record: Record, node: Node, owner: Draft | None = None, alone: bool = False
    ) -> None:
        """A list of records."""
        if isinstance(node, Sequence):
            for item in node.items:
                self.record(record, item, owner)
        elif isinstance(node, Mapping) and alone:
            self.record(record, node, owner)
        elif not (isinstance(node, Scalar) and node.empty):
            shape_problem(
                self.gathering,
                node,
                f"a list of {record.name}, each begun with '- '",
                "put '- ' before the first key of each, and indent the others under it",
            )

    def _required(self, record: Record, draft: Draft) -> None:
        for field in record.fields:
            if field.required and not any(draft.has(each.name) for each in field.inputs):
                self.gathering.problem(
                    draft.place,
                    f"this {record.one} has no '{field.name}'",
                    in_sentence(field.doc),
                    f"add {field.name}:",
                )

    def _reader(self, field: Field) -> Reader:
        kind = type(field)
        if kind in MAKERS:
            return MAKERS[kind](field, self.gathering)
        if isinstance(field, Tariff):
            return self._tariff(field)
        if isinstance(field, Items):
            record, alone = RECORDS[field.record], field.alone
            return lambda node, draft: self.records(record, node, draft, alone)
        if isinstance(field, Named):
            return self._named(field)
        if isinstance(field, Across):
            return self._rows_across(field)
        if isinstance(field, Nested):
            return self._nested(field)
        if isinstance(field, Refs):
            return self._refs(field)
        if isinstance(field, Id):
            return self._id()
        if isinstance(field, Words | Cautions):
            return self._words(field)
        return single(field, self.gathering)

    def _id(self) -> Reader:
        def read(node: Node, draft: Draft) -> None:
            trial = Draft(draft.record, node)
            of_id(node, trial)
            draft.key = trial.text("id")
            draft.broken |= trial.broken

        column = RECORDS["loads"].inputs[0]
        assert column.name == "id"
        of_id = of_text(id_, column, self.gathering)
        return read

    def _tariff(self, field: Tariff) -> Reader:
        one = single(field, self.gathering)

        def read(node: Node, draft: Draft) -> None:
            if isinstance(node, Sequence):
                self.records(RECORDS["periods"], node, draft)
            else:
                one(node, draft)

        return read

    def _nested(self, field: Nested) -> Reader:
        columns = iter(field.inputs)
        readers = {each.name: single(each, self.gathering, next(columns)) for each in field.fields}

        def read(node: Node, draft: Draft) -> None:
            mapping_of(node, draft, readers, field.name, self.gathering)

        return read

    def _named(self, field: Named) -> Reader:
        record = RECORDS[field.record]
        value = next(each for each in record.fields if each.name == field.value)

        def read(node: Node, draft: Draft) -> None:
            if isinstance(node, Scalar) and node.empty:
                return
            if not isinstance(node, Mapping):
                shape_problem(self.gathering, node, f"{field.name} by name", "write 'name: value'")
                return
            for key, held in node.entries:
                row = Draft(record, held, draft)
                row.place = key.place
                readers = self.readers(record)
                readers[field.label](key, row)
                if isinstance(held, Mapping) and not isinstance(value, Sourced):
                    inner = {k: r for k, r in readers.items() if k != field.label}
                    mapping_of(held, row, inner, field.name, self.gathering)
                else:
                    readers[field.value](held, row)
                self._required(record, row)
                self.gathering.add(row)

        return read

    def _rows_across(self, field: Across) -> Reader:
        record = RECORDS[field.record]
        label = record.fields[0].name

        def read(node: Node, draft: Draft) -> None:
            if isinstance(node, Scalar) and node.empty:
                return
            if not isinstance(node, Mapping):
                what = f"{field.name} by {label}"
                do = f"write each {label} by its id, as {{ID: ...}}"
                shape_problem(self.gathering, node, what, do)
                return
            readers = self.readers(record)
            for key, held in node.entries:
                row = self._across.get((id(draft), key.text))
                if row is None:
                    row = self._across[id(draft), key.text] = Draft(record, held, draft)
                    row.place = key.place
                    readers[label](key, row)
                    self.gathering.add(row)
                readers[field.filled](held, row)

        return read

    def _refs(self, field: Refs) -> Reader:
        record = RECORDS[field.rows]
        column = record.inputs[-1]
        one = of_text(text_, column, self.gathering)

        def read(node: Node, draft: Draft) -> None:
            for item in node.items if isinstance(node, Sequence) else [node]:
                row = Draft(record, item, draft)
                one(item, row)
                if row.values:
                    self.gathering.add(row)

        return read

    def _words(self, field: Words | Cautions) -> Reader:
        gathered = self.words[field.name]

        def read(node: Node, draft: Draft) -> None:
            found = gathered.setdefault(draft.key, [])
            for item in node.items if isinstance(node, Sequence) else [node]:
                text: Node | None = item
                source: Node | None = None
                if isinstance(item, Mapping):
                    text, source = item.get("text"), item.get("source")
                if not isinstance(text, Scalar):
                    shape_problem(self.gathering, item, in_sentence(field.doc), "write a text")
                elif not text.empty:
                    try:
                        said = source.text if isinstance(source, Scalar) else ""
                        found.append((text_(text.text), said))
                    except Refusal as refusal:
                        self.gathering.refuse(text, refusal)

        return read


def whole_table(binder: Binder, record: Record, node: Node) -> None:
    """A key of a file: a single record, or a list of them."""
    if record.key == "single":
        draft = binder.record(record, node)
        draft.key = record.name
    elif record.named:
        binder.named(record, node)
    else:
        binder.records(record, node)
