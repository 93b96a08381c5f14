"""Compares the three forms of every table field by field: python3 compare_tables.py BINDER.

CSV is read by Python's csv, the workbook by openpyxl, JSON lines by json. Says how many cells agree.
A cell of a CSV that would run in a spreadsheet has an apostrophe in front; it is taken off here.
"""
import csv
import json
import sys
from pathlib import Path

import openpyxl

NOT_IN_WORKBOOK = {"entries"}


def is_shielded(cell):
    return len(cell) > 1 and cell[0] == "'" and cell[1] in "=+-@\t\r"


def of_csv(path):
    with open(path, newline="", encoding="utf-8") as file:
        return [[cell[1:] if is_shielded(cell) else cell for cell in row]
                for row in csv.reader(file)]


def of_json(path, header):
    rows = [json.loads(line) for line in open(path, encoding="utf-8")]
    for row in rows:
        assert list(row) == header, f"{path}: other columns: {list(row)}"
    return [["" if row[name] is None else row[name] for name in header] for row in rows]


def of_sheet(sheet, width):
    rows = []
    for row in sheet.iter_rows(max_col=width):
        for cell in row:
            assert cell.data_type != "f", f"{sheet.title} {cell.coordinate}: a formula"
        rows.append(["" if cell.value is None else cell.value for cell in row])
    return rows


def plain(cell):
    # Excel keeps a carriage return or another control character as _x000D_.
    return str(cell).replace("_x000D_", "\r").replace("_x0009_", "\t")


def compare(folder):
    book = openpyxl.load_workbook(folder / "records.xlsx")
    cells = 0
    for path in sorted((folder / "tables").glob("*.csv")):
        name = path.stem
        header, *rows = of_csv(path)
        lines = of_json(path.with_suffix(".jsonl"), header)
        forms = {"json": lines}
        if name not in NOT_IN_WORKBOOK:
            sheet = of_sheet(book[name], len(header))
            assert sheet[0] == header, f"{name}: the sheet has other columns"
            forms["sheet"] = sheet[1:]
        for form, other in forms.items():
            assert len(other) == len(rows), f"{name}: {form} has {len(other)} of {len(rows)} rows"
            for number, (row, twin) in enumerate(zip(rows, other)):
                for column, (a, b) in enumerate(zip(row, twin)):
                    assert a == plain(b), f"{name} row {number}, {header[column]}: {a!r}, {b!r}"
                    cells += 1
        whole = header.index("entry")
        assert all(isinstance(line[whole], int) for line in lines if line[whole] != "")
    return cells


print(compare(Path(sys.argv[1])), "cells agree")
