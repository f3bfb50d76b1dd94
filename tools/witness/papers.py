#!/usr/bin/env python3
"""Opens the papers of the demo station with readers that are not ours, and holds them against the assessment.

The map's raster is read by rasterio (GDAL), its outlines by pyogrio (GDAL's GeoJSON and KML drivers) and shapely (GEOS), areas on the
ellipsoid by pyproj; the spreadsheets by openpyxl, and every formula is worked out again by the package `formulas`.

    cargo run -p stationwright --example papers_facts | python3 tools/witness/papers.py

Prints `N passed, M failed`; exit 1 when something failed.
"""

import contextlib
import io
import json
import sys
import tempfile
from pathlib import Path

import formulas
import numpy as np
import openpyxl
import pyogrio
import pyproj
import rasterio
import shapely

GEOD = pyproj.Geod(ellps="WGS84")
# Coordinates are written with six places; an area may differ by as much as half a metre along its edge makes.
AREA_TOLERANCE = 1e-3
CENT = 0.005
# Cells tried against every outline. Half a cell off the outline the raster may say otherwise: outlines are simplified by that much.
TRIED = 4000
passed, failed = 0, 0


def report(what, good, says=""):
    global passed, failed
    passed, failed = passed + bool(good), failed + (not good)
    if not good:
        print(f"FAILED {what} {says}")


def ellipsoid_km2(geometry):
    return abs(GEOD.geometry_area_perimeter(shapely.orient_polygons(geometry))[0]) * 1e-6


def raster(folder, facts):
    with rasterio.open(folder / "map.tif") as file:
        report("map.tif: coordinate system", file.crs and file.crs.to_epsg() == 4326, file.crs)
        report("map.tif: size", (file.width, file.height) == (facts["width"], facts["height"]))
        report("map.tif: samples", file.dtypes == ("int16",) and file.nodata == facts["nodata"])
        report("map.tif: a hundredth of a decibel", file.scales == (0.01,), file.scales)
        report("map.tif: a pixel is an area", file.tags().get("AREA_OR_POINT") == "Area")
        at = [(cell["lon"], cell["lat"]) for cell in facts["cells"]]
        for cell, (value,) in zip(facts["cells"], file.sample(at), strict=True):
            report(f"map.tif at {cell['lat']:.5f}, {cell['lon']:.5f}", value == cell["cdb"], f"{value}, not {cell['cdb']}")
        band = file.read(1)
        # A cell's middle must be where the assessment has it, not merely its value alike.
        for cell in facts["cells"]:
            row, col = file.index(cell["lon"], cell["lat"])
            x, y = file.xy(row, col)
            report("map.tif: middle of a cell", abs(x - cell["lon"]) < 1e-9 and abs(y - cell["lat"]) < 1e-9)
        return band, file.transform


def layers(path):
    meta, _, geometry, fields = pyogrio.raw.read(path)
    named = dict(zip((str(name) for name in meta["fields"]), fields, strict=True))
    return meta, shapely.from_wkb(geometry), named


def outlines(folder, facts, band, transform):
    meta, shapes, fields = layers(folder / "map.geojson")
    report("map.geojson: coordinate system", "4326" in meta["crs"], meta["crs"])
    areas = {}
    height, width = band.shape
    rng = np.random.default_rng(3)
    col, row = rng.integers(1, width - 1, TRIED), rng.integers(1, height - 1, TRIED)
    x, y = transform * (col + 0.5, row + 0.5)
    cells = shapely.points(x, y)
    wanted = {o["level_db"]: o for o in facts["outlines"] if o["area_km2"] > 0}
    for shape, level, km2 in zip(shapes, fields["field_dbuv_m"], fields["area_km2_with_sea"], strict=True):
        if np.isnan(level):
            continue
        name = f"map.geojson: {level:.0f} dBµV/m"
        report(f"{name} is in the assessment", level in wanted)
        report(f"{name} is a valid shape", shape.is_valid, shapely.is_valid_reason(shape))
        parts = shapely.get_parts(shape)
        report(f"{name}: outer rings counter-clockwise (RFC 7946)", all(shapely.is_ccw(p.exterior) for p in parts))
        report(f"{name}: parts", len(parts) == wanted[level]["parts"], len(parts))
        areas[level] = ellipsoid_km2(shape)
        for said in (wanted[level]["area_km2"], km2):
            report(f"{name}: area", abs(areas[level] - said) <= AREA_TOLERANCE * said + 0.06, f"{areas[level]:.2f}, not {said}")
        # Inside where the raster is at or above the level, outside where it is below; the edge itself, one cell wide, may go either way.
        inside = shapely.contains(shape, cells)
        above = band[row, col] >= level * 100 - 0.5
        edge = shapely.distance(shape.boundary, cells) < 1.0 * abs(transform.e)
        off = np.flatnonzero((inside != above) & ~edge)
        report(f"{name}: the raster inside and outside of it", len(off) == 0, f"{len(off)} of {TRIED} cells")
    report("map.geojson: every outline", set(areas) == set(wanted), sorted(areas))
    found = {n: (s.x, s.y) for s, n in zip(shapes, fields["name"], strict=True) if s.geom_type == "Point"}
    report("map.geojson: points", places_agree(found, facts["points"]), found)
    return areas


def places_agree(found, points):
    return len(found) == len(points) and all(
        p["name"] in found and max(abs(found[p["name"]][0] - p["lon"]), abs(found[p["name"]][1] - p["lat"])) < 2e-6 for p in points)


def kml(folder, facts, areas):
    _, shapes, fields = layers(folder / "map.kml")
    found, points = {}, {}
    for shape, name in zip(shapes, fields["Name"], strict=True):
        if shape.geom_type == "Point":
            points[name] = (shape.x, shape.y)
        else:
            found[float(name.split()[0])] = ellipsoid_km2(shapely.multipolygons(shapely.get_parts(shape)))
    report("map.kml: every outline", set(found) == set(areas), sorted(found))
    for level, km2 in found.items():
        report(f"map.kml: {level:.0f} dBµV/m", abs(km2 - areas[level]) <= AREA_TOLERANCE * areas[level], f"{km2:.2f}, not {areas[level]:.2f}")
    report("map.kml: points", places_agree(points, facts["points"]), points)


def worked_out(path):
    """Every cell of a workbook, formulas worked out by a stranger: (tab, cell) to value."""
    with contextlib.redirect_stderr(io.StringIO()):
        solution = formulas.ExcelModel().loads(str(path)).finish().calculate()
    cells = {}
    for name, value in solution.items():
        name = str(name)
        if "]" in name and "!" in name and ":" not in name:
            tab, cell = name.rstrip("'").split("]")[1].split("'!")
            cells[tab.upper(), cell] = value.value[0, 0]
    return cells


def spreadsheet(path, money, builder):
    name = path.name
    book, stored = openpyxl.load_workbook(path), openpyxl.load_workbook(path, data_only=True)
    values = worked_out(path)
    count = 0
    for sheet in book:
        for cell in (c for line in sheet.iter_rows() for c in line if isinstance(c.value, str) and c.value.startswith("=")):
            count += 1
            result = float(values[sheet.title.upper(), cell.coordinate])
            kept = float(stored[sheet.title][cell.coordinate].value)
            report(f"{name} {sheet.title}!{cell.coordinate} {cell.value}", abs(result - kept) < CENT, f"{result}, stored {kept}")
    report(f"{name}: formulas", count >= len(money["lines"]) + 3, count)
    bill, running = book.worksheets[0], book.worksheets[1]
    rows = {bill.cell(row, 1).value: row for row in range(1, bill.max_row + 1)}
    at = lambda sheet, cell: float(values[sheet.title.upper(), cell])
    for line in money["lines"]:
        report(f"{name}: price of {line['id']}", abs(at(bill, f"G{rows[line['id']]}") - line["price"]) < CENT)
    sums = [row for row in range(1, bill.max_row + 1) if str(bill.cell(row, 7).value).startswith("=SUM")]
    report(f"{name}: goods", abs(at(bill, f"G{sums[0]}") - money["goods"]) < CENT)
    report(f"{name}: price to build", abs(at(bill, f"G{sums[-1]}") - money["capital"]) < CENT, at(bill, f"G{sums[-1]}"))
    report(f"{name}: mass", abs(at(bill, f"H{sums[0]}") - money["mass_kg"]) < 0.01)
    report(f"{name}: a year", abs(at(running, f"B{running.max_row}") - money["yearly"]) < CENT)
    if builder:
        report(f"{name}: cost", abs(at(bill, f"I{sums[0]}") - money["cost"]) < CENT)
        report(f"{name}: earned", abs(at(bill, f"J{sums[0]}") - money["earned"]) < CENT)
    # The formulas work: one more of the first line costs its price more, all the way down.
    first = rows[money["lines"][0]["id"]]
    each = bill.cell(first, 6).value
    bill.cell(first, 4).value += 1
    with tempfile.TemporaryDirectory() as folder:
        changed = Path(folder) / "changed.xlsx"
        book.save(changed)
        more = worked_out(changed)[bill.title.upper(), f"G{sums[-1]}"]
    report(f"{name}: one more of the first line", abs(float(more) - money["capital"] - each) < CENT, more)


def main():
    facts = json.load(sys.stdin)
    folder = Path(facts["folder"])
    band, transform = raster(folder, facts["raster"])
    areas = outlines(folder, facts, band, transform)
    kml(folder, facts, areas)
    spreadsheet(folder / "bill-of-materials.xlsx", facts["money"], builder=False)
    spreadsheet(folder / "builders-costs-not-for-the-client.xlsx", facts["money"], builder=True)
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
