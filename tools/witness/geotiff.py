#!/usr/bin/env python3
"""Holds our GeoTIFF reader and projections against rasterio (GDAL) and pyproj (PROJ).

Writes GeoTIFFs in every supported combination of sample type, compression, predictor, layout, coordinate system and registration
into a temporary folder, has our decoder read them, and compares samples, bilinear values and projected coordinates with what the two
libraries say. Also: files that must be refused, with a word that must stand in the reason.

    python3 tools/witness/geotiff.py [DECODER]      needs: rasterio, pyproj, numpy; cargo, where no built `decode` is named

Prints `N passed, M failed`; exit 1 when something failed.
"""

import itertools
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np
import pyproj
import rasterio
from rasterio.transform import from_origin

ROOT = Path(__file__).resolve().parents[2]
WIDTH, HEIGHT, POINTS = 150, 130, 60
# Tolerances: a sample must be equal (to 32-bit floats); a bilinear value may differ by rounding; coordinates by a millimetre.
SAMPLE_TOLERANCE, BILINEAR_TOLERANCE, METRE_TOLERANCE, DEGREE_TOLERANCE = 1e-4, 2e-2, 1e-3, 1e-9

# Coordinate system: north-west corner and spacing, in its units.
SYSTEMS = {
    "EPSG:4326": (8.1, 46.9, 1 / 1200, 1 / 1200),
    "EPSG:4258": (-179.95, 61.0, 1 / 600, 1 / 1200),
    "EPSG:32632": (412_000.0, 5_180_000.0, 90.0, 90.0),
    "EPSG:32719": (640_000.0, 6_320_000.0, 75.0, 80.0),
    "EPSG:25833": (390_000.0, 5_820_000.0, 100.0, 100.0),
    "EPSG:3857": (-4_012_000.0, 5_360_000.0, 120.0, 120.0),
    "ESRI:54009": (-2_812_000.0, 5_130_000.0, 100.0, 100.0),
}
NODATA = {"int16": -9999, "uint16": 65535, "float32": -1e30, "uint8": 255}


def build():
    """Builds our decoder and gives its path."""
    command = ["cargo", "build", "--quiet", "-p", "terrain", "--example", "decode", "--message-format=json"]
    lines = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout.splitlines()
    found = [line for line in lines if '"executable":"' in line and "/examples/decode" in line]
    return found[-1].split('"executable":"')[1].split('"')[0]


def surface(dtype, rng):
    """Smooth hills with a little noise and a few voids."""
    y, x = np.mgrid[0:HEIGHT, 0:WIDTH]
    z = 900 + 500 * np.sin(x / 17.0) * np.cos(y / 23.0) + rng.normal(0, 20, (HEIGHT, WIDTH))
    if dtype == "uint8":
        z = np.clip(z / 8, 0, 200)
    z = z.astype(dtype)
    z[40:44, 60:70] = NODATA[dtype]
    return z


def write(path, dtype, compress, predictor, tiled, crs, point, rng, bigtiff="NO"):
    west, north, step_x, step_y = SYSTEMS[crs]
    profile = dict(driver="GTiff", width=WIDTH, height=HEIGHT, count=1, dtype=dtype, crs=crs, nodata=NODATA[dtype], BIGTIFF=bigtiff,
                   transform=from_origin(west, north, step_x, step_y))
    if compress != "NONE":
        profile.update(compress=compress, predictor=predictor)
    profile.update(dict(tiled=True, blockxsize=64, blockysize=48) if tiled else dict(blockysize=17))
    with rasterio.open(path, "w", **profile) as file:
        file.write(surface(dtype, rng), 1)
        if point:
            file.update_tags(AREA_OR_POINT="Point")


def expected(path, rng):
    """Points inside, and what the libraries say there."""
    with rasterio.open(path) as file:
        band, transform, crs, nodata = file.read(1).astype("float64"), file.transform, file.crs, file.nodata
    void = band == nodata
    col, row = rng.uniform(0.6, WIDTH - 1.6, POINTS), rng.uniform(0.6, HEIGHT - 1.6, POINTS)
    col[:4], row[:4] = [62.2, 65.5, 60.3, 69.4], [41.2, 42.0, 40.1, 43.2]  # in the voids
    # rasterio's transform gives outer corners of cells, also for pixel-is-point files (GDAL shifts those by half a cell).
    x, y = transform * (col + 0.5, row + 0.5)
    inverse = pyproj.Transformer.from_crs(crs, "EPSG:4326", always_xy=True)
    if not crs.is_geographic:
        lon, lat = inverse.transform(x, y)
        if "4258" not in str(crs) and crs.to_epsg() == 25833:  # ETRS89 taken as WGS 84
            lon, lat = pyproj.Transformer.from_crs(crs, "EPSG:4258", always_xy=True).transform(x, y)
    else:
        lon, lat = x, y
    rows = []
    for c, r, px, py, la, lo in zip(col, row, x, y, lat, lon):
        i, j = int(np.floor(c + 0.5)), int(np.floor(r + 0.5))
        nearest = None if void[j, i] else band[j, i]
        i, j = int(np.floor(c)), int(np.floor(r))
        u, v = c - i, r - j
        weights = {(j, i): (1 - u) * (1 - v), (j, i + 1): u * (1 - v), (j + 1, i): (1 - u) * v, (j + 1, i + 1): u * v}
        known = {k: w for k, w in weights.items() if not void[k]}
        total = sum(known.values())
        bilinear = None if total < 1e-9 else sum(band[k] * w for k, w in known.items()) / total
        rows.append((la, lo, nearest, bilinear, px, py, abs(c % 1 - 0.5) < 1e-5 or abs(r % 1 - 0.5) < 1e-5))
    return rows, crs.is_geographic


def compare(decoder, path, dtype, rng, folder):
    """Complaints about one file."""
    rows, geographic = expected(path, rng)
    points = folder / "points.txt"
    points.write_text("".join(f"{r[0]:.15f} {r[1]:.15f}\n" for r in rows))
    run = subprocess.run([decoder, path, points], capture_output=True, text=True)
    if run.returncode != 0:
        return [f"refused: {run.stderr.strip()}"]
    complaints = []
    for (lat, lon, nearest, bilinear, x, y, edge), line in zip(rows, run.stdout.splitlines(), strict=True):
        got_nearest, got_bilinear, got_x, got_y = line.split()
        tolerance = DEGREE_TOLERANCE if geographic else METRE_TOLERANCE
        off_x = abs(float(got_x) - x)
        if geographic:
            off_x = min(off_x, abs(off_x - 360))
        if off_x > tolerance or abs(float(got_y) - y) > tolerance:
            complaints.append(f"{lat} {lon}: x, y {got_x} {got_y}, expected {x} {y}")
        if dtype == "uint8":  # classes: no-data is 0 and is never blended
            if not edge and float(got_nearest) != (0 if nearest is None else nearest):
                complaints.append(f"{lat} {lon}: class {got_nearest}, expected {nearest}")
            continue
        for what, got, want, slack in (("sample", got_nearest, nearest, SAMPLE_TOLERANCE), ("height", got_bilinear, bilinear, BILINEAR_TOLERANCE)):
            if what == "sample" and edge:
                continue
            if (got == "void") != (want is None) or (want is not None and abs(float(got) - want) > slack):
                complaints.append(f"{lat} {lon}: {what} {got}, expected {want}")
    return complaints


def refusals(folder, rng):
    """Files that must be refused, with the word that must stand in the reason."""
    def plain(name, **changes):
        path = folder / name
        profile = dict(driver="GTiff", width=20, height=10, count=1, dtype="int16", crs="EPSG:4326", transform=from_origin(8, 47, 0.01, 0.01))
        profile.update(changes)
        bands = profile["count"]
        with rasterio.open(path, "w", **profile) as file:
            file.write(np.ones((bands, 10, 20), profile["dtype"]))
        return path
    turned = rasterio.Affine(0.01, 0.002, 8, 0.002, -0.01, 47)
    yield plain("lv95.tif", crs="EPSG:2056", transform=from_origin(2_600_000, 1_200_000, 100, 100)), "EPSG 2056"
    yield plain("laea.tif", crs="EPSG:3035", transform=from_origin(4_000_000, 3_000_000, 100, 100)), "EPSG 3035"
    yield plain("nad83.tif", crs="EPSG:4269"), "EPSG 4269"
    yield plain("turned.tif", transform=turned), "turned"
    yield plain("bands.tif", count=3), "3 bands"
    yield plain("complex.tif", dtype="complex64"), "samples"
    yield plain("zstd.tif", compress="zstd"), "ompression"
    yield plain("swapped.tif", transform=from_origin(47, 108, 0.01, 0.01)), "swapped"
    bare = plain("bare.tif", crs=None, transform=rasterio.Affine.identity())
    yield bare, "georeference"


def main():
    rng = np.random.default_rng(20)
    decoder = sys.argv[1] if len(sys.argv) > 1 else build()
    passed, failed = 0, 0

    def report(name, complaints):
        nonlocal passed, failed
        if complaints:
            failed += 1
            print(f"FAILED {name}: {len(complaints)} differ, first: {complaints[0]}")
        else:
            passed += 1

    kinds = [(d, c, p) for d, c in itertools.product(("int16", "uint16", "float32", "uint8"), ("NONE", "LZW", "DEFLATE"))
             for p in ((1,) if c == "NONE" else (1, 2, 3) if d == "float32" else (1, 2))]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for (dtype, compress, predictor), tiled, crs, point in itertools.product(kinds, (False, True), SYSTEMS, (False, True)):
            path = folder / "tile.tif"
            write(path, dtype, compress, predictor, tiled, crs, point, rng)
            label = f"{dtype} {compress} predictor {predictor} {'tiles' if tiled else 'strips'} {crs} {'point' if point else 'area'}"
            report(label, compare(decoder, path, dtype, rng, folder))
        write(folder / "big.tif", "int16", "DEFLATE", 2, True, "EPSG:32632", False, rng, bigtiff="YES")
        report("BigTIFF", compare(decoder, folder / "big.tif", "int16", rng, folder))
        points = folder / "points.txt"
        points.write_text("46.95 8.05\n")
        for path, word in refusals(folder, rng):
            run = subprocess.run([decoder, path, points], capture_output=True, text=True)
            refused = run.returncode != 0 and word in run.stderr and "panicked" not in run.stderr
            report(f"refusal of {path.name}", [] if refused else [f"exit {run.returncode}: {run.stderr.strip()}"])
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
