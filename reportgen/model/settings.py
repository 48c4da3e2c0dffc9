"""The records of season.yaml: rates, machines, containers, pricing."""

from __future__ import annotations

from reportgen.model.fields import Clock, Count, Day, Days, Flag, Id, Quantity, Record, Share, Text
from reportgen.model.kinds import Items, Named, Tariff, TrayWeight
from reportgen.units import AREA, DISTANCE, DRIED, ENERGY, FRESH, HOUR, MONEY, POWER, VOLUME, Unit

season = Record(
    "season",
    "What is said of the season itself.",
    (Day("as_of", "The day this is judged on; left out, today."),),
    key="single",
)

rates = Record(
    "rates",
    "What an hour, a mile and a kilowatt-hour cost.",
    (
        Tariff("electricity", "Price of electricity.", MONEY / ENERGY),
        Quantity(
            "labor",
            "What an hour of work is worth; 0 where your time is free.",
            MONEY / HOUR,
            head="an hour of work",
        ),
        Flag("labor_paid", "Time is paid in money; left out, it is not.", head="time is paid"),
        Quantity("travel", "What driving costs.", MONEY / DISTANCE, head="driving"),
    ),
    key="single",
)

periods = Record(
    "periods",
    "Electricity by time of use: the first period that holds the hour counts.",
    (
        Clock("from", "Clock time it begins.", column="from_clock", head="from"),
        Clock("to", "Clock time it ends.", column="to_clock", head="to"),
        Days("days", "Days it holds on: sat sun, or mon-fri; left out, every day."),
        Quantity("price", "Price in the period.", MONEY / ENERGY, required=True),
    ),
    key="derived",
    owner="rates",
)

pricing = Record(
    "pricing",
    "How packs are priced.",
    (
        Share("margin", "Share of the price that is to be left over.", below_all=True),
        Share("fees", "Share of the price that selling costs.", zero=True, below_all=True),
        Quantity(
            "price_step",
            "Prices are rounded up to a multiple of this.",
            MONEY,
            positive=True,
        ),
        Quantity(
            "stall", "What a day at the stall costs.", MONEY / Unit.of("d"), zero=True, head="stall"
        ),
        Quantity("days", "Days at the stall.", Unit.of("d"), zero=True),
        Share(
            "would_buy",
            "Share of it that you would have bought in a shop.",
            head="bought otherwise",
        ),
    ),
    key="single",
)

channels = Record(
    "channels",
    "Where packs are sold; stall and co-op are there without being named.",
    (
        Share(
            "fees",
            "Share of the price as paid that selling costs; of the stall, pricing.fees if left "
            "out, else none.",
            below_all=True,
        ),
        Share("tax", "Tax that is in the price, on top of the rest, and passed on.", zero=True),
        Share("discount", "What it gets off the asked price.", zero=True, below_all=True),
    ),
    named=True,
)

scale = Record(
    "scale",
    "The kitchen scale.",
    (Quantity("resolution", "The smallest step it shows.", DRIED, positive=True),),
    key="single",
)

place = Record(
    "place",
    "Where the packing is done.",
    (Quantity("altitude", "Height above the sea.", Unit.of("m")),),
    key="single",
)

maker = Record(
    "maker",
    "Who made it, for labels.",
    (
        Text("name", "Name."),
        Text("address", "Address."),
        Text("permit", "Permit or registration."),
        Text("statement", "The statement that local law asks for, in its own words."),
    ),
    key="single",
)

dryers = Record(
    "dryers",
    "The machines.",
    (
        Id("id", "The dryer's id."),
        Count("trays", "How many trays.", positive=True),
        Quantity("tray_area", "Area of one tray.", AREA, positive=True),
        TrayWeight(
            "tray_weight", "Weight of an empty tray: the tare of each.", FRESH, positive=True
        ),
        Quantity("load_limit", "Wet weight a run can take.", FRESH, positive=True),
        Quantity(
            "mean_power",
            "Mean power over a run, where it was not metered.",
            POWER,
            positive=True,
        ),
        Share(
            "mean_power_spread",
            "How far the mean power may be off.",
            default=0.25,
            head="power may be off by",
        ),
        Quantity("price", "What it cost.", MONEY),
        Quantity("resale", "What it will fetch in the end.", MONEY, zero=True),
        Count(
            "life",
            "Runs it will last, from when you bought it, new or used.",
            positive=True,
            words=("run", "runs"),
        ),
        Count(
            "runs_before",
            "Runs of yours in earlier seasons.",
            head="runs before this season",
            zero=True,
            words=("run", "runs"),
        ),
        Count(
            "runs_when_bought",
            "Runs of a former owner: they count for upkeep alone.",
            zero=True,
            words=("run", "runs"),
        ),
        Quantity(
            "saved_before",
            "What earlier seasons saved; left out, as if each run had saved what this season's do.",
            MONEY,
            signed=True,
            head="saved in earlier seasons",
        ),
        Count(
            "runs_per_year",
            "Runs a year, for the payback date.",
            positive=True,
            words=("run", "runs"),
        ),
        Quantity("turnaround", "Defrosting, cleaning and loading again.", HOUR, zero=True),
        Items("upkeep", "What keeps it going.", record="upkeep"),
    ),
)

upkeep = Record(
    "upkeep",
    "What keeps a dryer going.",
    (
        Text("item", "What it is.", required=True),
        Quantity("cost", "What it costs each time.", MONEY, required=True),
        Count(
            "every",
            "Runs between two times.",
            positive=True,
            required=True,
            words=("run", "runs"),
            head="every so many runs",
        ),
    ),
    key="position",
    owner="dryers",
)

containers = Record(
    "containers",
    "Cans, pouches and jars.",
    (
        Id("id", "The container's id."),
        Text("name", "Its name."),
        Quantity("volume", "Inside volume.", VOLUME, positive=True),
        Named("parts", "What one filled container uses up.", record="parts", value="cost"),
        Quantity(
            "absorber",
            "Oxygen that the absorbers of one container take up.",
            VOLUME,
            head="oxygen taken up",
        ),
        Quantity(
            "keeps",
            "How long food sealed dry in it keeps with enough absorber: its maker's own figure.",
            Unit.of("year"),
            positive=True,
            head="keeps, by its maker",
        ),
        Share(
            "spoiled",
            "Containers lost in sealing.",
            head="lost in sealing",
            zero=True,
            below_all=True,
        ),
    ),
)

parts = Record(
    "parts",
    "What one filled container uses up.",
    (
        Text("item", "The part.", required=True),
        Quantity("cost", "Its price.", MONEY, required=True),
        Count("uses", "How often it is used.", head="times used", default=1, positive=True),
    ),
    key="position",
    owner="containers",
)

absorbers = Record(
    "absorbers",
    "Absorber sizes at hand.",
    (
        Id("id", "The size's id."),
        Quantity("oxygen", "Oxygen that one takes up.", VOLUME, positive=True, required=True),
        Quantity("cost", "Price of one.", MONEY),
    ),
)

overheads = Record(
    "overheads",
    "Costs of the season that no run causes.",
    (
        Text("item", "What it is.", required=True),
        Quantity("cost", "What it costs.", MONEY, required=True),
        Flag("paid", "Money leaves for it; left out, it does.", zero=False),
        Quantity(
            "over",
            "The dried weight it is spread over; else the season's.",
            DRIED,
            positive=True,
        ),
    ),
    key="position",
)
