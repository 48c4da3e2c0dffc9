"""The trade: every quantity of a season, a file a subject, checks beside what they guard.

Reading order: ``tables.py`` (the tables and their links), ``ice.py`` (the physics of ice),
``constants.py`` (named numbers with their sources), then in the order of the work:
``equipment.py``, ``lots.py``, ``runs.py``, ``tariff.py``, ``energy.py``, ``unweighed.py``,
``forgotten.py``, ``failed.py``, ``loads.py``, ``dryness.py``, ``dryness_said.py``, ``packs.py``,
``mixing.py``, ``mixing_first.py``, ``mixing_costs.py``, ``mixing_opened.py``, ``mixing_dry.py``,
``mixing_keeps.py``,
``rest.py``, ``counting.py``, ``sealing.py``, ``keeping.py``, ``eat_first.py``, ``trace.py``,
``offers.py``, ``products.py``, ``weighings.py``, ``moved.py``, ``spreads.py``, ``uncertainty.py``,
``asking.py``, ``channels.py``, ``market_packs.py``, ``markets.py``, ``prices.py``,
``scenarios.py``, ``drivers.py``, ``closed.py``, ``queue.py``, ``to_make.py``, ``plan.py``,
``buying.py``, ``windows.py``, ``another.py``, ``weeks.py``, ``learned.py``, ``kept.py``,
``worth_drying.py``, ``mixing_worth.py``, ``payback.py``, ``payback_said.py``, ``days.py``,
``headline.py``, ``season.py``, ``notebook.py``, ``money.py``, ``cash_book.py``, ``lists.py``,
``price_list.py``, ``verdict.py``, ``next_step.py``;
``safety.py`` (what is said beside figures that could do harm); ``trace_rows.py``, ``rows.py``
(rows that follow from other tables' records); last ``input_names.py`` (what inputs are called in a
workbook).

May import ``algebra``, ``model`` and ``units``. It knows nothing of cells.
"""

from reportgen.algebra.book import Book
from reportgen.trade import (
    another,
    asking,
    buying,
    cash_book,
    channels,
    closed,
    counting,
    days,
    drivers,
    dryness,
    dryness_said,
    eat_first,
    energy,
    equipment,
    failed,
    forgotten,
    headline,
    keeping,
    kept,
    learned,
    lists,
    loads,
    lots,
    market_packs,
    markets,
    mixing,
    mixing_costs,
    mixing_dry,
    mixing_first,
    mixing_keeps,
    mixing_opened,
    mixing_worth,
    money,
    moved,
    next_step,
    notebook,
    offers,
    packs,
    payback,
    payback_said,
    plan,
    price_list,
    prices,
    products,
    queue,
    rest,
    runs,
    scenarios,
    sealing,
    season,
    spreads,
    tables,
    tariff,
    to_make,
    trace,
    uncertainty,
    unweighed,
    verdict,
    weeks,
    weighings,
    windows,
    worth_drying,
)
from reportgen.trade.tables import TABLES

SUBJECTS = (
    equipment, lots, runs, tariff, energy, unweighed, forgotten, failed, loads, dryness,
    dryness_said, packs, mixing, mixing_first, mixing_costs, mixing_opened, mixing_dry,
    mixing_keeps, rest, counting, sealing, keeping, eat_first, trace, offers, products, weighings,
    moved, spreads, uncertainty, asking, channels, market_packs, markets, prices, scenarios,
    drivers, closed, queue, to_make, plan, buying, windows, another, weeks, learned, kept,
    worth_drying, mixing_worth, payback,
    payback_said, days, headline, season, notebook, money, cash_book, lists, price_list, verdict,
    next_step,
)  # fmt: skip
"""The modules whose definitions make up the book, in reading order."""

# What a text hides may be what the other checks tell of, so they come after it.
BOOK = Book(TABLES, tables.checks, first=tables.typed)
"""All tables and definitions of the trade, run, checked and sorted."""
