"""Power logs in the forms in which plugs save them: all say 1 kWh, in two hours at 500 W.

The forms are common practice, no source; energy is power times time by definition (SI brochure,
table 4 and 8: W = J/s, h = 3600 s).
"""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from power_log.logs import hours, kwh, log, read, said

FORMS = {
    "plain": "time,W\n2026-09-05 18:30,500\n2026-09-05 20:30,500\n",
    "ISO 8601 with T and seconds": "timestamp,Power (W)\n2026-09-05T18:30:00,500\n"
    "2026-09-05T20:30:00,500\n",
    "fractions of a second": "time,W\n2026-09-05T18:30:00.250,500\n2026-09-05T20:30:00.250,500\n",
    "quotes": '"Time","Power_W"\r\n"2026-09-05 18:30","500.0"\r\n"2026-09-05 20:30","500.0"\r\n',
    "semicolons and decimal commas": "Zeit;Leistung (W)\n05.09.2026 18:30;500,0\n"
    "05.09.2026 20:30;500,0\n",
    "decimal commas in quotes": 'Time,Power (W)\n2026-09-05 18:30,"500,0"\n'
    '2026-09-05 20:30,"500,0"\n',
    "tabs": "Heure\tPuissance (kW)\n2026-09-05 18:30\t0,5\n2026-09-05 20:30\t0,5\n",
    "day and time apart": "Date,Time,Voltage (V),Watts\n2026-09-05,18:30:00,231,500\n"
    "2026-09-05,20:30:00,230,500\n",
    "unit in a row of its own": "time,power\n-,kW\n2026-09-05 18:30,0.5\n2026-09-05 20:30,0.5\n",
    "unit behind the number": "time,power\n2026-09-05 18:30,500 W\n2026-09-05 20:30,0.5 kW\n",
    "slashes that some day settles": "time,W\n31/08/2026 23:30,500\n01/09/2026 01:30,500\n",
    "month first": "time,W\n08/31/2026 11:30 PM,500\n09/01/2026 1:30 AM,500\n",
    "year first with slashes": "time,W\n2026/9/5 18:30,500\n2026/9/5 20:30,500\n",
    "hours of one digit": "time,W\n2026-09-05 09:30,500\n2026-09-05 9:45,500\n"
    "2026-09-05 11:30,500\n",
    "comments and blank lines": "# plug 3\n\nsep=,\ntime,W\n2026-09-05 18:30,500\n\n# half\n"
    "2026-09-05 20:30,500\n",
    "preamble": "Device: plug in the shed\nExported;today\ntime;W\n2026-09-05 18:30;500\n"
    "2026-09-05 20:30;500\n",
    "an offset that stays": "time,W\n2026-09-05T18:30:00-05:00,500\n"
    "2026-09-05T20:30:00-05:00,500\n",
    "count in kWh": "time,kWh\n2026-09-05 18:30,1042.5\n2026-09-05 19:30,1043\n"
    "2026-09-05 20:30,1043.5\n",
    "count in Wh": "Time,Energy (Wh)\n2026-09-05 18:30,0\n2026-09-05 20:30,1000\n",
    "count before power, total before today": "time,Power (W),Today (kWh),Total (kWh)\n"
    "2026-09-05 18:30,3,0,10\n2026-09-05 20:30,3,9,11\n",
    "sensor, state and unit": "entity_id,state,last_changed,unit_of_measurement\n"
    "shed_plug,500,2026-09-05 18:30:00,W\nshed_plug,500,2026-09-05 20:30:00,W\n",
    "sensor that says what it is": "entity_id,state,last_changed\n"
    "sensor.shed_power,500,2026-09-05 18:30:00\nsensor.shed_power,500,2026-09-05 20:30:00\n",
    "thousands and decimals": "time;Wh total\n2026-09-05 18:30;1.000,5\n2026-09-05 20:30;2.000,5\n",
}


@pytest.mark.parametrize("form", FORMS)
def test_a_form(tmp_path: Path, form: str) -> None:
    found = log(tmp_path, FORMS[form])
    assert (kwh(found), hours(found)) == (pytest.approx(1, rel=1e-12), 2)


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
def test_an_encoding(tmp_path: Path, encoding: str) -> None:
    text = "Zeit;Leistung (W);Wärme (°C)\n2026-09-05 18:30;500,0;4\n2026-09-05 20:30;500,0;4\n"
    if encoding in ("utf-16-le", "utf-16-be"):
        text = text.replace("ä", "a").replace("°", "")
    assert kwh(log(tmp_path, text.encode(encoding))) == pytest.approx(1, rel=1e-12)


@pytest.mark.parametrize(
    "first",
    [
        "2026-09-05T23:30:00Z",
        "2026-09-05 23:30:00 UTC",
        "2026-09-05T18:30:00-05:00",
        "2026-09-05 18:30:00 -0500",
        "1788651000",
        "1788651000000",
    ],
)
def test_stamps_that_say_their_offset(tmp_path: Path, first: str) -> None:
    # 2026-09-05 18:30 in Chicago is 23:30 UTC; seconds since 1970 by Python's calendar.
    moment = datetime.fromisoformat("2026-09-05T23:30:00+00:00").timestamp()
    assert moment == 1788651000
    found = log(tmp_path, f"time,W\n{first},500\n", "America/Chicago")
    assert list(found.times) == [moment]
    refused = read(tmp_path, f"time,W\n{first},500\n")[1]
    local = first.endswith(("-05:00", "-0500"))
    assert [each.severity for each in refused] == ([] if local else ["error"])
    assert local or "timezone:" in refused[0].do


def test_a_header_may_say_utc(tmp_path: Path) -> None:
    text = "Time (UTC),W\n2026-09-05 23:30,500\n"
    assert log(tmp_path, text, "America/Chicago").times[0] == 1788651000
    assert "UTC" in read(tmp_path, text)[1][0].what


REFUSED = {
    "two readings of a day": (
        "time,W\n05/09/2026 18:30,500\n05/09/2026 20:30,500\n",
        2, "'05/09/2026' may be read as two different days, and no other day of the log settles it",
    ),
    "both ways": (
        "time,W\n31/08/2026 18:30,500\n08/31/2026 20:30,500\n",
        2, "the log has both '31/08/2026' and '08/31/2026'",
    ),
    "no header": (
        "2026-09-05 18:30,500\n",
        1, "no line at the top names the columns of the readings; the first is "
        "'2026-09-05 18:30,500'",
    ),
    "empty": ("", 0, "the log is empty"),
    "no unit": (
        "time,energy\n2026-09-05 18:30,500\n", 1, "the column 'energy' does not say its unit",
    ),
    "two plugs": (
        "time,Plug 1 (W),Plug 2 (W)\n2026-09-05 18:30,500,3\n",
        1, "2 columns may be meant: 'Plug 1 (W)' or 'Plug 2 (W)'",
    ),
    "two sensors": (
        "entity_id,state,last_changed\na_power,500,2026-09-05 18:30\nb_power,1,2026-09-05 18:31\n",
        3, "the log has readings of 'a_power' and here of 'b_power'",
    ),
    "nothing to read": (
        "time,Voltage (V)\n2026-09-05 18:30,230\n",
        1, "no column is one of power or of the meter's count, among 'time' or 'Voltage (V)'",
    ),
    "stamp": (
        "time,W\n2026-09-05 18:30,500\n5 Sep 2026,500\n",
        3, "'5 Sep 2026' is no stamp like those before it",
    ),
    "time alone": ("time,W\n18:30,500\n", 2, "'18:30' is no stamp"),
    "number": ("time,W\n2026-09-05 18:30,1.2.3\n", 2, "'1.2.3' is no number"),
    "thousands or decimals": (
        'time,W\n2026-09-05 18:30,"1,234"\n',
        2, "'1,234' may be read as thousands or as decimals",
    ),
    "negative": (
        "time,W\n2026-09-05 18:30,500\n2026-09-05 18:31,-40\n", 3, "the reading is negative (-40)",
    ),
    "milliwatts": (
        "time,W\n2026-09-05 18:30,500000\n",
        2, "the reading is 500000 W, more than a household circuit gives",
    ),
    "energy of each interval": (
        "time,kWh\n" + "".join(f"2026-09-05 {h:02}:00,{0.6 - h % 2 / 10:.1f}\n" for h in range(24)),
        3, "the count falls 12 times, as if each line had the energy of its own interval",
    ),
    "a leap": (
        "time,kWh\n2026-09-05 18:30,10\n2026-09-05 18:31,99\n",
        3, "the count rises by 89 kWh from one reading to the next",
    ),
    "an open quotation mark": (
        'time,W\n2026-09-05 18:30,500\n"2026-09-05 18:31,500\n' + "x" * 140_000,
        4, "this line cannot be taken apart (field larger than field limit (131072))",
    ),
    "an offset that changes": (
        "time,W\n2026-10-25T02:30:00+02:00,500\n2026-10-25T02:30:00+01:00,500\n",
        3, "the stamps of this log are ahead of UTC by +02:00, and here by something else; the "
        "runs are written in local time",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", REFUSED)
def test_what_is_refused(tmp_path: Path, case: str) -> None:
    text, line, what = REFUSED[case]
    found, problems = read(tmp_path, text)
    assert found is None
    assert said(problems) == [("error", line, what)]
    assert problems[0].do or case == "empty"


def test_a_workbook_is_no_log(tmp_path: Path) -> None:
    for data in (b"PK\x03\x04\x14\x00", b"\x00\x01\x02\x03"):
        found, problems = read(tmp_path, data)
        assert found is None and "no text" in problems[0].what


def test_a_log_without_a_reading_is_said(tmp_path: Path) -> None:
    assert said(read(tmp_path, "time,W\n")[1]) == [("caution", 1, "the log has no reading yet")]


def test_not_every_wrong_line_is_told(tmp_path: Path) -> None:
    text = "time,W\n2026-09-05 18:30,500\n" + "yesterday 5,500\n" * 1000
    assert 1 <= len(read(tmp_path, text)[1]) <= 5


HANDLED = {
    # Read: 500 W from 18:30 to 20:30, whatever else stands in the file.
    "no reading": (
        "time,W\n2026-09-05 18:30,500\n2026-09-05 18:40,unavailable\n2026-09-05 18:50,NaN\n"
        "2026-09-05 20:30,500\n",
        3, "2 lines without a reading are passed over, such as 'unavailable'",
    ),
    "footer": (
        "time,W\n2026-09-05 18:30,500\n2026-09-05 20:30,500\nmean,500\n",
        4, "a line without a reading is passed over, such as 'mean,500'",
    ),
    "newest first": (
        "time,W\n2026-09-05 20:30,500\n2026-09-05 18:30,500\n",
        2, "the log begins with its newest reading; it was turned round",
    ),
    "out of order": (
        "time,W\n2026-09-05 18:30,500\n2026-09-05 20:30,500\n2026-09-05 19:30,500\n",
        4, "the stamps go back in time here; the log was put in order",
    ),
    "twice": (
        "time,W\n2026-09-05 18:30,9\n2026-09-05 18:30,500\n2026-09-05 20:30,500\n",
        3, "a stamp is there twice, first here; the later line counts",
    ),
    # 0.4 before it was set back, 0.1 when it was first read again, 0.5 after that.
    "set back to zero": (
        "time,kWh\n2026-09-05 18:30,1.6\n2026-09-05 19:30,2.0\n2026-09-05 19:40,0.1\n"
        "2026-09-05 20:30,0.6\n",
        4, "the count falls once, first here: the meter began anew",
    ),
    # What it was set to was not taken by the dryer: 0.5 before and 0.5 after.
    "set to another count": (
        "time,kWh\n2026-09-05 18:30,900\n2026-09-05 19:30,900.5\n2026-09-05 19:31,800\n"
        "2026-09-05 20:30,800.5\n",
        4, "the count falls once, first here: the meter began anew",
    ),
    "readings lost on the way": (
        "time,kWh\n2026-09-05 18:30,900\n2026-09-05 19:30,900.5\n2026-09-05 19:31,0\n"
        "2026-09-05 19:32,0\n2026-09-05 19:33,900.6\n2026-09-05 20:30,901\n",
        4, "the count falls here and comes back on line 6; the readings between are passed over",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", HANDLED)
def test_what_is_put_right_and_said(tmp_path: Path, case: str) -> None:
    text, line, what = HANDLED[case]
    found, problems = read(tmp_path, text)
    assert found is not None
    assert said(problems) == [("caution", line, what)]
    assert (kwh(found), hours(found)) == (pytest.approx(1, rel=1e-12), 2)


def test_gaps_are_found(tmp_path: Path) -> None:
    text = "time,W\n2026-09-05 18:00,500\n2026-09-05 18:10,500\n2026-09-05 18:30,500\n"
    found = log(tmp_path, text)
    ((first, last, line),) = found.gaps(900)
    assert (last - first, line) == (1200, 3)
    assert found.gaps(1200) == []
