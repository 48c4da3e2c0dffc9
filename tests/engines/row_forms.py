"""Forms of formula over one row, with what is typed in and the value worked by hand."""

from __future__ import annotations

import datetime
from typing import Any

EMPTY = ""
"""A formula that returns the empty text: how an unknown value stands in a formula cell."""

NONE = '=""'


def column(letter: str, first: int, *contents: Any) -> dict[str, Any]:
    return {f"{letter}{first + n}": each for n, each in enumerate(contents)}


# name: (what is typed in, {cell: (formula, value)})

Case = tuple[dict[str, Any], dict[str, tuple[str, Any]]]
"""What is typed in, by address, and formulas with their values."""

CASES: dict[str, Case] = {
    "guarded quotient": (
        column("A", 2, "a", "a", "a", "a", "a", None, NONE)
        | column("B", 2, 6, None, NONE, 6, 6, 6, 6)
        | column("C", 2, 4, 4, 4, 0, None, 4, 4)
        | {"C9": NONE, "A9": "a", "B9": 6},
        {
            f"D{row}": (f'=IF((A{row}<>"")*COUNT(B{row})*COUNT(1/C{row}),B{row}/C{row},"")', value)
            for row, value in enumerate([1.5, EMPTY, EMPTY, EMPTY, EMPTY, EMPTY, EMPTY, EMPTY], 2)
        },
    ),
    "texts chosen": (
        {"A2": 2, "B2": "fine", "B3": "look", "A3": NONE, "B4": "wrong"},
        {
            "C2": ("=CHOOSE(A2,B2,B3)", "look"),
            "C3": ('=IF(COUNT(A3),IF(A3>1,B2,B3),"")', EMPTY),
            "C4": ('=IF(A2>1,B2&"",B3&"")', "fine"),
            "C5": ("=IF(COUNT(A2,A3)=2,B2,B4)", "wrong"),
            "C6": ('=ROUND(A2/7,2)&" "&B2', "0.29 fine"),
        },
    ),
    "a comparison as a divisor": (
        {"B2": NONE, "C2": 0.001, "B3": 1e-15, "C3": 0.001, "B4": 5, "C4": 0.001, "C5": 0.001}
        | {"C6": 0.001, "B6": 0},
        {
            f"D{row}": (f'=IF(COUNT(1/(ABS(B{row})>C{row})),1/B{row},"")', value)
            for row, value in enumerate([EMPTY, EMPTY, 0.2, EMPTY, EMPTY], 2)
        },
    ),
    "number or nothing": (
        {"B2": None, "B3": NONE, "B4": "word", "B5": 7, "B6": "7"}
        | {f"E{row}": row - 1 for row in range(2, 7)},
        {
            **{f"C{row}": (f"=SUM(B{row})", value)
               for row, value in enumerate([0, 0, 0, 7, 0], 2)},
            **{f"D{row}": (f"=COUNT(B{row})", value)
               for row, value in enumerate([0, 0, 0, 1, 0], 2)},
            # (A digit in quotes is left out: one engine counts it through INDEX.)
            **{f"F{row}": (f"=IF(COUNT(INDEX($B$2:$B$6,$E{row})),INDEX($B$2:$B$6,$E{row}),0)",
                           value)
               for row, value in enumerate([0, 0, 0, 7], 2)},
        },
    ),
    "round up to a step": (
        {"A2": 1.1 * 1.1 / 1.21, "B2": 1, "A3": 7.3, "B3": 0.25, "A4": 0.3, "B4": 0.1, "C2": 9}
        | {"A5": 0, "B5": 0.25, "A6": 10.01, "B6": 0.05, "A7": 2.0000000001, "B7": 1}
        | {"A8": 2.00000001, "B8": 1},
        {
            f"D{row}": (f"=ROUNDUP(ROUND(A{row}/B{row},$C$2),0)*B{row}", value)
            for row, value in enumerate([1, 7.5, 0.3, 0, 10.05, 2, 3], 2)
        },
    ),
    "comparisons with nothing": (
        {"A2": NONE, "B2": 1, "B3": 1, "A4": None, "B4": -1, "A5": NONE, "B5": None, "C2": 0},
        {
            "D2": ("=IF(A2>B2,1,0)", 1),
            "D3": ("=IF(A3>B3,1,0)", 0),
            "D4": ("=IF(A4>B4,1,0)", 1),
            "D5": ("=IF(A5=B5,1,0)", 1),
            "D6": ("=IF(A2=0,1,0)", 0),
            "D7": ("=IF(A3=0,1,0)", 1),
            "D8": ('=IF(A3="",1,0)', 1),
            "D9": ('=IF(C2="",1,0)', 0),
            "E2": ("=IF(AND(B2>0,B3>0),1,0)", 1),
            "E3": ("=IF(OR(B2>2,B3>2),1,0)", 0),
            "E4": ("=IF(AND(COUNT(A2)=1,B2>0),1,0)", 0),
            "E5": ("=IF(OR(COUNT(A2)=0,B2>2),1,0)", 1),
            "E6": ("=IF((B2>0)*(B3>0),1,0)", 1),
            "E7": ("=IF(COUNT(A2,B2)=2,IF(A2>B2,1,0),\"\")", EMPTY),
            "E8": ("=AND(B2>0,B3>0)", True),
            "E9": ("=IF(NOT(B2>0),1,0)", 0),
        },
    ),
    "dates": (
        column("A", 2, datetime.date(2026, 9, 5), None, NONE, datetime.datetime(2026, 9, 8, 18, 30))
        | {"B2": 180, "C2": 24},
        {
            "D2": ("=A2+B2", 46270 + 180),
            "D3": ("=MAX(A2:A5)", 46273.770833333336),
            "D4": ("=A5-A2", 3.7708333333333357),
            "D5": ('=IF(COUNT(A3),A2-A3,"")', EMPTY),
            "D6": ('=IF(COUNT(A2:A5),MAX(A2:A5),"")', 46273.770833333336),
            "D7": ('=IF(COUNT(A3:A4),MAX(A3:A4),"")', EMPTY),
            "D8": ("=(A5-A2)*C2", 90.5),
            "D9": ("=IF(A5-A2>B2,1,0)", 0),
            "E2": ("=A2", 46270),
        },
    ),
    "texts joined": (
        {"A2": "pears", "B2": "can-10", "A3": None, "B3": "can-10", "A4": NONE, "B4": "x"}
        | {"C2": "/"}
        | column("V", 2, 1, 2, 4)
        | column("H", 2, "pears/can-10", "/x", "pears/*"),
        {
            "D2": ('=A2&"/"&B2', "pears/can-10"),
            "D3": ('=A3&"/"&B3', "/can-10"),
            "D4": ('=A4&"/"&B4', "/x"),
            "E2": ('=IF(A2="","",A2&"/"&B2)', "pears/can-10"),
            "E3": ('=IF(A3="","",A3&"/"&B3)', EMPTY),
            "E4": ('=IF(A4="","",A4&"/"&B4)', EMPTY),
            "F2": ("=SUMIFS(V2:V4,E2:E4,H2)", 1),
            "F3": ("=SUMIFS(V2:V4,D2:D4,H3)", 4),
            "F4": ("=COUNTIFS(E2:E4,E2)", 1),
            "F5": ("=IF(COUNT(MATCH(H2,E2:E4,0)),MATCH(H2,E2:E4,0),0)", 1),
            "F6": ("=SUMIFS(V2:V4,E2:E4,A2&C2&B2)", 1),
        },
    ),
    "a key with a number joined": (
        {"A2": "pears", "B2": 11, "A3": "pears", "B3": 10.5, "B4": "=21.2/2", "B5": "=0.1+0.2"},
        {
            "D2": ('=A2&"/"&ROUND(B2,4)', "pears/11"),
            "D3": ('=A3&"/"&ROUND(B3,4)', "pears/10.5"),
            "D4": ('=A3&"/"&ROUND(B4,4)', "pears/10.6"),
            "D5": ('=A3&"/"&ROUND(B5,4)', "pears/0.3"),
            "D6": ('=A3&"/"&ROUND(1/3,4)', "pears/0.3333"),
            "D7": ('=A3&"/"&ROUND(1234567.89,4)', "pears/1234567.89"),
            "D8": ('=A3&"/"&ROUND(0.0001,4)', "pears/0.0001"),
        },
    ),
    "a text compared": (
        {"A2": None, "A3": NONE, "A4": "Stall", "A5": "stall", "A6": 3},
        {
            **{f"B{row}": (f'=IF(A{row}="stall",1,0)', value)
               for row, value in enumerate([0, 0, 1, 1, 0], 2)},
            **{f"C{row}": (f'=IF(A{row}<>"",1,0)', value)
               for row, value in enumerate([0, 0, 1, 1, 1], 2)},
            "D2": ('=IF((A5="stall")+(A5="co-op"),1,0)', 1),
        },
    ),
    "highest lowest absolute": (
        {"A2": 3, "B2": -5, "A3": NONE, "A4": None, "C2": 0},
        {
            "D2": ("=MAX(A2,B2)", 3),
            "D3": ("=MIN(A2,B2)", -5),
            "D4": ("=ABS(B2)", 5),
            "D5": ("=MAX(A2,A3)", 3),
            "D6": ("=MIN(A2,A4)", 3),
            "D7": ("=MAX(B2,A4)", -5),
            "D8": ("=MAX(A2-B2,C2)", 8),
            "D9": ("=MEDIAN(A2:B2)", -1),
            "E2": ("=MEDIAN(A2:A4)", 3),
            "E3": ("=MAX(A2*B2,C2)", 0),
            "E4": ("=MIN(B2,C2)", -5),
        },
    ),
    "lazy branches": (
        {"A2": 2, "B2": None, "A3": None, "B3": 5, "A4": None, "B4": None, "C3": 0},
        {
            **{f"D{row}": (f'=IF(COUNT(A{row}),A{row},IF(COUNT(B{row}),B{row}+1,""))', value)
               for row, value in enumerate([2, 6, EMPTY], 2)},
            "E2": ('=IF(COUNT(A2),A2,1/C3)', 2),
            "E3": ('=IF(COUNT(A2:B3)=2,SUM(A2:B3),"")', 7),
        },
    ),
    "flags as typed": (
        # (A truth value is written as 1 or 0: engines disagree on whether TRUE is a number.)
        {"A2": None, "A3": 0, "A4": 1, "A5": "yes"},
        {
            **{f"B{row}": (f"=IF(SUM(A{row}),1,0)", value)
               for row, value in enumerate([0, 0, 1, 0], 2)},
            **{f"C{row}": (f'=IF(A{row}="yes",1,0)', value)
               for row, value in enumerate([0, 0, 0, 1], 2)},
        },
    ),
}  # fmt: skip
