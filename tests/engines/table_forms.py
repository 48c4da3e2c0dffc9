"""Forms of formula over tables: criteria, locators, ranks; with the value worked by hand."""

from __future__ import annotations

from engines.row_forms import EMPTY, NONE, Case, column

CASES: dict[str, Case] = {
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
            "A8": ('=SUMPRODUCT((K2:K7="a")*1,F2:F7,V2:V7)', 3),
            "A9": ('=SUMPRODUCT((K2:K7="a")*1,F2:F7,(V2:V7="")*1)', 1),
            "A7": ('=COUNTIFS(K2:K7,"a",F2:F7,1)', 3),
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
    "first row that fails": (
        column("A", 2, "one", "two", "three") | column("F", 2, NONE, 0, 1),
        {
            "B2": ('=IF(COUNTIF(F2:F4,1),INDEX(A2:A4,MATCH(1,F2:F4,0))&"","")', "three"),
            "B3": ('=IF(COUNTIF(F2:F4,2),INDEX(A2:A4,MATCH(2,F2:F4,0))&"","")', EMPTY),
            "B4": ("=COUNTIF(F2:F4,1)", 1),
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
