"""The texts of the rundown templates, in our own wording.

``[role]`` stands for the id of a finding that plays this role in the episode, ``[role:who]`` for whom it is about in
words; within braces they make a live number. A talking point whose role nobody plays, or whose number is not known, is
left out with its segment's other points kept.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SegmentText:
    """A segment of a template: its points, pictures (catalogue ids), what it shows, props and shots."""

    id: str
    title: str
    points: tuple[str, ...]
    pictures: tuple[str, ...] = ()
    shows: tuple[str, ...] = ()
    props: tuple[str, ...] = ()
    shots: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TemplateText:
    """A template: its name, what kind of episode it plans, and its segments."""

    id: str
    name: str
    about: str
    segments: tuple[SegmentText, ...]


TREAD = TemplateText(
    "tread", "All about tread", "how tread is measured, what the law and the weather ask, how long it lasts",
    (
        SegmentText(
            "opening", "What is left to stand on",
            ("Everything between this car and the road is on the bench today, and a gauge tells how much of it is "
             "left.",
             "The lowest reading of the whole car is at the [lowest:who]: {[lowest] both}."),
            ("depth_by_wheel",), ("measuring",), ("depth gauge", "chalk"), ("The car from the side, wheels turned "
             "out",)),
        SegmentText(
            "measuring", "How it is measured",
            ("Every main groove, at several places round the tire, and the lowest number is the one that counts.",
             "By hand, this gauge is good to about {[gauge] both} either way. A result closer to a limit than that is "
             "too close to call."),
            ("cross_section",), ("measuring",), ("depth gauge",), ("Close: the foot of the gauge in a groove",)),
        SegmentText(
            "limits", "What the law asks, what the weather asks",
            ("The legal minimum here is {[lowest] legal_minimum both}. That is where a tire is finished, not where it "
             "is still good.",
             "For wet roads the advice is {[lowest] wet_advice both}. Advice, not law.",
             "The [lowest:who] stands {[lowest] margin both} above the legal minimum."),
            ("depth_compare", "wear_bars"), ("worn_tire",)),
        SegmentText(
            "wear", "What the wear tells",
            ("Across its tread and all the way round, the [uneven:who] differs by {[uneven] both}.",
             "Uneven wear has a cause, and the cause is rarely the tire."),
            ("wear_profile",), ("uneven_wear",)),
        SegmentText(
            "life", "How far it will go",
            ("At the pace of the readings so far, the [lasts:who] has {[lasts] rounded} left to the legal minimum.",
             "That is a straight line through a few readings, not a promise."),
            ("life_left",)),
        SegmentText(
            "closing", "What to do on Saturday",
            ("Measure yours, write the number and the date down, and measure again when the season changes.",)),
    ),
)  # fmt: skip
HOW_MANY = TemplateText(
    "one_or_four", "One tire or four", "whether one tire, a pair or all four are due, by match and by cost",
    (
        SegmentText(
            "opening", "The question everybody asks",
            ("One tire is finished. Does it have to be one, two or four new ones? The answer is not a feeling, it is a "
             "difference, and it can be measured.",
             "The deepest tire on this car has {[deepest] both}, the lowest {[lowest] both}."),
            ("depth_by_wheel",), ("damage",), ("the old tire",)),
        SegmentText(
            "match", "How far apart they are",
            ("The front pair is {[front] both} apart; what counts here is {[front] limit both}.",
             "The rear pair is {[rear] both} apart.",
             "Over the whole set it comes to {[set] both}."),
            ("axle_match",), ("mixing",), ("depth gauge", "tape measure")),
        SegmentText(
            "why", "Why a few millimeters matter",
            ("A worn tire is smaller, so it turns more often: here by {[slip] turns_difference spoken}.",
             "On all-wheel drive something in the drive has to take that up, for as long as the car rolls."),
            (), ("mixing",)),
        SegmentText(
            "choices", "What each choice costs",
            ("Four new ones come to {[four]}.",
             "A new pair comes to {[pair]}.",
             "One alone comes to {[one]}. Cheap it may be, but look at the match first.",
             "Shaving the deep one to the others comes to {[shaved]}."),
            ("choices",), ("wheel_nuts",), ("receipts",)),
        SegmentText(
            "closing", "What I will do",
            ("The manual's limit comes first, then the axle, then the purse. And whoever fits them should agree.",)),
    ),
)  # fmt: skip
SIZES = TemplateText(
    "sizes", "Sizes explained", "what the code on the sidewall says, and whether another size fits",
    (
        SegmentText(
            "opening", "The longest word on your car",
            ("Nobody reads it, everybody pays for it: the code on the sidewall. Letter by letter, then.",),
            ("size_code",), (), ("a tire, chalked",), ("Close: a finger along the sidewall",)),
        SegmentText(
            "numbers", "What each number says",
            ("The section is {[size] section_width both} wide from sidewall to sidewall, on its measuring rim. That "
             "is not the width of the tread.",
             "The second number is a share: the sidewall stands {[size] section_height both} high.",
             "Together with the rim that makes a tire {[size] overall_diameter both} tall when new.",
             "One tire is rated for {[size] load both} at its reference pressure."),
            ("cross_section", "ratings"), ("overload",)),
        SegmentText(
            "other", "Would another size do?",
            ("The other size is {[swap] diameter_apart} off in diameter, so the speedometer is off as well.",
             "Wheels, clearance, load and the papers have to agree before it goes on."),
            ("sizes_beside",), ("size_change",)),
        SegmentText(
            "spare", "The odd one in the trunk",
            ("The spare is {[spare] diameter_apart} off the others, and it is meant for a short way at a low speed.",
             "It should hold {[spare] pressure_asked both}. Look before you need it."),
            (), ("temporary_spare", "inflating"), ("pressure gauge",)),
    ),
)  # fmt: skip
WINTER = TemplateText(
    "winter", "Winter change-over", "which set is fit for winter, how the change is done, what pressure the cold asks "
    "for",
    (
        SegmentText(
            "opening", "Before the first frost",
            ("Two questions before any wheel comes off: is the winter set deep enough, and is it young enough?",
             "The lowest of the tires that are to go on is the [winter:who], at {[winter] both}."),
            ("depth_by_wheel",), ("measuring",), ("depth gauge",)),
        SegmentText(
            "depth", "Deep enough?",
            ("The legal minimum here is {[winter] legal_minimum both}.",
             "For winter the advice is {[winter] winter_advice both}: below that a winter tire no longer bites as it "
             "should."),
            ("depth_compare",), ("worn_tire",)),
        SegmentText(
            "age", "Young enough?",
            ("The oldest of them, the [winter_oldest:who], is {[winter_oldest]} old.",
             "From {[winter_oldest] advice_inspect} on have it looked at once a year, whatever the tread says."),
            (), ("over_age",)),
        SegmentText(
            "change", "Changing the wheels",
            ("Level ground, brake set, wheels chocked, stands under the car: then the wheel comes off, and nobody goes "
             "underneath.",
             "Torque the nuts by the manual, crosswise, and once more after the first drive."),
            ("rotation",), ("jacking", "wheel_nuts", "rotation"), ("jack", "stands", "chocks", "torque wrench"),
            ("Wide: the car on stands", "Close: the wrench clicks")),
        SegmentText(
            "cold", "Air for the cold",
            ("It is {[air] filling_temperature both} where we fill and {[air] driving_temperature both} where we "
             "drive: so set {[air] set_front both} in front.",
             "And {[air] set_rear both} at the rear."),
            ("pressure_temperature", "placard"), ("inflating", "pressure"), ("pressure gauge",)),
    ),
)  # fmt: skip
ANSWERS = TemplateText(
    "answers", "Answers to viewers", "three questions from viewers, each worked on our own car first",
    (
        SegmentText(
            "opening", "You asked",
            ("You asked about your cars. I can only measure mine, so I show on mine how to find the answer on "
             "yours.",)),
        SegmentText(
            "still_good", "Is my tread still good?",
            ("On ours the [lowest:who] has {[lowest] both}, and the legal minimum is {[lowest] legal_minimum both}.",
             "Measure every groove and take the lowest. Then you know what I know."),
            ("depth_compare",), ("worn_tire", "measuring"), ("depth gauge", "a coin")),
        SegmentText(
            "air", "Why did it lose air overnight?",
            ("Ours should hold {[pressure] placard both} cold, and at the last reading the [pressure:who] held "
             "{[pressure] read both}.",
             "{[pressure] weather both} of the drop is the weather. What is left over is a leak, and a leak is a case "
             "for a professional."),
            ("pressure_temperature",), ("inflating", "pressure"), ("pressure gauge",)),
        SegmentText(
            "old", "How old is too old?",
            ("The oldest on our car is the [oldest:who], at {[oldest]}: the code on the side says so.",),
            (), ("over_age",)),
        SegmentText(
            "closing", "Ask, but ask with numbers",
            ("Write me the size, the depth in every groove and the pressure, cold. Leave your name and your plate "
             "out.",)),
    ),
)  # fmt: skip
TEMPLATES = (TREAD, HOW_MANY, SIZES, WINTER, ANSWERS)
