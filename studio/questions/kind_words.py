"""Words that tell what a viewer asks: patterns with the kind they speak for, how much, and why."""

import re
from typing import Literal

import msgspec

QuestionKind = Literal[
    "tread_left", "matching", "size_swap", "spare", "age", "pressure", "rotation", "life", "hydroplaning", "repair",
    "condition", "code", "convert", "none",
]  # fmt: skip
KINDS: tuple[QuestionKind, ...] = (
    "condition", "repair", "pressure", "spare", "size_swap", "hydroplaning", "rotation", "life", "matching", "age",
    "convert", "tread_left", "code",
)  # fmt: skip
"""In the order in which they win where they score alike: what can hurt first."""


class Clue(msgspec.Struct, frozen=True):
    """A pattern, the kind it speaks for, its weight, and why in a few words."""

    kind: QuestionKind
    weight: float
    why: str
    pattern: re.Pattern[str]


def _clues(*rows: tuple[QuestionKind, float, str, str]) -> tuple[Clue, ...]:
    return tuple(Clue(kind, weight, why, re.compile(pattern)) for kind, weight, why, pattern in rows)


CLUES = _clues(
    ("hydroplaning", 6, "asks about floating on water", r"\bhydro ?-?pla\w+|\baqua ?-?pla\w+|\baquaplan\w+"
                                                        r"|\baquaplaning|\bfloat\w* on (?:the )?water|\baquaplanage"
                                                        r"|\baquaplaneo"),
    ("hydroplaning", 6, "at what speed it floats", r"\bfloat\w*\b[^.?!]{0,30}\b(?:speed|mph|fast|psi|water|bar"
                                                   r"|rain)|\b(?:speed|fast|water|rain)\b[^.?!]{0,40}\bfloat"),
    ("hydroplaning", 6, "its formula", r"\broot of (?:the )?(?:psi|pressure)|\b10\.35\b"),
    ("hydroplaning", 6, "standing water", r"\bstanding water|\bpuddles?\b|\bdeep water"),
    ("rotation", 5, "rotating the tires", r"\b(?:tire |tyre )?rotat(?:e|ed|es|ing|ion pattern|ions?)\b(?! (?:arrow"
                                          r"|direction\b|mark))|\brotation(?: pattern| interval)?\b(?! (?:arrow"
                                          r"|direction\b|mark))|\breifen tauschen|\bräder tauschen|\bpermut\w+"
                                          r"|\brotaci[oó]n\b|\brotar\b|\binvertire le gomme"),
    ("rotation", 5, "moving tires about", r"\b(?:cross|x)[ -]?(?:pattern|rotat\w+|them)|\b(?:mov(?:e|ed)"
                                          r"|swap(?:ped)?|switch(?:ed)?"
                                          r"|put|swapping|moving)(?:ing)? (?:\w+ ){0,3}(?:fronts?|rears?"
                                          r"|backs?)(?: tires| tyres| ones)? (?:to|with|and|for|on) (?:the "
                                          r"|my )?(?:fronts?|rears?|backs?)\b"
                                          r"|\bvon vorne nach hinten"),
    ("rotation", 5, "swapping round", r"\bswap(?:ping)? (?:(?:them|em|these|the tires|the tyres|tires"
                                      r"|tyres) )?(?:round|around|over|about)\b|\bswitch (?:them|em) (?:round"
                                      r"|around)\b"),
    ("rotation", 5, "corner to corner", r"\b(?:[lr][fr]|f[lr]|(?:left|right) (?:front|rear)|(?:front|rear) (?:left"
                                        r"|right)) ?(?:to|->|with) ?"
                                       r"(?:the )?(?:[lr][fr]|f[lr]|(?:left|right) (?:front|rear)|(?:front"
                                       r"|rear) (?:left|right))\b"),
    ("rotation", 4, "in which order", r"\b(?:what|which|best|right) (?:order|pattern)\b"),
    ("rotation", 5, "five wheels", r"\b(?:5|five)[ -](?:tires?|tyres?|wheels?)\b(?=[^.?!]{0,60}\b(?:rotat\w+|spare"
                                   r"|order|pattern|includ\w+))"),
    ("rotation", 4, "from end to end", r"\bfront[ -]to[ -](?:back|rear)\b(?! (?:diff|apart))|\b(?:back"
                                       r"|rear)[ -]to[ -]front\b|\bcross(?:ed|ing)?\b(?! section|over)"),
    ("rotation", 4, "a tire of one direction", r"\b(?:directional|staggered|asym\w+)\b[^.?!]{0,60}\b(?:cross|swap"
                                               r"|switch|move|other side|rotat\w+|left to right|side to side"
                                               r"|remount\w*)"),
    ("life", 4, "how far they will go", r"\bhow (?:many|much|long|far)\b[^.?!]{0,30}?\b(?:more )?(?:miles?|km"
                                        r"|kilomet\w+|longer|life|last|left in|tread life|distance"
                                        r"|can i (?:still )?(?:go|drive on (?:them|these)))\b|\b(?:miles?|km"
                                        r"|kilomet\w+|life|months?) (?:left|remaining|to go)\b"),
    ("life", 4, "how many are left", r"\bhow (?:many|much) (?:more )?(?:left|to go|remain\w*)\b"),
    ("life", 4, "whether they last", r"\b(?:will|would|can|could|gonna|going to|should) (?:[\w/'.]+ ){1,4}(?:last"
                                     r"|make it|survive"
                                    r"|hold out|do another|be enough for)\b|\b(?:make it|last) (?:until|till|to"
                                    r"|through|another)\b"
                                    r"|\bgoing to make it\b"),
    ("life", 4, "how many seasons", r"\bhow many (?:more )?(?:winters?|seasons?|months|summers|years (?:left|will"
                                    r"|more|do i))\b"
                                    r"|\bprojected (?:life|miles|mileage)"),
    ("life", 4, "a promise of miles", r"[0-9] ?(?:k|000|miles?|mi|km)\b[^.?!]{0,20}\bwarranty\b|\bwarranty claim"
                                      r"|\brated (?:for )?[0-9]{2,3}[ ,]?(?:k|000)"),
    ("life", 3.5, "how fast they wear", r"\bwear(?:ing)? (?:rate|out (?:fast|quick|early|too)|too fast|fast|quick)"
                                        r"|\bhow fast\b[^.?!]{0,20}\bwear|\bwill (?:they|these|it|my tires"
                                        r"|this set) (?:last|make it)|\bget (?:another|me)\b[^.?!]{0,20}(?:miles|km"
                                        r"|year|winter|season)|\bhow long (?:will|do|before|until|till)\b"
                                        r"|\bwie (?:lange|weit|viele km)|\bcombien de (?:km|kilom)"
                                        r"|\bcu[aá]nto(?:s km)? (?:me )?(?:duran|quedan)|\bquanti km"),
    ("matching", 4, "replacing some and not all", r"\b(?:buy|need|replace|get) (?:all )?(?:4|four)\b(?! (?:ply"
                                                  r"|season|x|mm|wheel|psi))|\b(?:replac\w*|buy\w*|chang\w*"
                                                  r"|put(?:ting)?(?: on)?"
                                                  r"|get(?:ting)?|need|new|do|install\w*)\b[^.?!]{0,22}?\b(?:just "
                                                  r"|only )?(?:one|1|two|2|a pair|a single|single|all (?:four|4)"
                                                  r"|the other (?:three|3|two|2|one)|both|the pair|4 tires"
                                                  r"|four tires|3 tires)\b(?! (?:of|day|month|year|hour|week|more"
                                                  r"|thing|question))(?: (?:tires?|tyres?|new|only|of them))?"),
    ("matching", 4, "how many to buy", r"\b(?:4|vier|alle vier|zwei|nur zwei|nur einen) neue\b|\balle vier\b"
                                       r"|\bles quatre\b|\blos cuatro\b|\btutte e quattro"),
    ("matching", 5, "only one axle", r"\b(?:only|just) the (?:fronts?|rears?|backs?)\b|\b(?:fronts?|rears?) only\b"
                                     r"|\bnew ones? (?:should )?go\b|\bgap\b"),
    ("matching", 4, "unlike tires together", r"\bdifferent (?:\w+ )?(?:brands?|makes?|models?|(?:tread )?patterns?"
                                             r"|treads)\b"
                                             r"|\b(?:same|share an|on one|one) axle\b|\bsame (?:brand|make|model)\b"
                                             r"|\b(?:two|2|one|1|a pair)\b[^.?!]{0,30}\b(?:front|back"
                                             r"|rear) or (?:the |on the )?"
                                             r"(?:front|back|rear)\b"),
    ("matching", 5, "put beside another", r"\bpair(?:ed|ing)? (?:it |them )?(?:up )?with\b"),
    ("matching", 4, "how far round", r"\bcircumference"),
    ("matching", 5, "which go to the front", r"\bwhich (?:\w+ )?(?:should|do|must|ones?|pair)\b[^.?!]{0,15}\b(?:at"
                                             r"|on|in|to) (?:the )?"
                                            r"(?:front|rear|back)\b"),
    ("matching", 4, "mixing", r"\bmix(?:ing|ed)?\b(?! of (?:road|weather))|\bmischen|\bm[ée]langer|\bmezclar"
                              r"|\bmischiare"),
    ("matching", 5, "in pairs", r"\bin pairs\b|\bas a pair\b|\bpairs only\b|\bpaarweise|\bpar paire"),
    ("matching", 3, "one tire or a pair", r"\b(?:just|only) (?:one|1|two|2|the one)\b(?! groove| side| edge| spot"
                                          r"| place)|\bsingle (?:tire|tyre)"
                                          r"|\bone (?:new )?(?:tire|tyre)\b|\b(?:two|2) new\b|\bone new\b|\bin pairs\b"
                                          r"|\bas a pair\b|\ball (?:four|4) (?:at once|at the same time|tires"
                                          r"|tyres)|\bnur einen|\bun seul pneu|\bsolo una (?:gomma|llanta)"
                                          r"|\buna sola"),
    ("matching", 4, "tires that should match", r"\bmatch(?:ing|es|ed)?\b|\bmis-?match\w*|\bshav(?:e|ed|ing)\b"
                                               r"|\btire shaver|\bunequal|\bsame tread depth|\bwithin (?:\d|two"
                                               r"|three)[^.?!]{0,12}of each other"),
    ("matching", 3, "a difference between tires", r"\b(?:tread )?(?:depth )?differ(?:ence|ent|s)\b(?! size| brand"
                                                  r"| question)|\buneven(?:ly)?\b|\bone side\b|\bleft (?:and|vs"
                                                  r"|versus|to) (?:the )?right|\bapart\b|\bhow (?:close|far off)"
                                                  r"|\bdiff(?:erential)?\b|\btransfer case|\bcenter diff\w*"
                                                  r"|\bdrivetrain damage|\bhurt (?:the|my) (?:awd|diff\w*|transfer)"
                                                  r"|\bdamage (?:the|my) (?:awd|diff\w*|transfer|drivetrain)"),
    ("size_swap", 4, "another size", r"\binstead of\b|\bin place of\b|\breplace(?:ment)? (?:for|size)"
                                     r"|\b(?:different|other|another|bigger|larger|wider|taller|smaller|narrower"
                                     r"|alternative|optional) (?:tire |tyre |wheel )?(?:sizes?|tires?|tyres?"
                                     r"|wheels?)\b|\bup ?siz\w+|\bdown ?siz\w+|\bplus (?:one|two|1|2|size|sizing)"
                                     r"|\bstatt\b|\bau lieu de|\ben (?:vez|lugar) de|\bal posto di|\binvece d\w+"),
    ("size_swap", 3, "whether it fits", r"\b(?:will|would|can|could|do|does|should)\b[^.?!]{0,40}\b(?:fit|fits|run"
                                        r"|rub|clear|work|put|use|mount|swap|go (?:to|up|down|with)|switch)\b"
                                        r"|\bfit\b|\bpassen\b|\bmonter\b|\bmontare\b|\bmontar\b"
                                        r"|\bgo(?:ing)? (?:from|to|up|down)\b|\bswap(?:ping|ped)?\b|\bswitch(?:ing"
                                        r"|ed)?\b|\bvs\.?\b|\bversus\b"),
    ("size_swap", 4, "a height that stands for a size", r"\b(?:2[89]|3[0-9]|40)(?:'?s|\"|'')(?=[^.?!]{0,40}\b(?:rub"
                                                            r"|fit|clear|truck"
                                                      r"|stock|lift|tires?)\b)"),
    ("size_swap", 4, "wider than", r"\b(?:wider|narrower|taller|bigger|larger|smaller|lower) than\b|\bsize (?:up"
                                   r"|down|wider|bigger"
                                   r"|smaller|larger)\b"),
    ("size_swap", 4, "the speedometer", r"\bspeedo\w*|\btacho\b|\btachometer|\bcompteur\b|\bveloc[ií]metro"
                                        r"|\btachimetro"),
    ("spare", 2, "driving on it", r"\bhow (?:far|fast|long)\b|\bspeed limit|\b50 ?mph|\b80 ?km"),
    ("age", 4, "how old they are", r"\bhow old\b|\btoo old\b|\bexpir\w*|\bshelf life"
                                   r"|\bage(?:d|ing)? (?:limit|of|out|matter\w*)|\bold stock|\bage\b|\bzu alt\b"
                                   r"|\btrop vieux|\bdemasiado viej\w+|\btroppo vecch\w+|\bwie alt\b|\bquel âge"),
    ("age", 2, "an age", r"\b(?:years?|yrs?|yo)[ -]old\b|\bjahre? alt\b"),
    ("age", 3, "whether the age is safe", r"\b(?:years?|yrs?|yo)[ -]old\b[^.?!]{0,40}\b(?:safe|ok|okay|replace|toss"
                                          r"|trust|good|fine|keep)"),
    ("age", 4, "how it ages", r"\bgo(?:es|ing|ne)? bad\b|\bsitting (?:in|for|around)|\b(?:in|from) storage\b"
                              r"|\bunused\b"),
    ("age", 4, "a rule of years", r"\b(?:five|six|seven|ten|[5-9]|10) years?\b[^.?!]{0,25}\b(?:limit|rule|max\w*"
                                  r"|or)\b|\bread the date\b"
                                  r"|\bdate\b[^.?!]{0,25}\b(?:numbers?|digits?)\b"),
    ("age", 4, "where the date stands", r"\bdate\b[^.?!]{0,20}\bon (?:it|them|the t[iy]re|my t[iy]re|these)"
                                        r"|\bwhere\b[^.?!]{0,20}\b(?:date|age|week)\b"),
    ("age", 4, "when it was made", r"\bwhat (?:week|year|month|date)\b|\bwhen (?:was|were"
                                   r"|is)\b[^.?!]{0,25}\b(?:made|built|manufactured|produced)"),
    ("age", 4, "a date code", r"\bdate codes?\b|\bdot (?:code|number|date|stamp)\b|\bbuild date"
                              r"|\bmanufactur\w* date|\bwhen (?:was|were) (?:it|they|these|this|my tires) (?:made"
                              r"|built|manufactured)|\bproduction date|\bborn[ -]on"),
    ("pressure", 4, "pressure and weather", r"\b(?:pressure|psi|bar|kpa|tpms|air|druck|pression"
                                            r"|presi[oó]n)\b[^.?!]{0,70}\b(?:cold|temp\w*|weather|winter|freez\w+"
                                            r"|degrees|overnight|morning|leak\w*|los\w+|drop\w*|warm|hot|heat"
                                            r"|summer|kalt|froid|fr[ií]o|freddo)|\b(?:cold|temp\w*|weather|freez\w+"
                                            r"|leak\w*|winter|hot)\b[^.?!]{0,50}\b(?:pressure|psi|tpms|bar|kpa)\b"),
    ("pressure", 5, "how much air to fill", r"\bhow (?:many|much) (?:bars?|psi|kpa|air"
                                            r"|pressure)\b[^.?!]{0,12}\b(?:should|do|shall|must"
                                           r"|can|to|for)\b(?! (?:the same|equal))|\b(?:lower|raise|increase|reduce"
                                           r"|drop|bump|adjust"
                                           r"|add|bleed)\b[^.?!]{0,20}\b(?:psi|pressures?|air|bar|kpa)\b|\b(?:hot|warm)\b[^.?!]{0,40}"
                                           r"\bcold\b[^.?!]{0,25}[0-9]{2}\b(?! ?(?:f\b|c\b|deg|°))"),
    ("pressure", 4, "which pressure to run", r"\b(?:should|shall|do|can) (?:i|we|you) (?:run|use|fill|inflate|set"
                                             r"|go with|keep|pump|put)\b[^.?!]{0,30}\b(?:psi|bar|kpa|pressure)"
                                             r"|\bmax(?:imum)? (?:tire |tyre )?(?:pressure|psi)"),
    ("pressure", 3, "air in the tire", r"\b(?:psi|kpa|tpms|pressures?|inflat\w+|tire pressure|tyre pressure"
                                       r"|air pressure"
                                       r"|under ?inflat\w*)\b"),
    ("pressure", 4, "the lamp", r"\b(?:warning|low|pressure|tire|tyre|tpms) (?:lamp|light)\b"
                                r"|\blamp\b[^.?!]{0,20}\bon\b"),
    ("pressure", 4, "sidewall or placard", r"\b(?:sidewall|tire|tyre)\b[^.?!]{0,20}\b(?:or|vs"
                                           r"|versus)\b[^.?!]{0,20}\b(?:door|placard"
                                           r"|sticker|manual)|\b(?:door|placard|sticker|manual)\b[^.?!]{0,20}\b(?:or|vs|versus)\b"
                                           r"[^.?!]{0,20}\b(?:sidewall|tire|tyre)\b"),
    ("pressure", 4, "cold against hot", r"\b[2-5][0-9] (?:psi )?cold\b|\bbleed\b(?! (?:my|the) (?:clutch|brakes?"
                                        r"|radiator|coolant))"),
    ("pressure", 5, "losing air", r"\b(?:dropp?(?:ing|s|ed)?|down|goes|going|went|los(?:es|ing"
                                  r"|t)) from [0-9]{2} (?:psi )?(?:down )?to [0-9]{2}\b(?!/)|\b(?:los(?:e|es|ing|t)"
                                  r"|drop(?:s|ped|ping)?|down) (?:about |around )?(?:air"
                                  r"|pressure|[0-9.]+ ?(?:psi|bar|kpa))"),
    ("pressure", 4, "the pressure to fill", r"\b(?:what|which|how much|right|correct|recommended|proper"
                                            r"|best) (?:tire |tyre |cold |air )?(?:pressure|psi|air)\b|\btpms\b"
                                            r"|\bslow leak|\bis (?:it|that|this) (?:a )?leak|\bleak(?:ing)?\b"
                                            r"|\bluftdruck|\bquelle pression|\bqu[eé] presi[oó]n|\bche pressione"
                                            r"|\bhow much (?:psi|pressure|air)\b|\bunder ?inflat\w+|\bover ?inflat\w+"),
    ("repair", 3, "whether it can be saved", r"\b(?:still|be|get it|ever) (?:be )?(?:fix|repair|patch|plug"
                                             r"|sav)(?:ed|able|ing)?\b"
                                             r"|\b(?:drove|driven|driving|ran|rode|rolled)\b[^.?!]{0,25}\b(?:flat|empty)\b"),
    ("repair", 4, "a repair", r"\brepair(?:ed|able|ing|s)?\b|\bfix(?:ed|able|ing)?\b(?! (?:a|the|my) (?:car|speedo"
                              r"|alignment|issue))|\bpatch(?:ed|es|able|ing)?\b|\bplug(?:ged|s|ging)?\b"
                              r"|\breparier\w+|\bgeflickt|\bflicken|\br[ée]par(?:er|able|[ée])|\breparar"
                              r"|\bripara\w+|\bsave (?:it|this tire|the tire)"),
    ("code", 5, "what a marking says", r"\bwhat(?:'s| does| do| is| are)?\b[^.?!]{0,45}\b(?:mean|means|stand for"
                                       r"|say|tell)|\bmeaning of|\bdecode|\bstands? for\b"
                                       r"|\bexplain\b|\bwhat(?:'s|s| is| does) (?:that|this|it|the \w+ in)\b"
                                       r"|\bwas (?:bedeutet|heißt)|\bque (?:signifie|veut dire|significa)"
                                       r"|\bqu[eé] significa|\bcosa significa|\bwhat (?:load|speed) (?:index"
                                       r"|rating)|\b(?:what(?:'s| is) the )?(?:load (?:index|rating|capacity)"
                                       r"|speed (?:rating|symbol|index))\b|\bhow much (?:weight|load)"
                                       r"|\bhow fast (?:can|is|are)[^.?!]{0,25}rated|\bmax(?:imum)? (?:load|speed)"),
    ("code", 3, "whether it is so", r"\b(?:correct|right|true)\?"),
    ("code", 4, "what sort of tire it says", r"\bis (?:it|this|that) (?:a|an) (?:winter|summer|all[ -]season"
                                             r"|run[ -]?flat|truck|snow)\b"
                                             r"|\bletters? ['\"]?[a-z]\b"),
    ("code", 4, "all it says", r"\btell me (?:everything|about|what)|\bbreak(?:down| (?:it|this) down)\b"),
    ("code", 3, "which carries more", r"\bcarr(?:y|ies) (?:more|less|the)\b"),
    ("code", 4, "what a load range is", r"\b(?:load range|ply rating|10[ -]ply|traction|treadwear"
                                        r"|temperature) (?:[a-g]{1,2}\b|[0-9]{3}"
                                       r"|rating|grade)|\butqg\b"),
    ("code", 4, "what it carries", r"\bhow much (?:can|could|does|will|may) (?:\w+ ){1,3}(?:carry|hold|take|bear"
                                   r"|handle)|\bwhat (?:load|weight|speed)\b|\b(?:load|weight) per (?:tire|tyre"
                                   r"|wheel|axle)"
                                   r"|\bcan (?:it|they|one|each|these) (?:carry|hold|take|handle)|\bhow fast (?:can"
                                   r"|may) (?:it|they|these) "),
    ("code", 4, "what a marking means", r"\bmean(?:s|ing|t)?\b|\bstand(?:s)? for|\brefer to|\bsignif\w+|\bbedeut\w+"),
    ("code", 4, "what a number of it says", r"\bwhat(?:'s|s| is"
                                            r"| does) (?:the )?(?:number )?['\"]?[0-9]{2,3}[a-z]?\b(?![/0-9.,]"
                                            r"| ?(?:mm|psi|bar|kpa|lbs?|kgs?|km|mi|miles|degrees|f\b|c\b|become"
                                            r"|turn|read|show|mph))"),
    ("convert", 6, "in the other system", r"[0-9][^.?!]{0,25}\bin (?:metric|imperial|american|us units"
                                          r"|english units|freedom units)\b"),
    ("convert", 5, "the same in other units", r"\bsame (?:as|thing as)\b|\bequivalent"),
    ("convert", 5, "a conversion", r"\bconver(?:t|ted|sion|ting)\b"
                                   r"|[0-9] ?(?:mm|/32(?:nds?)?|psi|bar|kpa|miles|mi|km|kgs?|lbs?|pounds) (?:in|to"
                                   r"|into|en|auf|=) (?:mm|millimet\w+|32nds?|psi|bar|kpa|miles|km|kilomet\w+|kgs?"
                                   r"|kilos?|lbs?|pounds)\b"
                                   r"|\bhow many (?:mm|millimet\w+|32nds?"
                                   r"|thirty.?seconds?|psi|bar|kpa|kilopascals?|miles|km|kilomet\w+|kgs?|kilos|lbs?"
                                   r"|pounds)\b(?: (?:is|are|in|does|=|would|make)| ?\?| ?$)|\b(?:what"
                                   r"|how much)(?:'s| is| are|s)?\b[^.?!]{0,30}\b(?:in|to|into) (?:mm|millimet\w+"
                                   r"|32nds?|thirty.?seconds?|psi|bar|kpa|kilopascals?|miles|km|kilomet\w+|kgs?"
                                   r"|kilos?|lbs?|pounds|metric|freedom units|american|imperial)\b|\bequals?\b"
                                   r"|\bin real units|\bwieviel (?:mm|bar|psi)|\bcombien (?:de |en )(?:mm|bar)"
                                   r"|\b(?:auf|in) (?:mm|bar|psi)\?|\bumgerechnet"),
    ("tread_left", 2, "whether it is enough", r"\blegal\w*|\benough\b|\bsafe\b|\bstill (?:ok|okay|good|fine|safe"
                                              r"|usable)|\b(?:ok|okay|fine|good)\b(?: to|\?| for| enough)"
                                              r"|\breplac\w*|\bneed (?:new|to (?:replace|change)|tires|tyres)"
                                              r"|\bnew tires\b|\bworn\b|\bpass\b|\binspection\b|\bmot\b|\btüv\b"
                                              r"|\btuev\b|\bbald\b|\btoo (?:low|worn|thin)|\btime (?:to|for)"
                                              r"|\bwhen (?:to|should)|\bin the (?:rain|wet|snow)|\bfor (?:the "
                                              r"|this |another )?winter|\blow\b|\bhow bad|\bbad\b|\billegal"
                                              r"|\bokay\b|\berlaubt|\bdarf\b|\blégal\w*|\bencore bon|\bserven\b"
                                              r"|\blegales?\b|\bbuon[ei]\b|\bcambiar\w*|\bfahren\b|\bholding up"),
    ("tread_left", 2, "whether to worry", r"\bworr(?:y|ied|ying)\b|\bconcern\w*|\btrust (?:them|these|it)\b"
                                          r"|\bstart (?:looking|shopping)"),
    ("tread_left", 3, "tread that looks low", r"\b(?:t[iy]res?|tread)\b[^.?!]{0,20}\b(?:look|looks|seem|seems"
                                              r"|getting|are|is)\b[^.?!]{0,12}\b"
                                              r"(?:low|thin|bald|worn|smooth|slick)\b"),
    ("tread_left", 3, "a coin", r"\b(?:20 ?p|penny|quarter|coin|euro)\b[^.?!]{0,25}\b(?:test|head|band|ring|rim)\b"
                             r"|\b(?:see|touch\w*|cover\w*|top|all) (?:of )?(?:the|\w{4,}'s) head\b(?! gasket)"),
    ("tread_left", 3, "tread without a number", r"\b(?:are|is|r) (?:they|these|it|my tires|those|this tire"
                                                r"|mine) (?:done|toast|shot|finished|gone|worn out|still good"
                                                r"|bald)\b|\btime for (?:new )?(?:tires|tyres|rubber)|\bhow (?:many"
                                                r"|much|few) 32nds\b|\b(?:lowest|least|minimum) (?:legal )?tread"
                                                r"|\btread\b[^.?!]{0,30}\blegal|"
                                                r"\bpenny (?:test)?|\bwear (?:bars?|indicators?)\b|\btwi\b"
                                                r"|\bbald(?:ing)?\b|\btread (?:left"
                                                r"|depth|life|remaining|wear)|\b(?:enough|low|much|good|no) tread\b"
                                                r"|\bprofiltiefe|\bquarter test|\bminimum tread|\b(?:do|should"
                                                r"|when (?:do|should|to)|need to) (?:i |we )?(?:need|get|buy"
                                                r"|replace|change)\b[^.?!]{0,25}\bt[iy]res\b|\blegal (?:limit"
                                                r"|minimum|tread)|\bworn (?:out|down)"
                                                r"|\b(?:still|is (?:it|that|this|your \w+ \w+)|are (?:they|these"
                                                r"|those)) (?:still )?(?:legal|illegal)\b"),
)  # fmt: skip
ASKS = re.compile(
    r"\?|(?:^|[.,;:!)-] ?|\b(?:and|so|but|then|or) )(?:what|which|how|why|when|where|who|is|are|do|does|can|should|will"
    r"|would|could|shall)\b(?! (?:a |an |nice|great|cool|you (?:explain|did|do)))|\bwhy\W*$|\b(?:normal|necessary|true"
    r"|correct|allowed|legal|fixable|repairable|safe|ok|okay|fine|problem|thoughts)\W*$|^\W*(?:so |ok |hey |hi "
    r"|hello |quick question|question|dear \w+,? |thanks,? )*(?:can|could|is|are|do|does"
    r"|did|should|would|will|what|what's|whats|which|how|when|why|where|am|was|if|any|anyone|please|pls|plz|darf"
    r"|kann|sind|ist|wie|was|est|puis|dois|combien|quel\w*|puedo|qu[eé]|cu[aá]nto\w*|posso|quanto|quant[ie]|sono"
    r"|need|has)\b|\b(?:wondering|wonder|\b(?:at|for|in|by|from|on) (?:what|which|how)\b|what'?s (?:going on|up"
    r"|wrong)|whats (?:going on|up|wrong)|any reason"
    r"|makes sense|why (?:is|are|does|do|would)|any (?:idea|advice|thoughts|help|suggestions)|help|please|pls|plz"
    r"|tell me"
    r"|which (?:\w+ )?(?:is|are|one|carr\w+|has|should|would|do|does|can|lasts?|tire|tyre)|i want to|i'?d like to"
    r"|thinking (?:of|about)|considering|planning (?:to|on)|let me know|need to know"
    r"|not sure|curious|should i|can i|do i|is it|is that|is this|are they|are these|am i"
    r"|would it|would you|could i|will it|will they|what (?:should|would|is|are|do|does)|how (?:do|many|much|far"
    r"|long|bad|old|fast)|ok to|okay to|safe to|advice|thoughts|recommend|worth it|good enough|right or|or not"
    r"|correct me|shop (?:says|said|wants|told)|dealer (?:says|said|wants|told)|mechanic (?:says|said|wants|told)"
    r"|guy (?:says|said|told)|they (?:say|said|told|want))\b",
    re.IGNORECASE,
)
SPAM = re.compile(
    r"\b(?:\w+ ?app me|(?:message|contact|reach|dm|add) (?:me|us|him|her) on \w+|\w\.me/|crypto|bitcoin|btc|forex"
    r"|giveaway|promo ?code|discount code|coupon"
    r"|sub(?:scribe)? (?:to|4|for) (?:my|me)|sub4sub|check (?:out )?my (?:channel|profile|page|bio|link)|earn \$?\d"
    r"|make money|passive income|investment|investor|loan|casino|free (?:gift|\w*phone)|click (?:here|the link"
    r"|my)|buy followers|dm me|link in (?:bio|my)|limited offer|best price guaranteed|free shipping|order now"
    r"|shop now|hack(?:er|ed)? (?:my|any|your))\b",
    re.IGNORECASE,
)
PRAISE = re.compile(
    r"\b(?:great|awesome|amazing|excellent|nice|good|best|love(?:d|ly)?|fantastic|helpful|superb|brilliant"
    r"|well) (?:\w+ ){0,2}(?:videos?|vid|content|channel|job|work|explanation|explained|stuff|info|tutorial"
    r"|presentation|editing|one)\b|\bthank(?:s| you)\b|\bthx\b|\bsubscribed\b|\blearned a lot|\bkeep (?:it up|up)"
    r"|\bwell done|\bbravo\b|\bfirst!|\bhello from\b|\bgreetings from\b|\bsaved me\b|\bsuper video|\bdanke\b"
    r"|\bmerci\b|\bgracias\b|\bgrazie\b",
    re.IGNORECASE,
)
OTHER_VEHICLES = re.compile(
    r"\b(?:motor ?(?:cycle|bike)s?|bicycles?|bikes?|mtb|e-?bikes?|tractors?|lawn ?mowers?"
    r"|rc cars?|scooters?|forklifts?|wheelbarrows?|aircraft|airplanes?|mopeds?|fahrrad"
    r"|motorrad|unicycle|stroller|golf cart)\b",
    re.IGNORECASE,
)
TIRES = re.compile(
    r"\bt[iy]re?s?\b|\bwear indicators?|\b3[0-9]s\b|\bload range|\bwear bars?|\bpenny\b|\b20 ?p test|\bbar\b"
    r"|\barrows?\b|\b(?:penny|quarter|coin|\w{4,}'s)\b[^.?!]{0,20} head\b"
    r"|\b\w{4,}'s head\b"
    r"|\b32nds?\b|\brims?\b|\bpressure"
    r"|\bdate code|\bdot\b"
    r"|\bplug(?:s|ged)?\b|\baxle|\bdot\b"
    r"|\bpuncture|\btyre|\btread"
    r"|\bwheels?\b"
    r"|\breifen|\bpneu|\bgomm[ae]|\bneum[aá]tic|\bllanta"
    r"|\bcubierta|\bspare|\bdonut|\bsidewall|\bprofil|\bsizes?\b|\bband(?:en)?\b|\brubber|\btpms"
    r"|\brotat\w+|\bseitenwand|\bflanco|\bflanc\b|\bpsi\b|\bhydropl|\baquapl|\bfronts?\b|\brears?\b",
    re.IGNORECASE,
)
WET = re.compile(
    r"\b(?:(?:in|on|through|during|with) (?:\w+ ){0,3}(?:rain\w*|wet|water|puddles?|downpours?|storms?)"
    r"|wet roads?|rain(?:y|ing|storm)?|(?:bei|im) (?:\w+ )?(?:regen|nässe)|sous la pluie|lluvia|pioggia)\b",
    re.IGNORECASE,
)
GRADES = re.compile(
    r"\b(?:load range|ply rating|[0-9]+[ -]ply|treadwear (?:rating|grade|[0-9])|traction (?:rating|grade|a)|utqg"
    r"|(?:speed|load) (?:rating|index|symbol)|letter [a-z]\b|max(?:imum)? (?:load|speed)|what (?:does|is"
    r"|do) (?:the )?(?:dot|twi|e ?[0-9]{1,2}))\b"
    r"|\b[a-z] (?:or|and|vs) [a-z] rat(?:ed|ing)",
    re.IGNORECASE,
)
HOW_FAST = re.compile(
    r"\b(?:how fast|what speed|which speed|too fast|how slow|slow enough|slow down|max(?:imum)? speed|speeds?"
    r"|welche geschwindigkeit"
    r"|wie schnell"
    r"|quelle vitesse|qu[eé] velocidad|che velocit[aà])\b",
    re.IGNORECASE,
)
WHEN_NEW = re.compile(
    r"\bwhen\b[^.?!]{0,20}\b(?:need|buy|replace|change|due|run out|legal|be (?:done|worn|bald))\b"
    r"|\bhow (?:soon|long|much longer|many (?:more )?(?:months|years))\b",
    re.IGNORECASE,
)
PLAIN_ASK = re.compile(
    r"\b(?:legal|enough|safe|inspection|mot|tüv|need (?:new|to replace|tires)|replace them|bald"
    r"|illegal)\b",
    re.IGNORECASE,
)
