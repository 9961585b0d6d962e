"""What the reference tables say: each of their numbers with the words that a sentence must share to have meant it."""

import re
from collections.abc import Iterable, Iterator, Mapping

import msgspec

from studio.model.caution import Caution
from studio.model.quantity import UNITS, Quantity, UnitName
from studio.model.running_text import numbers_in
from studio.model.source import Source
from studio.reference import rows
from studio.reference.tables import Tables
from studio.script.aspects import DIMENSION_OF, Dimension

_WORD = re.compile(r"[a-zäöüéèà]{3,}", re.IGNORECASE)
_NO_WORDS = frozenset(
    "the and for any not with from than that this are most usual usually such each about only its may must have has "
    "one two more less below above under over into when where which what who whose they them there here all can "
    "into per inch inches tire tires tyre tyres car cars value least highest lowest rule named these those will would"
    .split()
)  # fmt: skip
_OTHER_UNITS: dict[str, UnitName] = {"share": "%", "": ""}


class Cited(msgspec.Struct, frozen=True, kw_only=True):
    """A number of the tables. ``until`` ends a range; ``region`` is the place it holds in, empty for anywhere."""

    value: float
    unit: UnitName
    dimension: Dimension
    words: frozenset[str]
    says: str
    source: Source
    until: float | None = None
    region: str = ""
    legal: bool = False

    def in_unit(self, unit: UnitName) -> tuple[float, float] | None:
        """The range in ``unit``; None where it measures something else."""
        try:
            low = _measure(self.value, self.unit).to(unit).value
            return low, low if self.until is None else _measure(self.until, self.unit).to(unit).value
        except ValueError:
            return None


def stems(text: str) -> frozenset[str]:
    """The words of a text that carry its meaning, without their endings."""
    words = (word.lower() for word in _WORD.findall(text))
    return frozenset(_stem(word) for word in words if word not in _NO_WORDS)


def _stem(word: str) -> str:
    for ending in ("ing", "ed", "es", "s", "ly"):
        if word.endswith(ending) and len(word) - len(ending) >= 4:
            return word[: -len(ending)]
    return word


def cited_of(tables: Tables) -> tuple[Cited, ...]:
    """Every number of the tables that a script may say."""
    return tuple(_all(tables))


def _all(tables: Tables) -> Iterator[Cited]:
    names = {row.id: row.name for row in tables.regions.values()}
    for minimum in tables.tread_minimum.values():
        where = names.get(minimum.region, "")
        words = f"legal minimum limit law depth tread {minimum.season} {minimum.applies_to} {where}"
        yield _made(minimum.value, minimum.unit, words, f"legal minimum, {where}", minimum, where, legal=True)
    for advice in tables.tread_advice.values():
        words = f"advice advise recommend {advice.season} {advice.wording}"
        yield _made(advice.value, advice.unit, words, advice.wording, advice, names.get(advice.region, ""))
    for new in tables.new_depth.values():
        words = f"new depth tread come start {new.wording}"
        yield _made(new.low, new.unit, words, f"{new.wording}, new", new, until=new.high)
    for interval in tables.rotation_interval.values():
        words = f"rotate rotation every interval {interval.wording}"
        yield _made(interval.low, interval.unit, words, interval.wording, interval, until=interval.high)
    for age in tables.age_advice.values():
        yield from _ages(age)
    for coin in tables.coins.values():
        for fact in (coin.diameter, coin.thickness, coin.test):
            if fact is not None:
                words = f"coin {coin.name} {fact.wording} {'wide thick diameter edge' if fact is not coin.test else ''}"
                yield _made(fact.value, fact.unit, words, f"{coin.name}: {fact.wording}", fact)
    yield from _rules(tables, names)
    yield from _values(tables)
    for caution in tables.cautions.values():
        yield from _in_words(caution.text, caution.text, caution)
    for myth in tables.myths.values():
        yield from _in_words(myth.correct, f"{myth.said} {myth.correct}", myth)


def _ages(age: rows.AgeAdvice) -> Iterator[Cited]:
    for years in (age.from_years, age.to_years):
        if years is not None:
            yield _made(years, "years", f"age old years inspect replace {age.wording}", age.wording, age)


def _rules(tables: Tables, names: Mapping[str, str]) -> Iterator[Cited]:
    tables_of_rules: Iterable[Iterable[rows.Rule]] = (
        tables.matching.values(), tables.repair.values(), tables.spare.values(), tables.lamp.values(),
        tables.speedometer_rule.values(), tables.speed_exception.values(), tables.driveline.values(),
        tables.condemning.values(), tables.gauges.values(),
    )  # fmt: skip
    for rule in (rule for some in tables_of_rules for rule in some):
        words = f"{rule.wording} {rule.id.replace('_', ' ')}"
        if rule.value is not None:
            if rule.unit == "share":
                yield _made(100 * rule.value, "%", words, rule.wording, rule)
                yield _made(100 - 100 * rule.value, "%", words, rule.wording, rule)
            elif rule.unit in UNITS and rule.unit:
                law = isinstance(rule, rows.MatchingRule) and rule.level == "law"
                where = names.get(rule.region, "")
                yield _made(rule.value, _unit(rule.unit), words, rule.wording, rule, where, legal=law)
        yield from _in_words(rule.wording, words, rule)


def _values(tables: Tables) -> Iterator[Cited]:
    for value in (*tables.pressure.values(), *tables.measuring.values(), *tables.hydroplaning.values(),
                  *tables.rolling.values(), *tables.load_rules.values(), *tables.assumed.values()):  # fmt: skip
        words = f"{value.means} {value.key.replace('_', ' ')}"
        if value.unit in UNITS and value.unit:
            yield _made(value.value, _unit(value.unit), words, value.means, value)
        yield from _in_words(value.means, words, value)


def _unit(name: str) -> UnitName:
    unit: UnitName = msgspec.convert(name, UnitName)
    return unit


def _measure(value: float, unit: UnitName) -> Quantity:
    return Quantity(value, unit, "depth" if unit in ("mm", "in", "32nds") else None)


def _in_words(text: str, words: str, row: rows.Row | Caution) -> Iterator[Cited]:
    """The quantities in a row's own wording."""
    for number in numbers_in(text):
        if number.unit is not None and number.unit != "money":
            yield _made(number.value, number.unit, words, text, row, until=number.until)


def _made(
    value: float, unit: UnitName, words: str, says: str, row: rows.Row | rows.CoinFact | Caution, region: str = "",
    until: float | None = None, *, legal: bool = False,
) -> Cited:  # fmt: skip
    return Cited(
        value=value, until=until, unit=unit, dimension=DIMENSION_OF[_measure(value, unit).measures],
        words=stems(words), says=says, source=row.source, region=region, legal=legal,
    )  # fmt: skip
