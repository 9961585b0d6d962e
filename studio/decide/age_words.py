"""The words of the age topic."""

from studio.decide.age_read import Aged, Part
from studio.decide.wording import MONTHS, counted, day_words, paper_number, plain, upper_first
from studio.model.finding import Step, summed
from studio.model.quantity import Quantity, format_number
from studio.reference.tables import Tables
from studio.tires.datecode import DateCode

_ADVICE = {
    "plan": "inspect it every year, plan a new one",
    "replace": "replace it, whatever its tread",
}  # fmt: skip


def unread(part: Part) -> str:
    """The sentence on a tire whose date code is missing or is none."""
    if part.code.strip():
        return f"{part.subject.title}: {plain(part.code)} is no date code."
    return f"{part.subject.title} has no date code entered yet; it may be on the inner side."


def _made(its: Aged) -> str:
    return f"week {its.code.week} of {its.code.year}"


def _age(its: Aged) -> str:
    return Quantity(its.years, "years").text()


def clause(its: Aged) -> str:
    """The age after a tire's name: ``is 12.3 years old``, ``was made before July 2000``."""
    return f"is {_age(its)} old" if its.code.decade_known else "was made before July 2000"


def sentence(its: Aged) -> str:
    """The finding in plain speech."""
    title, reached = its.part.subject.title, its.reached
    if not its.code.decade_known:
        return f"{title} has a three-digit code: made before July 2000. Advice: replace it."
    if reached is None:
        return f"{title} is {_age(its)} old: made in {_made(its)}."
    return f"{title} is {_age(its)} old ({_made(its)}). Advice: {_ADVICE[reached.level]}."


def working(its: Aged, tables: Tables) -> tuple[str | Step, ...]:
    """The steps from the code to the age and the advice."""
    code, on = its.code, its.part.on
    days = (on - code.first_day).days
    return (
        Step(f"Code {code.digits}: {_made(its)}; {tables.date_code[its.rule].wording}", "code"),
        f"That week runs from {day_words(code.first_day)} to {day_words(code.last_day)}",
        *([upper_first(code.remark)] if code.remark else []), *_week_lines(its, tables),
        summed(
            f"Age on {day_words(on)}", f"{days} days / {format_number(its.days_per_year, 4)} = {_age(its)}"
            + ("" if code.decade_known else " at least"), "age",
        ),
        *_advice_lines(its), *(f"{upper_first(row.wording)} ({row.source.standing})" for row in its.notes),
    )  # fmt: skip


def _week_lines(its: Aged, tables: Tables) -> list[str]:
    """The same number in the calendar that people expect; for three digits, the decades that it can mean."""
    row = tables.date_code.get(its.week_rule)
    if row is None:
        return []
    line, monday = upper_first(row.wording), its.code.iso_monday
    if not its.code.decade_known or monday is None:
        return [f"{line} ({row.source.standing})"]
    days = (its.code.first_day - monday).days
    later = f"{counted(abs(days), 'day')} {'earlier' if days > 0 else 'later'}"
    return [f"{line}: on {day_words(monday)}, {later} ({row.source.standing})"]


def _advice_lines(its: Aged) -> list[str]:
    lines = []
    for row in its.advice:
        years = paper_number(Quantity(row.from_years or 0.0, "years"))
        state = "reached" if its.years >= (row.from_years or 0.0) else "not reached"
        lines.append(f"Advice from {years} years on ({row.source.standing}), {state}: {row.wording}")
    return lines


def would_change(its: Aged) -> tuple[str, ...]:
    """The day on which the next advice begins to hold."""
    row = its.coming
    if row is None or row.from_years is None or not its.code.decade_known:
        return ()
    years, day = paper_number(Quantity(row.from_years, "years")), its.day_of(row.from_years)
    return (f"In {MONTHS[day.month - 1]} {day.year} it turns {years}; then the advice is: {_ADVICE[row.level]}.",)


def _years(code: DateCode) -> str:
    """What the year can be where the decade is not in the code."""
    return "" if code.decade_known else f"{code.year}, or ten or more years earlier"


def detail(its: Aged) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    code = its.code
    pairs = {
        "digits": code.digits, "made": _made(its), "first_day": day_words(code.first_day),
        "first_day_of_year": str(code.first_day.timetuple().tm_yday), "years": _years(code),
        "last_day": day_words(code.last_day), "on": day_words(its.part.on), "rule": code.rule, "remark": code.remark,
        "decade": "known" if code.decade_known else "open", "advice": its.reached.wording if its.reached else "",
        "advice_standing": its.reached.source.standing if its.reached else "",
    }  # fmt: skip
    return tuple((name, text) for name, text in pairs.items() if text)
