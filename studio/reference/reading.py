"""One small reader for each table: which columns it has, what tells its rows apart, how a row is made."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Generic, TypeVar, get_args

import msgspec

from studio.model.caution import Caution, Signal
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import Kind, System
from studio.model.specimen import DamageKind
from studio.reference import rows
from studio.reference.rows import Coin, CoinFact, CoinLandmark, unit_of
from studio.reference.table import RawRow, TableError, read_table

_YES_NO = ("yes", "no")
_COIN_FACTS = ("diameter", "thickness", "test", "test_most")
Key = TypeVar("Key")
Made = TypeVar("Made")


@dataclass(frozen=True, slots=True)
class Shape(Generic[Key, Made]):
    """The shape of one table: its columns, of which the first tells the rows apart, and what a row becomes."""

    columns: str
    make: Callable[[RawRow], Made]
    key: Callable[[Made], Key]

    def read(self, path: Path) -> Mapping[Key, Made]:
        """Read a table of this shape into a mapping in the file's order. Raises TableError."""
        names = self.columns.split()
        made = [self.make(row) for row in read_table(path, names, names[:1])]
        return MappingProxyType({self.key(row): row for row in made})


def values(path: Path) -> Mapping[str, rows.Value]:
    """Read a table of named numbers."""
    return Shape("key value unit means", _value, lambda row: row.key).read(path)


def _value(row: RawRow) -> rows.Value:
    return rows.Value(
        key=row.text("key"), value=row.number("value"), unit=row.optional_text("unit"), means=row.text("means"),
        source=row.source,
    )  # fmt: skip


def rules(path: Path) -> Mapping[str, rows.Rule]:
    """Read a table of rules in words."""
    return Shape("id region value unit wording", _rule, lambda row: row.id).read(path)


def _rule(row: RawRow) -> rows.Rule:
    return rows.Rule(
        id=row.text("id"), region=row.text("region"), value=row.optional_number("value"),
        unit=row.optional_text("unit"), wording=row.text("wording"), source=row.source,
    )  # fmt: skip


def speed_exception(row: RawRow) -> rows.SpeedException:
    """One rule on winter tires of a lower speed symbol."""
    rule = _rule(row)
    return rows.SpeedException(
        id=rule.id, region=rule.region, value=rule.value, unit=rule.unit, mark=row.optional_text("mark"),
        wording=rule.wording, source=rule.source,
    )  # fmt: skip


def load_index(row: RawRow) -> rows.LoadIndex:
    """One row of the load index table."""
    load_kg = row.number("load_kg")
    if load_kg <= 0:
        row.refuse(f"load_kg is {load_kg:g}, expected a load above 0")
    return rows.LoadIndex(load_index=row.whole("load_index"), load_kg=load_kg, source=row.source)


def speed_symbol(row: RawRow) -> rows.SpeedSymbol:
    """One row of the speed symbol table."""
    return rows.SpeedSymbol(
        symbol=row.text("symbol"), speed_kmh=row.number("speed_kmh"), conventional_mph=row.whole("conventional_mph"),
        note=row.optional_text("note"), source=row.source,
    )  # fmt: skip


def rim_code(row: RawRow) -> rows.RimCode:
    """One row of the rim code table."""
    return rows.RimCode(code=row.number("code"), diameter_mm=row.whole("diameter_mm"), source=row.source)


def region(row: RawRow) -> rows.Region:
    """One row of the regions."""
    units, spelling = row.one_of("units", get_args(System)), row.one_of("spelling", ("tire", "tyre"))
    return rows.Region(
        id=row.text("region"), name=row.text("name"), units="us" if units == "us" else "metric",
        spelling="tire" if spelling == "tire" else "tyre", parent=row.optional_text("parent"), source=row.source,
    )  # fmt: skip


def tread_minimum(row: RawRow) -> rows.TreadMinimum:
    """One legal minimum."""
    season = row.one_of("season", ("all", "winter"))
    return rows.TreadMinimum(
        id=row.text("id"), region=row.text("region"), season="winter" if season == "winter" else "all",
        value=row.number("value"), unit=unit_of(row), vehicle=row.text("vehicle"), tires=row.text("tires"),
        applies_to=row.text("applies_to"), condition=row.optional_text("condition"), since=row.optional_text("from"),
        until=row.optional_text("until"), source=row.source,
    )  # fmt: skip


def tread_advice(row: RawRow) -> rows.TreadAdvice:
    """One advised depth."""
    return rows.TreadAdvice(
        id=row.text("id"), region=row.text("region"), season=row.text("season"), value=row.number("value"),
        unit=unit_of(row), wording=row.text("wording"), source=row.source,
    )  # fmt: skip


def new_depth(row: RawRow) -> rows.NewDepth:
    """One usual range of new depths."""
    low, high = row.number("low"), row.number("high")
    if low > high:
        row.refuse(f"low {low:g} is above high {high:g}")
    return rows.NewDepth(
        kind=row.text("kind"), low=low, high=high, unit=unit_of(row), wording=row.text("wording"), source=row.source
    )


def matching(row: RawRow) -> rows.MatchingRule:
    """One matching rule."""
    return rows.MatchingRule(
        id=row.text("id"), region=row.text("region"), scope=row.text("scope"), measure=row.text("measure"),
        value=row.optional_number("value"), unit=row.optional_text("unit"), level=row.text("level"),
        wording=row.text("wording"), source=row.source,
    )  # fmt: skip


def rotation_rule(row: RawRow) -> rows.RotationRule:
    """What one trait leaves of the rotation patterns."""
    return rows.RotationRule(
        trait=row.text("trait"), allows=row.words("allows"), reason=row.text("reason"), brief=row.text("brief"),
        source=row.source,
    )  # fmt: skip


def rotation_order(row: RawRow) -> rows.RotationOrder:
    """The recommended patterns of one drivetrain."""
    return rows.RotationOrder(drivetrain=row.text("drivetrain"), patterns=row.words("patterns"), source=row.source)


def rotation_interval(row: RawRow) -> rows.RotationInterval:
    """One interval."""
    return rows.RotationInterval(
        id=row.text("id"), region=row.text("region"), low=row.number("low"), high=row.number("high"),
        unit=unit_of(row), wording=row.text("wording"), source=row.source,
    )  # fmt: skip


def age_advice(row: RawRow) -> rows.AgeAdvice:
    """One piece of advice by age."""
    return rows.AgeAdvice(
        id=row.text("id"), region=row.text("region"), level=row.one_of("level", ("inspect", "plan", "replace", "note")),
        from_years=row.optional_number("from_years"), to_years=row.optional_number("to_years"),
        wording=row.text("wording"), source=row.source,
    )  # fmt: skip


def speed_derating(row: RawRow) -> rows.SpeedDerating:
    """Load against speed of one symbol."""
    return rows.SpeedDerating(
        symbol=row.text("symbol"), full_load_to_kmh=row.number("full_load_to_kmh"), at_kmh=row.number("at_kmh"),
        percent=row.number("percent"), source=row.source,
    )  # fmt: skip


def rim_ratio(row: RawRow) -> rows.RimRatio:
    """One range of aspects and its rim ratio."""
    return rows.RimRatio(
        aspect_from=row.whole("aspect_from"), aspect_to=row.whole("aspect_to"), ratio=row.number("ratio"),
        source=row.source,
    )  # fmt: skip


def caution(row: RawRow) -> Caution:
    """One caution; longer than 160 characters it would not fit a picture."""
    text, signal = row.text("text"), row.one_of("signal", get_args(Signal))
    if len(text) > 160:
        row.refuse(f"text has {len(text)} characters, a caution has at most 160")
    return Caution(
        id=row.text("id"), signal=msgspec.convert(signal, Signal), refers=row.one_of("refers", _YES_NO) == "yes",
        text=text, source=row.source,
    )  # fmt: skip


def myth(row: RawRow) -> rows.Myth:
    """One thing often said wrongly."""
    return rows.Myth(id=row.text("id"), said=row.text("said"), correct=row.text("correct"), source=row.source)


def bound(row: RawRow) -> rows.Bound:
    """What one quantity can be."""
    low, high = row.number("low"), row.number("high")
    if low >= high:
        row.refuse(f"low {low:g} is not below high {high:g}")
    return rows.Bound(
        quantity=row.text("quantity"), kind=msgspec.convert(row.one_of("kind", get_args(Kind)), Kind), low=low,
        high=high, unit=unit_of(row), expected=row.text("expected"), source=row.source,
    )  # fmt: skip


def wear_pattern(row: RawRow) -> rows.WearPattern:
    """One wear pattern."""
    return rows.WearPattern(
        id=row.text("id"), name=row.text("name"), inner=_wear(row, "inner"), center=_wear(row, "center"),
        outer=_wear(row, "outer"), verdict=_verdict(row), brief=row.text("brief"), cause=row.text("cause"),
        check=row.text("check"), look=row.text("look"), source=row.source,
    )  # fmt: skip


def damage(row: RawRow) -> rows.DamageKind:
    """One kind of damage."""
    row.one_of("kind", get_args(DamageKind))
    return rows.DamageKind(
        kind=row.text("kind"), verdict=_verdict(row), brief=row.text("brief"), meaning=row.text("meaning"),
        brief_meaning=row.text("brief_meaning"), avoid=row.text("avoid"), look=row.text("look"), source=row.source,
    )  # fmt: skip


def _verdict(row: RawRow) -> Verdict:
    """A verdict that the table gives; ``keep`` and ``unknown`` are nobody's to put into a table."""
    row.one_of("verdict", SEVERITY[1:])
    verdict: Verdict = msgspec.convert(row.cells["verdict"], Verdict)
    return verdict


def _wear(row: RawRow, column: str) -> rows.Wear:
    cell = row.optional_text(column)
    if cell:
        row.one_of(column, ("low", "mid", "high"))
    wear: rows.Wear = msgspec.convert(cell, rows.Wear)
    return wear


def coins(path: Path) -> Mapping[str, Coin]:
    """Read the coins: one row a fact, so that each dimension and each test keeps its own source."""
    facts: dict[str, dict[str, RawRow]] = {}
    columns = "coin name region fact value unit wording over under landmark".split()
    for row in read_table(path, columns, ("coin", "fact")):
        facts.setdefault(row.text("coin"), {})[row.one_of("fact", _COIN_FACTS)] = row
    return MappingProxyType({name: _coin(path.name, name, its) for name, its in facts.items()})


def _coin(file: str, name: str, facts: Mapping[str, RawRow]) -> Coin:
    absent: Sequence[str] = [fact for fact in ("diameter", "thickness") if fact not in facts]
    if absent:
        raise TableError(f"{file}: coin {name!r} has no {' and no '.join(absent)}")
    first = facts["diameter"]
    return Coin(
        id=name, name=first.text("name"), region=first.text("region"), diameter=_fact(facts["diameter"]),
        thickness=_fact(facts["thickness"]), test=_fact(facts["test"]) if "test" in facts else None,
        test_most=_fact(facts["test_most"]) if "test_most" in facts else None,
    )  # fmt: skip


def _fact(row: RawRow) -> CoinFact:
    test = row.text("fact") == "test"
    needed = row.text if test else row.optional_text
    landmark = row.one_of("landmark", get_args(CoinLandmark)) if test else "none"
    return CoinFact(
        value=row.number("value"), unit=unit_of(row), wording=row.optional_text("wording"), over=needed("over"),
        under=needed("under"), landmark=msgspec.convert(landmark, CoinLandmark), source=row.source,
    )  # fmt: skip


LOAD_INDEX = Shape("load_index load_kg", load_index, lambda row: row.load_index)
SPEED_EXCEPTION = Shape("id region value unit mark wording", speed_exception, lambda row: row.id)
SPEED_SYMBOL = Shape("symbol speed_kmh conventional_mph note", speed_symbol, lambda row: row.symbol)
RIM_CODE = Shape("code diameter_mm", rim_code, lambda row: row.code)
REGIONS = Shape("region name units spelling parent", region, lambda row: row.id)
TREAD_MINIMUM = Shape(
    "id region season value unit vehicle tires applies_to condition from until", tread_minimum, lambda row: row.id
)
TREAD_ADVICE = Shape("id region season value unit wording", tread_advice, lambda row: row.id)
NEW_DEPTH = Shape("kind low high unit wording", new_depth, lambda row: row.kind)
MATCHING = Shape("id region scope measure value unit level wording", matching, lambda row: row.id)
ROTATION_RULE = Shape("trait allows reason brief", rotation_rule, lambda row: row.trait)
ROTATION_ORDER = Shape("drivetrain patterns", rotation_order, lambda row: row.drivetrain)
ROTATION_INTERVAL = Shape("id region low high unit wording", rotation_interval, lambda row: row.id)
AGE_ADVICE = Shape("id region level from_years to_years wording", age_advice, lambda row: row.id)
SPEED_DERATING = Shape("symbol full_load_to_kmh at_kmh percent", speed_derating, lambda row: row.symbol)
RIM_RATIO = Shape("aspect_from aspect_to ratio", rim_ratio, lambda row: row.aspect_from)
CAUTIONS = Shape("id signal refers text", caution, lambda row: row.id)
MYTHS = Shape("id said correct", myth, lambda row: row.id)
WEAR_PATTERNS = Shape("id name inner center outer verdict brief cause check look", wear_pattern, lambda row: row.id)
DAMAGE = Shape("kind verdict brief meaning brief_meaning avoid look", damage, lambda row: row.kind)
BOUNDS = Shape("quantity kind low high unit expected", bound, lambda row: row.quantity)
