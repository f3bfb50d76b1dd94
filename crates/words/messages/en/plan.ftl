# What `plan` and `new` say.

plan-head = { $holds ->
    [yes] The cheapest design that keeps licence and wishes: { $capital } to build, { $over } over { $years } with running costs.
    [part] The cheapest design that keeps the licence and every wish that can be kept: { $capital } to build, { $over } over { $years } with running costs.
   *[no] No design keeps everything. The one that comes nearest: { $capital } to build, { $over } over { $years } with running costs.
}
plan-air = Transmitter { $transmitter } at { $power }, { $length } of { $feeder }, { $bays ->
    [one] one bay
   *[other] { $bays } bays
} of { $element } at { $height }: { $loss } of line loss, { $erp }.
plan-link = Programme from the studio: { $way }.
plan-link-short = No way of the programme on the shelf is clear and works as long as is asked; this one comes nearest.
plan-way = { $equipment } over { $over }{ $dish ->
    [yes] {", two of "}{ $dishes }
   *[no] {""}
}
plan-over = { $way ->
    [radio] radio
    [same-building] same building
    [internet] internet
    [fibre] fibre
   *[mobile-data] mobile data
}
plan-no-air = The way into the air could not be computed.
plan-looked = { $designs } designs, { $possible } that could reach the licensed power, { $evaluated } assessed in full. Size of station: { $tier }.
plan-wish = Wish { $tag }{ $where }: { $kept ->
    [yes] kept, { $margin } in hand
    [area] kept
   *[no] not kept, { $margin } in hand
}.
plan-wish-no-figure = Wish { $tag }{ $where }: { $kept ->
    [yes] kept
   *[no] not kept
}.
plan-wish-area = Wish { $tag }{ $where }: { $kept ->
    [yes] kept
   *[no] not kept
}, { $share } of the people within { $radius } served, { $wanted } wanted.
plan-impossible-offer = Wish { $tag } is missed by every antenna on offer at every height that mast and licence allow, by { $short } at least: part of the power goes elsewhere than to the place. A pattern that looks down to it, a little more power, or a smaller wish would keep it.
plan-impossible-area = Wish { $tag } is missed by every antenna on offer at every height that mast and licence allow. It takes more power, a higher or nearer site, or a smaller wish.
plan-impossible = Wish { $tag } cannot be kept within this licence: with all its power straight at the place the field stays { $short } short. It takes that much more power, a higher or nearer site, or a smaller wish.
plan-obstacle = The ground stands { $above } above the ray, { $distance } from the antenna.
plan-budget-kept = Budget { $budget }: { $left } in hand.
plan-budget-short = Budget { $budget }: { $missing } is missing.
plan-now = For the money there is now: { $erp } on the air with { $things }; { $price }, { $left } left.
plan-now-air = The way into the air is then { $transmitter }, { $feeder }, { $bays ->
    [one] one bay
   *[other] { $bays } bays
}: less than the licence allows.
plan-now-thing = { $count ->
    [one] { $name }
   *[other] { $count } × { $name }
}
plan-now-reserve = a second { $name } with its change-over
plan-now-breaks = What the whole design keeps and this one does not:
plan-now-none = It buys no way into the air that may be used: the least costs { $least } before any studio. More money, things lent or second-hand, or a smaller licence would unlock it.
plan-now-must = What law, safety or the supply forbid to leave out is in that: { $things }.
plan-now-must-thing = { $thing } ({ $price })
plan-next = What the next money buys, most needed first:
plan-next-step = { $thing }: +{ $price }, { $total } in all
plan-left-open = { $tag } is not planned: one plan answers the first emission. Give it its antenna and transmitter in the file, or a file of its own.
plan-blocked = In the way: { $why }
plan-under = The transmitter gives { $under } less than the licence allows.
plan-beside = Beside it, one step less and one step more:
plan-neighbour = { $axis ->
    [transmitter] Transmitter
    [feeder] Feeder
    [bays] Bays
    [link] Programme by
   *[height] Height
} { $what }: { $price } to build, { $erp }{ $margin }{ $people }. { $why }
plan-neighbour-margin = {", least room at a wish "}{ $margin }
plan-neighbour-people = {", people in stereo "}{ $people }
plan-why-link = The programme does not arrive as long as is asked.
plan-why-holds = It would do.
plan-why-blocked = Not possible: { $why }
plan-why-under = { $under } under the licence.
plan-why-unmet = It misses { $wishes }.
plan-at-height = at { $height }
plan-bays-of = { $bays } of { $element }
plan-assumptions = Taken to be so, what matters most first:
plan-assumption = { $path } = { $value }{ $db }{ $money }: { $why }.
plan-assumption-db = , worth { $db } at a wish
plan-assumption-money = , worth { $money } over the years
plan-presumed = The brief left these open; the answer is provisional until they are known:
plan-presumed-line = { $path }
plan-questions = Questions that matter most:
plan-q-licence = 1. Is there a licence or an offer of a frequency, and for what power and height?
plan-q-places = 2. Which places must hear it, and do they listen on a roof aerial, in the car or indoors?
plan-q-site = 3. Where could the antenna stand: whose roof, hill or mast, how high, with mains?
plan-q-seats = 4. How many people talk at once, with how many callers, and who installs it?
plan-q-money = 5. How much money is there at once, and how much each year?
plan-written = { $count ->
    [one] One change written to { $file }.
   *[other] { $count } changes written to { $file }.
}
plan-not-written = Nothing is written; --write puts the design into { $file }.

new-made = A brief to fill in: { $file }. Then: stationwright plan { $folder }
