"""Input of each kind as it should be, from which chance makes what it should not be."""

MARKINGS = (
    "225/60R17 99H", "P225/60R17 98T", "LT245/75R16 E", "T145/80D17 107M", "31x10.50R15LT C", "195/75R16C 107/105R",
    "255/35ZR19 (96Y) XL", "155R13 78S", "HL245/40R20 102Y XL", "ST205/75D15", "215-60-16", "33X12.50-15LT",
    "225/45RF17 91W RFT M+S 3PMSF", "load range E 265/70R17", "205 55 16",
)  # fmt: skip

ENTRIES = (
    "5/32", "4 mm", "0,16 in", '5/32"', "35 psi", "2.4 bar", "240 kPa", "41200 mi", "66300 km", "1250 kg", "-20 C",
    "68 F", "110 N m", "80 lb ft", "0.5 %", "100 km/h", "1600 m", "50 mm/h", "129.90", "3.5", "12/64", "41,200", "7/2",
)  # fmt: skip

SENTENCES = (
    "Front left is at 5/32nds, that's 4 mm of tread.", "between two and a half and 3 millimetres", "about 35 psi cold",
    "it took 1.234,5 km or 12,000 miles", "minus five degrees", "a 225/60R17 99H, DOT 3618", "four to five 32nds left",
    "$129.90 each, ten thousand miles later", "one hundred and twenty-three point four five", "R17, 4x4, 24/7, 10:30",
    "Is 2/32 legal in the UK? My 2015 car's tires are from week 3618.", "{tread_left.front_left margin both} left",
)  # fmt: skip

COMMENTS = (
    *SENTENCES, "What's the legal minimum? I have 3/32 on the fronts and 6/32 at the rear.",
    "Can I put 235/55R18 instead of 225/60R17 on my van?", "my spare says T135/90D16 and I drove 200 miles, ok?",
    "Tires made 1212, still 7mm. Replace?", "33 psi cold at 20C, what at -10C?", "bulge in the sidewall, safe?",
    "How many miles do I have left if I lost 3/32 in 15,000 miles", "=HYPERLINK(1) call me on 555 0100 or a@b.example",
    "¿Cuánto dibujo queda con 2,5 mm?", "Wieviel mm sind 5/32?", "AWD, one new tire: 4/32 apart. Shave it?",
)  # fmt: skip

_HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 100 50">'
LOGOS = (
    '<!DOCTYPE svg [<!ENTITY a "b"><!ENTITY c "&a;&a;&a;">]>' + _HEAD + "<desc>&c;</desc></svg>",
    *(f"{_HEAD}{inside}</svg>" for inside in (
        '<path d="M10 10 L40 10 40 40 Z m5 5 c1 2 3 4 5 6 s1 1 2 2 q1 1 2 2 t3 3 a5 5 30 1 0 9 9" fill="#D02020"/>',
        '<g transform="translate(3 4) rotate(10) scale(2,.5) matrix(1 0 0 1 2 3)" style="fill:red;stroke:#123">'
        '<rect x="1" y="2" width="30" height="10" rx="3"/><circle cx="20" cy="20" r="9" stroke-dasharray="3 1"/></g>',
        '<defs><linearGradient id="a"><stop offset="0" stop-color="red"/></linearGradient></defs><use href="#a"/>',
        '<polygon points="1,2 3,4 5 6" fill-rule="evenodd" opacity=".5"/><line x1="1" y2="30" stroke="blue"/>',
        "<title>Ours</title><ellipse cx='5e1' cy='25' rx='1e2%' ry='3mm'/><script>alert(1)</script>",
        '<image href="file:///etc/passwd" width="10"/><a xlink:href="http://x.example"><path d="M0 0h9v9z"/></a>',
    )),
)  # fmt: skip

READINGS = (
    "date,place,unit,outer 1,center 1,inner 1,pressure\n2026-11-01,front left,32nds,5,6,6,35 psi\n"
    "2026-11-01,front right,32nds,5,6,5,\n",
    "date;tire;groove;station;depth\n2026-11-01;tire_e;outer;1;4,5 mm\n2026-11-01;tire_e;inner;1;4,0 mm\n",
    "date\tplace\tpressure\n2026-11-01\trear left\t240 kPa\n",
)  # fmt: skip

TABLES = (
    "comment,author,published_at\nIs 3/32 ok?,somebody,2026-11-01T10:00:00Z\n\"Two\nlines, \"\"quoted\"\"\",x,\n",
    "date;text\n01.11.2026;Wieviel mm?\n", "How old is 3618?\nAnd 0112?\n", "id|message\n1|<b>bold</b> &amp; more\n",
)  # fmt: skip
