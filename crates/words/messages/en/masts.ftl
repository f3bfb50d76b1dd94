# Where the mast should stand: the terminal and the page.

masts-not-computed = Where the mast should stand could not be computed: { $why }
masts-no-places = No place to serve is named: name one with --place, or a place in [[brief.wanted]].
masts-too-many = { $count } places are too many for one search: at most 20.
masts-unknown-place = There is no place { $place }: its tag or name in the station file, a place of the ground, or a position such as "46.5 N 8.1 E".
masts-no-frequency = The frequency is not known: give the emission one in the station file, or name it with --frequency.
masts-no-power = The radiated power is not known: the licence names none; give it with --erp.
masts-no-height = The height of the antenna is not known: the station has no antenna on a site; give it with --mast.
masts-head = The best hills for { $places ->
    [one] one place
   *[other] { $places } places
} ({ $people }) with { $erp } ERP from { $height } above ground at { $frequency }, within { $radius } of { $middle }:
masts-searched = { $cells } cells of { $side } on land.
masts-none = No cell of the area serves anybody: more power, a higher mast, or another area.
masts-half-time = The study's share of time is left aside: only at half of the time do both directions lose the same.
masts-people-unknown = People of { $place } are not known: it counts as one.
masts-reaches = reaches { $reached } of { $places } places
masts-working = Looking for hills
masts-cancelled = Stopped: no hill was named.
