package catalog

const goodJob = `include = ["own.toml"]

[job]
title = "a jukebox"
shop = "shop.toml"
currency = "EUR"
target = "show"
keep = "40.00"
budget = "3500.00"
budget_on = "expected"
within_days = 120
start = 2027-01-10
completion = 0.9
rescue_days = 20

[target]
mean = "show"

[slot.rim-left]
name = "left rim"
part = "rim"
area = "3.2 dm2"
weight = 3
max_breakage = 0.05
keep = "15.00"
rescue = "600.00"

[slot.rim-right]
part = "rim"
area = "50 in2"
target = "nice"
fresh = true

[slot.badge]
quantity = 2

[match.rims]
slots = ["rim-left", "rim-right"]
grade_within = 5
tone_within = 2.0
same_plater = true

[piece.a]
fits = ["rim-left"]
kind = "original"
metal = "pot metal"
value = "40.00"
off = true
grade = "nice"
tone = "yellow"
photos = ["a.jpg"]
[piece.a.finding.one]
defect = "blisters"
severity = "severe"
extent = 0.6
where = "back"
[piece.a.finding.two]
defect = "dent"
count = 3
[piece.a.fit.rim-right]
hours = 1.5
breakage = 0.05
cap = 85
[piece.a.quote.q]
plater = "north"
cost = "240.00"
firm = "after strip"
refused = 0.02
low = "200.00"
high = "300.00"
date = 2026-11-02

[piece.lead]
fits = ["badge"]
kind = "old-stock"
owner = "vera"
metal = "unknown"
price = "20.00"
quantity = 2
chance = 0.5
days = 14

[piece.lot]
fits = ["rim"]
kind = "reproduction"
tried = true
metal = "steel"
bundle = "box"

[trade.t]
give = "a"
get = "shop:a"
credit = "30.00"

[lock.first]
slot = "rim-left"
piece = "job:a"
reason = "owner's wish"

[ban.b]
work = "as-is"
slot = "rim-right"
`

const goodShop = `include = ["learned.toml"]

[shop]
hourly = "55.00"
works = ["straighten"]
rescue = "500.00"
misfit = 0.1

[plater.north]
minimum = "100.00"
freight = "12.00"
days = 30
least_per_piece = "25.00"
strip_fee = "15.00"
refuses = ["casting rot"]
[plater.north.level.show]
rate = { steel = "20.00", other = "30.00" }
grade = 92
tone = "neutral"

[maker.mia]
hourly = "40.00"
works = ["new post", "remove post"]
days = 5

[vendor.vera]
freight = "9.00"
days = 7

[bundle.box]
vendor = "vera"
price = "80.00"

[piece.a]
fits = ["rim"]
kind = "original"
metal = "steel"
price = "10.00"

[piece.elsewhere]
fits = ["bumper"]
kind = "original"
metal = "steel"

[metal.steel]
base = 0.004
[metal."white metal"]
[defect.blisters.light]
points = 20
[defect.blisters]
refused = { steel = 0.5 }
[defect.ghost]
describe = "seen by one"
[work.straighten]
breakage = 0.07
[grade]
lovely = 88
[tone.green]
value = -3
`
