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
