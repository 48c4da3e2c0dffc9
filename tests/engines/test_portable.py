"""The forms of formula that the workbook is made of mean the same in both engines.

Each case is a small sheet: what is typed in, and formulas with the value that the operators'
published rules ask for (OASIS OpenFormula 1.2, part 2, is the standard that both engines name;
what it leaves open, such as texts in comparisons, is written down here as what both do). All
sheets stand in one workbook, so that LibreOffice starts once.
"""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from engines import iron, libreoffice
from engines.compare import same

EMPTY = ""
"""A formula that returns the empty text: how an unknown value stands in a formula cell."""

NONE = '=""'


def column(letter: str, first: int, *contents: Any) -> dict[str, Any]:
    return {f"{letter}{first + n}": each for n, each in enumerate(contents)}


# name: (what is typed in, {cell: (formula, value)})
CASES: dict[str, tuple[dict[str, Any], dict[str, tuple[str, Any]]]] = {
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
    "count rows whose value is empty": (
        column("K", 2, "a", "a", "a", "a", "a", "b", "b", None)
        | column("V", 2, 1, None, NONE, 0, -2, None, 7, None),
        {
            "A2": ('=COUNTIFS(K2:K9,"a",V2:V9,"")', 2),
            "A3": ('=COUNTIFS(K2:K9,"b",V2:V9,"")', 1),
            "A4": ('=COUNTIFS(K2:K9,"a")', 5),
            "A5": ('=COUNTIFS(K2:K9,"a",V2:V9,">=0")+COUNTIFS(K2:K9,"a",V2:V9,"<0")', 3),
            "A6": ('=COUNTIFS(K2:K9,"b",V2:V9,">=0")+COUNTIFS(K2:K9,"b",V2:V9,"<0")', 1),
            "A7": ('=SUMPRODUCT((K2:K9="a")*(V2:V9=""))', 2),
            "A8": ('=SUMPRODUCT((K2:K9<>"")*(V2:V9=""))', 3),
            "A9": ('=SUMPRODUCT((K2:K9="a")*(V2:V9<>""))', 3),
        },
    ),
    "not empty as a criterion": (
        # Counts the formula's empty text too, as written in both engines: of no use for "known".
        column("K", 2, "a", "a", "a") | column("V", 2, 1, None, NONE),
        {"A2": ('=COUNTIFS(K2:K4,"a",V2:V4,"<>")', 2)},
    ),
    "an empty key as criterion": (
        # An empty cell asks for 0, an empty text for nothing: spare rows need the guard.
        column("K", 2, "a", None, NONE, "b", 0) | column("V", 2, 1, 2, 4, 8, 16)
        | {"A2": None, "A3": NONE},
        {
            "B2": ("=SUMIFS(V2:V6,K2:K6,A2)", 16),
            "B3": ("=SUMIFS(V2:V6,K2:K6,A3)", 6),
            "B4": ("=COUNTIFS(K2:K6,A2)", 1),
            "B5": ("=COUNTIFS(K2:K6,A3)", 2),
            "B6": ('=IF(A2="","",SUMIFS(V2:V6,K2:K6,A2))', EMPTY),
            "B7": ('=IF(A3="","",SUMIFS(V2:V6,K2:K6,A3))', EMPTY),
        },
    ),
    "ids as criteria": (
        column("K", 2, "P-0908", "run-07", "p-0908", "e5", "E5", "a.b", "a-b", "pears-1",
               "pears-10")
        | column("V", 2, 1, 2, 4, 8, 16, 32, 64, 128, 256),
        {
            "B2": ("=SUMIFS(V2:V10,K2:K10,K2)", 5),
            "B3": ("=SUMIFS(V2:V10,K2:K10,K3)", 2),
            "B4": ("=SUMIFS(V2:V10,K2:K10,K5)", 24),
            "B5": ("=SUMIFS(V2:V10,K2:K10,K7)", 32),
            "B6": ("=SUMIFS(V2:V10,K2:K10,K9)", 128),
            "B7": ("=MATCH(K8,K2:K10,0)", 7),
        },
    ),
    "weighted sums": (
        column("K", 2, "a", "a", "b", None) | column("V", 2, 2, NONE, 5, None)
        | column("W", 2, 3, 4, NONE, None),
        {
            "B2": ('=SUMPRODUCT((K2:K5="a")*1,V2:V5,W2:W5)', 6),
            "B3": ("=SUMPRODUCT(V2:V5,W2:W5)", 6),
            "B4": ('=SUMPRODUCT((K2:K5="a")*(W2:W5<>""))', 2),
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
    "sum where a flag is 1": (
        column("K", 2, "a", "a", "a", "a", "b", "a")
        | column("V", 2, 1, 2, 4, 8, 16, NONE)
        | column("W", 2, 1, 1, 0, None, 1, 1),
        {
            **{
                f"F{row}": (f'=IF(COUNT(W{row}),IF(W{row}>0,1,0),"")', value)
                for row, value in enumerate([1, 1, 0, EMPTY, 1, 1], 2)
            },
            "A2": ('=SUMIFS(V2:V7,K2:K7,"a",F2:F7,1)', 3),
            "A3": ('=SUMIFS(V2:V7,K2:K7,"c",F2:F7,1)', 0),
            "A4": ("=COUNTIF(F2:F7,1)", 4),
            "A5": ("=COUNTIF(F2:F7,0)", 1),
            "A6": ("=SUM(V2:V7)", 31),
            "A7": ('=COUNTIFS(K2:K7,"a",F2:F7,1)', 3),
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
    "the parent by a locator": (
        column("A", 2, "x", "y", "z", "w")
        | column("R", 2, 5, None, NONE, 0)
        | column("T", 2, "word", None, NONE, "Word/2"),
        {
            **{f"L{row}": (f'=IF(COUNT(MATCH("{key}",A2:A5,0)),MATCH("{key}",A2:A5,0),"")', at)
               for row, (key, at) in enumerate(
                   [("X", 1), ("y", 2), ("z", 3), ("w", 4), ("q", EMPTY)], 2)},
            **{f"B{row}": (f"=COUNT(INDEX(R2:R5,L{row}))", value)
               for row, value in enumerate([1, 0, 0, 1, 0], 2)},
            **{f"C{row}": (f'=IF(COUNT(INDEX(R2:R5,L{row})),INDEX(R2:R5,L{row}),"")', value)
               for row, value in enumerate([5, EMPTY, EMPTY, 0, EMPTY], 2)},
            **{f"D{row}": (f'=IF(COUNT(L{row}),INDEX(T2:T5,L{row})&"","")', value)
               for row, value in enumerate(["word", EMPTY, EMPTY, "Word/2", EMPTY], 2)},
            "E2": ("=INDEX(R2:R5,L3)", 0),
            "E3": ("=INDEX(R2:R5,L3)+1", 1),
            "E4": ('=IF(INDEX(R2:R5,L3)="",1,0)', 1),
            "E5": ('=IF(INDEX(R2:R5,L4)="",1,0)', 1),
            "E6": ('=IF(INDEX(R2:R5,L5)="",1,0)', 0),
        },
    ),
    "number or nothing": (
        {"B2": None, "B3": NONE, "B4": "word", "B5": 7, "B6": True, "B7": "7"},
        {
            **{f"C{row}": (f"=N(B{row})", value)
               for row, value in enumerate([0, 0, 0, 7, 1, 0], 2)},
            **{f"D{row}": (f"=COUNT(B{row})", value)
               for row, value in enumerate([0, 0, 0, 1], 2)},
            "D7": ("=COUNT(B7)", 0),
        },
    ),
    "match a text": (
        column("K", 2, "pear-1", "Pear-2", None, "a/b", "12", "x") | {"A2": "PEAR-1", "A4": NONE}
        | {"A5": "pear-2", "A6": "a/b", "A7": "no", "A8": "12"},
        {
            f"B{row}": (f'=IF(COUNT(MATCH(A{row},K2:K7,0)),MATCH(A{row},K2:K7,0),"")', value)
            for row, value in enumerate([1, EMPTY, EMPTY, 2, 4, EMPTY, 5], 2)
        },
    ),
    "rank within a group": (
        column("K", 2, "a", "a", "a", "a", "b", "a", "a")
        | column("V", 2, 3, 1, 3, 2, 9, 5, 4),
        {
            **{f"C{row}": (f"=SUMPRODUCT(($K$2:$K$8=K{row})*(($V$2:$V$8<V{row})+($V$2:$V$8=V{row})"
                           f"*(ROW($V$2:$V$8)<=ROW(V{row}))))", value)
               for row, value in enumerate([3, 1, 4, 2, 1, 6, 5], 2)},
            **{f"D{row}": (f'=COUNTIFS($K$2:$K$8,K{row})+1-C{row}', value)
               for row, value in enumerate([4, 6, 3, 5, 1, 1, 2], 2)},
            **{f"M{row}": (f"=IF(ABS(C{row}-D{row})<=1,1,0)", value)
               for row, value in enumerate([1, 0, 1, 0, 1, 0, 0], 2)},
            "A2": ('=AVERAGEIFS(V2:V8,K2:K8,"a",M2:M8,1)', 3),
            "A3": ('=SUMIFS(V2:V8,K2:K8,"a",C2:C8,1)', 1),
            "A4": ('=SUMIFS(V2:V8,K2:K8,"a",D2:D8,1)', 5),
            "A5": ('=AVERAGEIFS(V2:V8,K2:K8,"b",M2:M8,1)', 9),
        },
    ),
    "rank with gaps": (
        column("K", 2, "a", "a", "a", "a", "a", None, "b")
        | column("V", 2, 3, NONE, 1, None, 2, None, NONE),
        {
            # Without the factor V<>"" an empty cell counts as 0, below every number.
            "C2": ('=SUMPRODUCT(($K$2:$K$8=K2)*($V$2:$V$8<V2))', 3),
            **{f"D{row}": (
                f'=IF(COUNT(V{row}),SUMPRODUCT(($K$2:$K$8=K{row})*($V$2:$V$8<>"")*'
                f'(($V$2:$V$8<V{row})+($V$2:$V$8=V{row})*(ROW($V$2:$V$8)<=ROW(V{row})))),"")',
                value)
               for row, value in enumerate([3, EMPTY, 1, EMPTY, 2, EMPTY, EMPTY], 2)},
            **{f"E{row}": (
                f'=IF(COUNT(V{row}),SUMPRODUCT(($K$2:$K$8=K{row})*($V$2:$V$8<>"")*'
                f'(($V$2:$V$8>V{row})+($V$2:$V$8=V{row})*(ROW($V$2:$V$8)>=ROW(V{row})))),"")',
                value)
               for row, value in enumerate([1, EMPTY, 3, EMPTY, 2, EMPTY, EMPTY], 2)},
            **{f"M{row}": (f'=IF(COUNT(D{row},E{row})=2,IF(ABS(D{row}-E{row})<=1,1,0),"")', value)
               for row, value in enumerate([0, EMPTY, 0, EMPTY, 1, EMPTY, EMPTY], 2)},
            "A2": ('=IF(COUNTIFS(K2:K8,"a",M2:M8,1),AVERAGEIFS(V2:V8,K2:K8,"a",M2:M8,1),"")', 2),
            "A3": ('=IF(COUNTIFS(K2:K8,"b",M2:M8,1),AVERAGEIFS(V2:V8,K2:K8,"b",M2:M8,1),"")',
                   EMPTY),
            "A4": ('=IF(COUNTIFS(K2:K8,"a",D2:D8,1),SUMIFS(V2:V8,K2:K8,"a",D2:D8,1),"")', 1),
            "A5": ('=IF(COUNTIFS(K2:K8,"b",D2:D8,1),SUMIFS(V2:V8,K2:K8,"b",D2:D8,1),"")', EMPTY),
            "A6": ('=AVERAGEIFS(V2:V8,K2:K8,"a")', 2),
        },
    ),
    "near ties": (
        column("K", 2, "a", "a", "a") | column("V", 2, "=0.1+0.2", 0.3, "=0.3+1E-16"),
        {
            f"C{row}": (f"=SUMPRODUCT(($K$2:$K$4=K{row})*(($V$2:$V$4<V{row})+($V$2:$V$4=V{row})"
                        f"*(ROW($V$2:$V$4)<=ROW(V{row}))))", value)
            for row, value in enumerate([1, 2, 3], 2)
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
    "first row that fails": (
        column("A", 2, "one", "two", "three") | column("F", 2, NONE, 0, 1),
        {
            "B2": ('=IF(COUNTIF(F2:F4,1),INDEX(A2:A4,MATCH(1,F2:F4,0))&"","")', "three"),
            "B3": ('=IF(COUNTIF(F2:F4,2),INDEX(A2:A4,MATCH(2,F2:F4,0))&"","")', EMPTY),
            "B4": ("=COUNTIF(F2:F4,1)", 1),
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
        {"A2": True, "A3": False, "A4": None, "A5": 1, "A6": "yes"},
        {
            **{f"B{row}": (f"=IF(N(A{row}),1,0)", value)
               for row, value in enumerate([1, 0, 0, 1, 0], 2)},
            **{f"C{row}": (f'=IF(A{row}="yes",1,0)', value)
               for row, value in enumerate([0, 0, 0, 0, 1], 2)},
        },
    ),
    "other sheet": (
        {"A2": 1},
        {"B2": ("='guarded quotient'!D2*A2", 1.5), "B3": ("=COUNT('guarded quotient'!D3)", 0),
         "B4": ("=SUMIFS('rank within a group'!V2:V8,'rank within a group'!K2:K8,\"a\")", 18)},
    ),
    "sums that are known only whole": (
        column("K", 2, "a", "a", "b", "b", None) | column("V", 2, 1, 2, 4, NONE, None),
        {
            f"B{row}": (
                f'=IF(COUNTIFS(K2:K6,{key},V2:V6,"")=0,SUMIFS(V2:V6,K2:K6,{key}),"")', value)
            for row, (key, value) in enumerate([('"a"', 3), ('"b"', EMPTY), ('"c"', 0)], 2)
        },
    ),
}  # fmt: skip


def write(path: Path) -> Path:
    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, (typed, formulas) in CASES.items():
        sheet = book.create_sheet(name)
        for cell, content in typed.items():
            sheet[cell] = content
        for cell, (formula, _) in formulas.items():
            sheet[cell] = formula
    book.save(path)
    return path


@pytest.fixture(scope="module")
def workbook(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write(tmp_path_factory.mktemp("portable") / "portable.xlsx")


@pytest.fixture(scope="module")
def by_libreoffice(workbook: Path, tmp_path_factory: pytest.TempPathFactory) -> dict:
    return libreoffice.recalculate([workbook], tmp_path_factory.mktemp("calc"))[workbook]


@pytest.fixture(scope="module")
def by_iron(workbook: Path) -> dict:
    return iron.recalculate(workbook)


@pytest.mark.parametrize("case", CASES)
def test_both_engines_agree_with_the_value_worked_by_hand(
    case: str, by_libreoffice: dict, by_iron: dict
) -> None:
    for cell, (formula, value) in CASES[case][1].items():
        found = {
            "by hand": value,
            "LibreOffice": by_libreoffice.get((case, cell)),
            "ironcalc": by_iron.get((case, cell)),
        }
        assert same(found["LibreOffice"], value), f"{cell} {formula}: {found}"
        assert same(found["ironcalc"], value), f"{cell} {formula}: {found}"


def test_no_case_is_lost_with_its_sheet(workbook: Path, by_libreoffice: dict) -> None:
    """LibreOffice leaves out sheets whose name is too long, without a word."""
    assert max(len(name) for name in CASES) <= 31
    assert {sheet for sheet, _ in by_libreoffice} == set(CASES)
