"""The wordings by which each myth of the table is recognised (custom of speech, no source).

Three things go with them: words without which a sentence cannot state the myth, words that make it right after all, and
words that it needs to be advice at all.
"""

import re
from collections.abc import Mapping

_TWO = r"(?:2/32|(?:two|2)[ -](?:thirty[ -]?seconds?|32nds?))"
_TEN = r"(?:10|ten)\s?(?:degrees|°|º|f\b)"
_SAME = r"(?:same|identical|equal|exactly|equals)"
_TIRE = r"(?:tires?|tyres?)"
PATTERNS: dict[str, tuple[str, ...]] = {
    "width": (
        r"(?:\b\d{3}\b|first (?:number|figure|three digits)|two[ -](?:hundred|twenty|thirty|forty|fifteen|oh)[a-z -]*)"
        r".{0,60}(?:tread(?:'s|’s)? width|width of (?:the|its|your) tread|how wide (?:the|its|your) tread|wide tread)",
        r"tread (?:is|width is|width of|measures).{0,20}\b(?:1[4-9]|2\d|3[0-4])\d\s?(?:mm|millim\w+)",
        r"tread (?:(?:that|which) is |of )?(?:1[4-9]|2\d|3[0-4])\d\s?(?:mm|millim\w+)(?: wide| in width|\b)",
        r"(?:tread width|width of the tread).{0,40}\b\d{3}\b",
    ),
    "r_speed": (
        r"\b(?-i:R)\b[\"”'’]?\??\s*(?:that |it |in \S+ )?(?:means|stands for|is for|is|says|tells you|gives|shows|=)\s+"
        r"(?:it (?:is|has) )?(?:the |its |a |your )?(?:\w+ )?(?:speed|rim|radius|rating|maximum speed)",
        r"(?:speed (?:rating|symbol)|rim).{0,30}(?:is|by|from) (?:the )?(?:letter )?[\"“]?(?-i:R)\b(?! ?\d)",
    ),
    "federal_limit": (
        rf"(?:federal|national|nationwide|countrywide).{{0,60}}(?:limit|law|minimum|require|legal|rule).{{0,60}}{_TWO}",
        rf"{_TWO}.{{0,60}}(?:federal|national|nationwide|countrywide) (?:legal |tread |driving )*(?:limit|law|"
        rf"minimum|rule|"
        r"requirement)",
        rf"(?:congress|capitol|nhtsa|dot)\b.{{0,40}}(?:set|require|fine|limit).{{0,40}}{_TWO}",
    ),
    "same_number": (
        rf"1[.,]6\s?(?:mm|millim\w+).{{0,60}}{_TWO}.{{0,50}}\b{_SAME}\b|\b{_SAME}\b.{{0,60}}1[.,]6.{{0,60}}{_TWO}"
        rf"|{_TWO}.{{0,60}}1[.,]6.{{0,50}}\b{_SAME}\b|{_TWO}.{{0,25}}\b{_SAME}\b.{{0,25}}1[.,]6"
        rf"|\b{_SAME}\b.{{0,40}}{_TWO}.{{0,40}}1[.,]6|1[.,]6.{{0,40}}\b{_SAME}\b.{{0,40}}{_TWO}",
    ),
    "bars_exact": (
        r"(?:bars?|indicators?).{0,60}(?:exactly|precisely|dead on|to the tenth).{0,30}(?:1[.,]6|one point six)",
        r"(?:exactly|precisely).{0,20}(?:1[.,]6|one point six).{0,60}(?:bars?|indicators?)",
    ),
    "same_size": (
        r"same (?:size|marking|code).{0,80}(?:same|identical|equal) (?:\w+ )?(?:circumference|diameter|height|roll)",
        r"same (?:size|marking|code).{0,60}(?:roll|turn|measure)\w* (?:exactly )?(?:the same|alike|equally)",
        r"same (?:circumference|diameter).{0,60}same size",
        r"(?:\d{3}/\d{2} ?Z?R ?\d{2}|same (?:size|marking|code)).{0,60}\b(?:roll|cover|travel|go)\w* (?:exactly )?the "
        r"same (?:distance|way|length)",
        r"(?:\d{3}/\d{2} ?Z?R ?\d{2}|\bsize (?:is|are) the same).{0,60}(?:same|identical|equal) (?:\w+ )?"
        r"(?:circumference|diameter|height)",
        r"\bsizes? (?:is|are) (?:the same|equal|identical).{0,60}(?:circumference|diameter|height).{0,30}\b(?:same|"
        r"equal|identical)",
    ),
    "sidewall_pressure": (
        r"(?:fill|inflate|pump|set|go by|go with|use|air).{0,60}(?:(?:number|figure|pressure|psi|value|max\w*|what\S*)"
        r".{0,40})?\b(?:on|from|off|in|into|onto) (?:the|your|its|their|each) (?:tire(?:'s|’s)? |"
       r"tyre(?:'s|’s)? )?side ?walls?",
        r"side ?wall.{0,30}\b(?:fill|inflate|pump|go by)\b",
        r"(?:right|correct|proper|recommended|best) (?:tire |tyre )?pressure.{0,40}\bside ?wall",
        r"side ?wall.{0,40}(?:tells you|says|gives|shows|has).{0,30}(?:how much (?:air|pressure)|what pressure|the "
        r"right pressure|the pressure to)",
    ),
    "xl_capacity": (
        r"(?:\bXL\b|extra[- ]load|reinforced).{0,80}(?:carr|hold|load|bear)\w*.{0,40}more.{0,60}"
        r"(?:same|old|usual|normal|standard|regular|placard|unchanged) (?:\w+ )?(?:pressure|air|psi)",
        r"(?:same|old|usual|normal|standard|regular|placard|unchanged) (?:\w+ )?(?:pressure|air|psi).{0,60}(?:\bXL\b|"
        r"extra[- ]load|reinforced).{0,60}more",
        r"(?:\bXL\b|extra[- ]load|reinforced).{0,60}more.{0,40}without (?:more|extra|any more) (?:air|pressure)",
        r"(?:\bXL\b|extra[- ]load|reinforced).{0,40}(?:same|old|usual|normal|standard|regular|placard|unchanged) "
        r"(?:\w+ )?(?:pressure|air|psi).{0,40}(?:carr|hold|load|bear)\w*.{0,30}more",
    ),
    "pressure_proportion": (
        r"pressure.{0,60}(?:in proportion|proportional\w*|in step|percent for percent|linear\w*).{0,40}temperature",
        r"temperature.{0,60}pressure.{0,30}(?:in proportion|proportional|in step|percent for percent|linear)",
        r"temperature.{0,60}(?:halve|doubl)\w*.{0,60}pressure|(?:half|twice|double) the (?:temperature|degrees).{0,60}"
        r"pressure",
    ),
    "one_psi_rule": (
        rf"(?:1|one)\s(?:psi|pounds?)\b.{{0,40}}(?:per|for|every|each|with|a)\b.{{0,20}}{_TEN}",
        rf"(?:^|every|each|per|for)\s*{_TEN}.{{0,60}}(?:1|one|a)\s(?:psi|pound)\b",
    ),
    "nitrogen": (
        r"nitrogen.{0,60}(?P<own>does not|doesn['’]?t|will not|won['’]?t|never|is not|isn['’]?t|no|without|"
        r"not)\b.{0,30}(?:change|expand|drop|los|affected|care|swing|vary|temperature|shrink|react|rise|fall|"
        r"bother|matter|influence|touch)",
        r"nitrogen.{0,60}(?:stays?|keeps?|holds?|remains?).{0,30}(?:same|constant|steady|stable|unchanged)",
        r"nitrogen.{0,40}(?:immune|unaffected|indifferent)",
    ),
    "tpms_lamp": (
        r"(?:lamp|light|tpms|sensors?|monitor(?:ing)?)\b.{0,60}(?:tells?|says?|shows?|knows?|reminds?|warns?|lets "
        r"you know).{0,30}(?:when|if|as soon as).{0,40}(?:add|top|fill|need|check|pump|low|air)",
        r"(?:lamp|light)\b.{0,20}(?:comes|goes|turns|lights) (?:on|up).{0,30}(?:time to|need to|have to|you should) "
        r"(?:add|top|fill|check|pump)",
        r"(?:wait|watch) for the (?:\w+ )?(?:lamp|light)|(?:as long as|until|unless|if) the (?:\w+ )?(?:lamp|light) "
        r"(?:is|stays|remains) (?:off|dark|out).{0,60}(?:fine|ok|okay|good|right|correct|enough|worry)",
        r"(?:no|without a) (?:warning )?(?:lamp|light).{0,30}(?:means|so).{0,30}(?:fine|ok|okay|good|right|enough)",
    ),
    "dot_approved": (
        r"\bDOT[- ]?(?:approved|approval|certified|tested)|approved by (?:the )?(?:DOT|department of transportation|"
        r"government|nhtsa)|\b(?:DOT|nhtsa|government) (?:has )?(?:approve|tested and approve)\w*",
    ),
    "e_number": (
        r"\bE[- ]?(?:\d{1,2}|number|mark|code)\b.{0,80}(?:made in|was made|is made|manufactur|built|produced|"
        r"country of origin|comes from|came from)",
        r"(?:made|manufactured|built|produced|comes? from|origin).{0,60}\bE[- ]?(?:number|mark)\b",
        r"\b(?-i:E)\b.{0,40}\bnumber\b.{0,30}(?:tells|says|shows|names|is) (?:you )?(?:where|which country|the country)"
        r".{0,40}(?:made|manufactured|built|produced|comes? from)",
        r"\b(?-i:E)\b.{0,60}\bcountry\b.{0,40}(?:made|manufactured|built|produced|comes? from)",
    ),
    "six_years": (
        r"(?:nhtsa|agency|government|federal|capitol|\bDOT\b|the law|us law|legally|legal).{0,80}"
        r"(?:replac|throw|expire|illegal|change|limit|off the road|scrap|old|bin|finish|done|over|due)\w*.{0,40}"
        r"\b(?:6|six)\b[- ]?years?",
        r"\b(?:6|six)[- ]years?\b.{0,60}(?:by law|is the law|legal limit|federal|illegal|agency (?:says|rule|limit))",
        r"(?:nhtsa|agency|government|federal|us law|the law).{0,60}\b(?:6|six)[- ]years?.{0,40}(?:replac|rule|limit)",
    ),
    "iso_week": (
        r"(?:date code|code|week \w+).{0,60}(?:is|means|matches|equals|counts).{0,30}(?:calendar(?:'s|’s)? week|iso "
        r"week|week (?:in|of|on) (?:the|your|my) calendar|week \w+ of the calendar)",
        r"week \w+.{0,30}(?:same as|equals?|exactly) (?:the )?"
       r"week \w+ (?:in|of|on) (?:the|your|my|a) (?:calendar|year)",
        r"(?:calendar|iso) week.{0,60}(?:same|is|matches|equals).{0,30}(?:date code|tire)",
    ),
    "treadwear_miles": (
        r"tread ?wear.{0,70}(?:means|is|are|equals|gives|good for|lasts?|will (?:go|last|run)|stands for|=|promises|"
        r"tells|comes to|translates).{0,50}(?:miles|mileage|kilomet|km\b)",
        r"(?:miles|kilomet\w+|km)\b.{0,40}(?:from|by|because of|with) (?:a |the )?tread ?wear",
        r"multiply.{0,30}tread ?wear.{0,60}(?:miles|kilomet|km)",
    ),
    "traction_aa": (
        r"(?:traction )?(?-i:\bAA\b).{0,70}(?:safe|best|grip|good|great|secure|trust|perfect|fine|confident).{0,40}"
        r"(?:rain|wet|aquaplan|hydroplan|puddle|water)",
        r"(?:rain|wet|aquaplan|hydroplan)\w*.{0,40}(?:safe|fine|covered|sorted|good).{0,40}(?-i:\bAA\b)",
        r"traction (?:grade )?(?-i:AA).{0,40}(?:rain|wet)[- ]?(?:safe|proof)",
    ),
    "mud_and_snow": (
        r"\bM ?(?:\+|&|and) ?S\b.{0,80}(?:winter[- ](?:test|tire|tyre|rated|proof|approved|ready)|tested|proven|"
        r"snow[- ]test|passed|proves|winter use)",
        r"mud[- ]and[- ]snow.{0,60}(?:tested|proves|proven|winter tire|winter tyre|passed|winter test)",
    ),
    "nasa_safe": (
        r"(?:nasa|space agency|formula|root of the pressure|10\.35|10\.3)\b.{0,100}(?:safe|how fast you (?:can|may)|"
        r"without risk).{0,40}",
    ),
    "two_limits": (
        rf"{_TWO}.{{0,90}}(?:1/4|quarter|0?\.25).{{0,60}}\b(?:same|equal|identical|amount\w* to|comes? to|means?)\b",
        rf"(?:1/4|quarter|0?\.25).{{0,50}}(?:circumference|around).{{0,40}}\b(?:same|equal|identical|"
        rf"means?|comes? to)\b.{{0,30}}{_TWO}",
        rf"\b(?:same|equal|identical)\b.{{0,60}}{_TWO}.{{0,60}}(?:1/4|quarter|0?\.25).{{0,40}}(?:circumference|around)",
    ),
    "new_on_drive": (
        rf"(?:new|newer|better|best|deeper|fresh)(?:er|est)? (?:\w+ )?(?:{_TIRE}|pair|ones|tread|rubber|set).{{0,60}}"
        r"\b(?:on|to|at|in|onto)\b (?:the |your )?(?:drive|driven|driving|powered|front)\b(?: (?:axle|wheels?|end))?",
        r"(?:buy|bought|fit|have|get|just|only) (?:only |just )?(?:two|a pair)\b.{0,60}\b(?:on|to) the (?:drive|driven|"
        r"driving|powered|front)\b",
        rf"(?:drive|driven|driving|front) (?:axle|wheels?).{{0,40}}(?:gets?|needs?|deserves?|takes?|wants?) (?:the "
        rf")?(?:new|better|deeper|best|fresh)(?:er)? (?:{_TIRE}|pair|ones|tread|rubber)",
    ),
    "any_crossover": (
        rf"(?:passenger|p-metric|car)[- ](?:car )?(?:{_TIRE}|rating|load).{{0,80}}(?:any|every|all|full|same|"
        rf"unchanged|whatever)"
        r".{0,50}(?:crossovers?|suvs?|vans?|minivans?|mpvs?|trucks?)",
        rf"(?:crossovers?|suvs?|minivans?|mpvs?).{{0,60}}(?:full|whole|same) (?:load|rating|"
        rf"printed).{{0,60}}(?:passenger|p-metric|car {_TIRE})",
    ),
}  # fmt: skip
TELLS: dict[str, tuple[str, ...]] = {  # a sentence without one of these words cannot state the myth
    "width": ("tread",), "r_speed": ("speed", "rim", "radius"), "federal_limit": ("2/32", "two", "32nd"),
    "same_number": ("1.6", "1,6"), "bars_exact": ("bar", "indicator"), "same_size": ("same",),
    "sidewall_pressure": ("wall",), "xl_capacity": ("more",), "pressure_proportion": ("temperature",),
    "one_psi_rule": ("10", "ten"),
    "nitrogen": ("nitrogen",), "tpms_lamp": ("lamp", "light", "tpms", "sensor", "monitor"),
    "dot_approved": ("approv", "certif", "tested"),
    "e_number": ("made", "manufact", "built", "produced", "origin", "from"),
    "six_years": ("year",), "iso_week": ("week",), "treadwear_miles": ("tread",), "traction_aa": ("aa",),
    "mud_and_snow": ("s",), "nasa_safe": ("safe", "how fast", "without"), "two_limits": ("quarter", "1/4", ".25"),
    "new_on_drive": ("new", "better", "best", "deeper", "fresh", "two", "pair"),
    "any_crossover": ("passenger", "p-metric", "car"),
}  # fmt: skip
COMPILED: Mapping[str, tuple[re.Pattern[str], ...]] = {
    id_: tuple(re.compile(wording, re.IGNORECASE | re.DOTALL) for wording in wordings)
    for id_, wordings in PATTERNS.items()
}
UNLESS: Mapping[str, re.Pattern[str]] = {  # what makes the sentence right after all
    "new_on_drive": re.compile(r"\b(?:rear|back)\b", re.IGNORECASE),
    "pressure_proportion": re.compile(r"\babsolute\b", re.IGNORECASE),
}
ONLY_IF: Mapping[str, re.Pattern[str]] = {  # advice, not a report of where something is
    "new_on_drive": re.compile(r"\b(?:go|goes|belongs?|put|mount|fit|always|should|must|best|gets?|needs?|deserves?|"
                               r"takes?|wants?)\b", re.IGNORECASE),
}  # fmt: skip
