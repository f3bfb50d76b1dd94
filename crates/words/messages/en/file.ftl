# Complaints about a station file, a shelf, a country profile or a price list. Each follows its place (file, line, column), so it
# begins in lower case; what helps follows behind a semicolon.

# What stands where something else was expected.
found =
    { $found ->
        [text] text
        [whole] a whole number
        [number] a number
        [truth] true or false
        [date] a date
        [list] a list
       *[table] a table
    }

# What a tag names.
a-tagged =
    { $what ->
        [place] place
        [antenna] antenna
        [site] site
        [site-or-room] site or room
        [item-or-antenna] item or antenna
       *[item] item
    }

# A complaint with its place: the text where the sentence does not show it, and what helps.
file-fault = { $place }  { $what }
file-fault-help = { $place }  { $what }; { $help }
file-fault-of = `{ $text }`: { $what }

file-format = `{ $format }`: this program reads format 1
file-format-help = write `format = 1`
file-no-such-tag = no { a-tagged } has the tag `{ $tag }`
file-did-you-mean = did you mean `{ $near }`?
file-none-yet = the file has no { a-tagged } yet
file-known-are = known are { $known }
file-known-are-and-more = known are { $known } and { $more } more
file-section-expected = a section was expected here, { found } was found
file-key-missing = `{ $key }` is missing in `{ $section }`
file-key-missing-at-top = `{ $key }` is missing in the file
file-key-unknown = `{ $key }` is not known here
file-list-expected = a list was expected here, { found } was found
file-tag-taken = the tag `{ $tag }` is taken
file-tag-taken-help = each tag stands once in its list; give this one another
file-text-expected = text in quotes was expected, { found } was found
file-no-currency = `{ $given }` is no currency; write its three letters of ISO 4217, such as `EUR`
file-no-rate = `{ $given }` is no exchange rate: it says how many of the station's currency one of the other is worth, above 0
file-truth-expected = `true` or `false` was expected, { found } was found
file-whole-expected = a whole number without a unit was expected, { found } was found
file-count-range = `{ $text }`: a count from 0 to 1,000,000,000 was expected
file-number-expected = a plain number was expected, { found } was found
file-finite-expected = `{ $text }`: a finite number was expected
file-amount-expected = text with its unit was expected, { found } was found
file-word-expected = `{ $text }`: expected one of { $words }
file-radiated-power = `{ $text }`: expected radiated power that says over what and how counted, such as `500 W ERP total`, `1 kW ERP per plane` or `820 W EIRP total`
file-day = `{ $text }`: expected a day such as `2031-03-14`
file-connector = `{ $text }`: expected a series and `plug`, `jack` or `flange`, such as `N jack` or `7/8 EIA flange`; series known are { $series }

file-too-large = the file has { $bytes } bytes; at most { $limit } are read
file-too-large-help = take out what is not part of the station
file-nothing-behind = nothing stands behind `=`
file-nothing-behind-help = write a value, text in quotes, or take the key out
file-number-too-large = `{ $text }`: a number too large to hold
# `why` is the reader's own word on the syntax, in English.
file-not-a = not a { $what }
file-syntax = { $why }
file-syntax-at = `{ $text }`: { $why }

file-shelf-is-items = a shelf file is a list of `[[items]]`
file-id-taken = the id `{ $id }` is taken
file-id-taken-help = each id stands once in a file

list-no-header = no header with a column `id`
list-no-header-help = give the list a header row with the column `id`
list-no-id = a row without an id
list-no-id-help = give the row an `id`, or empty it
list-id-twice = the id `{ $id }` stands in this list twice; the first row counts

# Files that cannot be read or written. `why` is the system's or the reader's own word.
open-failed = { $path }: { $why }
open-not-text = { $path }: not text in UTF-8 from byte { $byte } on: save it as UTF-8
open-too-large = { $path }: { $bytes } bytes; at most { $limit } are read
# A cell of a table: `what` begins with line and column.
open-cell = { $path }:{ $what }
several-lines = { $lines }

ground-none = [ground] names no ground; write `tiles = "tiles"` (a folder of elevation tiles) or `generated = "rolling plain"`
ground-two = [ground] names both `generated` and `tiles`; take one of them out
ground-no-model = [ground] does not say what the tiles measure; write `model = "bare ground"` or `model = "surface"`
ground-no-site = the station has no site yet; a position in [[sites]] tells which part of the tiles is looked at
people-elsewhere = { $path }: no raster of people reaches the study area
tiles-none = { $path }: no tile in it; tiles are `.hgt` and `.tif` files, plain or gzipped

country-unknown = `{ $id }`: no such country profile; built in are { $known }; your own is `country/{ $id }.toml` in the folder

list-kind = { $path }: a price list is a `.toml`, `.csv`, `.xlsx` or `.ods` file
list-csv = { $path }: line { $line }: { $why }
list-spreadsheet = { $path }: { $why }: save it again as .xlsx or as .csv
list-too-large = { $path }: more than { $limit } cells; keep the list’s own rows and columns

save-changed = { $path }: changed on disk since it was read
save-failed =
    { $path }: { $step ->
        [lock] opening the folder’s lock
        [wait] waiting for another save
        [second-file] making a second file
        [look] looking at the file
        [rights] giving it the old file’s rights
        [write] writing
        [flush] flushing to the disk
        [name] taking the name
       *[folder] flushing the folder
    }: { $why }

# Changes asked for.
edit-syntax = the text has faults of syntax; mend them first: { $why }
edit-no-such-place = `{ $path }`: there is no `{ $step }` here; write the whole path, list items by their tag, such as `items.TX1.place`
edit-moved = `{ $path }`: `{ $found }` stands there, not `{ $expected }`; look at the file again before changing it
edit-empty = `{ $path }`: nothing to change; give what shall stand there
edit-unfaithful = `{ $path }`: the edit cannot be written into this text

# The program at work.
office-faults =
    { $count ->
        [one] one fault in the station file
       *[other] { $count } faults in the station file
    }
office-cancelled = cancelled
office-no-words = a sentence is missing: { $why }
list-no-sheet = it has no sheet
