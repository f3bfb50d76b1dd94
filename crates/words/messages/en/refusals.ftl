# Refusals of plans and papers. `why` of a paper is mostly a library's own word.

plan-not-a-station = the document cannot be read as a station; assess it to see its faults
plan-nothing-to-choose = nothing to choose from: { $why }
plan-no-emission = the file names no emission; add `[[emissions]]` with a frequency and a licence
plan-no-site = the file names no site; add `[[sites]]` with a position and a mast
plan-not-licensed = emission `{ $tag }` needs a frequency and a licensed power; `{"{"} assumed = .. {"}"}` will do
plan-no-exchange = the prices are in { $from }, the station counts in { $currency }; say what one { $from } is worth: [[exchange]] with tag = "{ $from }" and rate
plan-no-ground = the ground has no elevation at site `{ $site }`: mend its position, or add the tile that holds it
plan-no-design = no height fits the mast, or the shelf lacks a transmitter, feeder or bay with a price in the licence’s plane; give the site’s mast a height above ground
plan-cancelled = cancelled

papers-no-map = there is no map: nothing radiates yet; give the station an emission with antenna and transmitter
papers-nothing-to-rig = there is nothing to rig: give an emission an antenna with a bay from the shelf
papers-nothing-radiates = there is nothing for a licence: nothing radiates yet; give an emission an antenna and a transmitter
papers-nothing-to-measure = there is nothing to measure: nothing is promised yet
papers-not-set = the page could not be set: { $why }
papers-no-spreadsheet = the spreadsheet could not be written: { $why }
papers-not-packed = the spreadsheet could not be packed: { $why }
papers-not-painted = the drawing could not be painted: { $why }
papers-not-drawn = the map could not be drawn: { $why }
papers-no-raster = the raster could not be written: { $why }
papers-no-outlines = the file of outlines could not be written: { $why }
