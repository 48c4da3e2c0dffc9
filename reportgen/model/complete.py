"""What a record may leave out: ids, the only dryer, the only lot of a file, plain defaults."""

from __future__ import annotations

from collections import Counter

from reportgen.model.draft import Draft, Gathering
from reportgen.model.fields import Choice, Count, Share, placed
from reportgen.model.records import RECORDS
from reportgen.model.weights import take_off_trays
from reportgen.read import ids
from reportgen.read.file_names import base_of
from reportgen.read.nodes import Implied, Mapping
from reportgen.read.problem import Refusal

_ENDINGS = {"lots": "", "runs": "-run", "packs": "-pack-1", "offers": "-offer",
            "trips": "-trip", "mixes": "-mix", "markets": "-market"}  # fmt: skip
"""What an id made from a file's name ends with, as in the short form."""

OF_PACKS_OR_BULK = ("uses", "mix_parts")
"""Records that take from a pack, of which they count, or by weight from something else."""

CHANNELS = ("stall", "co-op")
"""Channels that are there without being named."""


def complete(gathering: Gathering) -> None:
    """Fill in what is left out, in every table; note what cannot be left out."""
    for record in RECORDS.values():
        if record.key == "id" and record.name != "products":
            _ids(gathering, record.name)
    _channels(gathering)
    _only_dryer(gathering)
    take_off_trays(gathering)
    _plan(gathering)
    _lots_of_loads(gathering)
    _mixes_of_packs(gathering)
    _days_of_packs(gathering)
    _plain_defaults(gathering)
    _load_keys(gathering)
    for weight in gathering.of("nominal_weights"):
        assert weight.owner is not None
        weight.key = f"{weight.owner.key}/{weight.text('container')}"
    for row in gathering.of("market_packs"):
        assert row.owner is not None
        row.key = f"{row.owner.key}/{row.text('pack')}"
    for record in RECORDS.values():
        for position, draft in enumerate(gathering.of(record.name), 1):
            if record.key == "position" or record.name == "periods":
                draft.key = placed(record.one, position)


def _ids(gathering: Gathering, table: str) -> None:
    drafts = gathering.of(table)
    in_file = Counter(draft.file for draft in drafts)
    for draft in drafts:
        if draft.key or "id" in draft.broken:
            continue
        made = base_of(draft.file) + _ENDINGS[table] if table in _ENDINGS else ""
        if made and in_file[draft.file] == 1:
            try:
                ids.check(made)
                draft.key = made
                continue
            except Refusal:
                pass
        one = draft.record.one
        gathering.problem(
            draft.place,
            f"this {one} has no id",
            f"an id for each {one}"
            + (", where a file holds more than one" if table in _ENDINGS else ""),
            f"add id: {one.split()[0]}-1, or another name that is not in use",
        )
        draft.broken.add("id")


def _channels(gathering: Gathering) -> None:
    """The channels that need not be named, first among all."""
    written = {draft.key.casefold() for draft in gathering.of("channels")}
    made = [Draft(RECORDS["channels"], Mapping(gathering.season_file, 0, 1, [])) for _ in CHANNELS]
    for draft, name in zip(made, CHANNELS, strict=True):
        draft.key = name
    unnamed = [draft for draft in made if draft.key not in written]
    gathering.drafts["channels"] = [*unnamed, *gathering.of("channels")]


def _only_dryer(gathering: Gathering) -> None:
    dryers = [each for each in gathering.of("dryers") if each.key]
    for draft in [*gathering.of("runs"), *gathering.of("closed")]:
        if draft.has("dryer"):
            continue
        if len(dryers) == 1:
            draft.default("dryer", dryers[0].key, "the only dryer", dryers[0].place)
        elif len(dryers) > 1:
            ran = draft.record.name == "runs"
            gathering.problem(
                draft.place,
                "this run does not say which dryer it ran in"
                if ran
                else "these days do not say which dryer is closed",
                f"one of the season's {len(dryers)} dryers",
                f"add dryer: {dryers[0].key}, or another one",
            )


def _plan(gathering: Gathering) -> None:
    """A plan row goes to the first dryer."""
    dryers = [each for each in gathering.of("dryers") if each.key]
    for row in gathering.of("plan"):
        if dryers and not row.has("dryer"):
            row.default("dryer", dryers[0].key, "the first dryer", dryers[0].place)


def _lots_of_loads(gathering: Gathering) -> None:
    lots_of: dict[str, list[Draft]] = {}
    for lot in gathering.of("lots"):
        lots_of.setdefault(lot.file, []).append(lot)
    for load in gathering.of("loads"):
        if load.has("lot") or load.has("again"):
            continue
        lots = lots_of.get(load.file, [])
        if len(lots) == 1 and lots[0].key:
            load.default("lot", lots[0].key, "the only lot of the file", lots[0].place)
        elif not (len(lots) == 1 and "id" in lots[0].broken):
            gathering.problem(
                load.place,
                "this load does not say which lot it came from",
                "a lot, or the load that went back in; only where a file holds a single lot may "
                "it be left out",
                "add lot: or again:",
            )


def _mixes_of_packs(gathering: Gathering) -> None:
    """What a pack names as its origin is a mix where it is the id of one."""
    mixes = {mix.key for mix in gathering.of("mixes") if mix.key}
    for draw in gathering.of("draws"):
        if draw.text("run") in mixes:
            draw.values["mix"] = draw.values.pop("run")
            draw.origins["mix"] = draw.origins.pop("run")


def _days_of_packs(gathering: Gathering) -> None:
    """Packs of the short form are taken to be of the day on which its run ended."""
    runs = {run.key: run for run in gathering.of("runs") if run.key}
    for pack in gathering.of("packs"):
        origin = pack.node.get("from") if isinstance(pack.node, Mapping) else None
        if not isinstance(origin, Implied) or pack.has("date"):
            continue
        run = runs.get(origin.text)
        end = run.number("ended") if run is not None else None
        if run is not None and end is None:
            start, hours = run.number("started"), run.number("duration")
            end = start + hours / 24 if start is not None and hours is not None else None
        if run is not None and end is not None:
            day = float(int(end + 1e-9))
            pack.default("date", day, f"the day on which {run.key} ended", run.place_of("started"))


def _plain_defaults(gathering: Gathering) -> None:
    for table, drafts in gathering.drafts.items():
        for field in RECORDS[table].fields:
            if not isinstance(field, Count | Share | Choice) or field.default is None:
                continue
            name = field.input_name
            value = field.default if isinstance(field.default, str) else float(field.default)
            for draft in drafts:
                of_bulk = table in OF_PACKS_OR_BULK and not draft.has("pack")
                if not draft.has(name) and not of_bulk:
                    draft.default(name, value, "left out")


def _load_keys(gathering: Gathering) -> None:
    """The key of a load: its own id, else run and lot; that of the first load where it is again."""
    loads = gathering.of("loads")
    for load in loads:
        _set_key(load)
    firsts = {load.key: load for load in loads if load.key and not load.has("again")}
    again = [load for load in loads if load.text("again")]
    for load in again:
        first = firsts.get(load.text("again"))
        if first is None or not first.text("lot"):
            continue
        lot = first.text("lot")
        if load.has("lot") and load.text("lot") != lot:
            gathering.problem(
                load.place_of("lot"),
                f"the load that went back in came from {lot}, not from {load.text('lot')}",
                "the lot, or again:, not both",
                "delete the line lot:",
            )
        elif not load.has("lot"):
            load.default("lot", lot, f"the lot of {first.key}", load.place_of("again"))
            _set_key(load)
    seconds = {load.key: load for load in again if load.key}
    for load in again:
        second = seconds.get(load.text("again"))
        if second is not None and load.text("again") not in firsts:
            gathering.problem(
                load.place_of("again"),
                f"'{load.text('again')}' had gone back in itself",
                "the load in which it was dried for the first time",
                f"write again: {second.text('again')}",
            )


def _set_key(load: Draft) -> None:
    run = load.owner.key if load.owner else ""
    lot = load.text("lot")
    load.key = load.text("id") or (f"{run}/{lot}" if run and lot else "")
