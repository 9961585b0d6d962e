"""All reference tables in one frozen value."""

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from studio import shipped
from studio.model.caution import Caution
from studio.reference import reading, rows
from studio.reference.table import TableError

ANY = "any"
AnyRule = TypeVar("AnyRule", bound=rows.Rule)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tables:
    """Every table, keyed by its first column, in the order of the file. Nothing in it can be changed."""

    load_index: Mapping[int, rows.LoadIndex]
    speed_symbol: Mapping[str, rows.SpeedSymbol]
    rim_code: Mapping[float, rows.RimCode]
    regions: Mapping[str, rows.Region]
    tread_minimum: Mapping[str, rows.TreadMinimum]
    tread_advice: Mapping[str, rows.TreadAdvice]
    new_depth: Mapping[str, rows.NewDepth]
    measuring: Mapping[str, rows.Value]
    matching: Mapping[str, rows.MatchingRule]
    rotation_rule: tuple[rows.RotationRule, ...]
    rotation_order: Mapping[str, rows.RotationOrder]
    rotation_interval: Mapping[str, rows.RotationInterval]
    age_advice: Mapping[str, rows.AgeAdvice]
    coins: Mapping[str, rows.Coin]
    repair: Mapping[str, rows.Rule]
    spare: Mapping[str, rows.Rule]
    pressure: Mapping[str, rows.Value]
    lamp: Mapping[str, rows.Rule]
    load_rules: Mapping[str, rows.Value]
    speed_derating: Mapping[str, rows.SpeedDerating]
    hydroplaning: Mapping[str, rows.Value]
    rolling: Mapping[str, rows.Value]
    design: Mapping[str, rows.Value]
    rim_ratio: tuple[rows.RimRatio, ...]
    speedometer: Mapping[str, rows.Value]
    speedometer_rule: Mapping[str, rows.Rule]
    speed_exception: Mapping[str, rows.SpeedException]
    driveline: Mapping[str, rows.Rule]
    assumed: Mapping[str, rows.Value]
    stopping: Mapping[str, rows.Value]
    physics: Mapping[str, rows.Value]
    cautions: Mapping[str, Caution]
    myths: Mapping[str, rows.Myth]
    wear_patterns: Mapping[str, rows.WearPattern]
    condemning: Mapping[str, rows.Rule]
    damage: Mapping[str, rows.DamageKind]
    gauges: Mapping[str, rows.Rule]
    date_code: Mapping[str, rows.Rule]
    bounds: Mapping[str, rows.Bound]
    load_kg: Mapping[int, float]
    speed_kmh: Mapping[str, float]
    rim_mm: Mapping[float, int]

    def region_chain(self, region: str) -> tuple[str, ...]:
        """The region, the one it falls back on, and so on. Raises LookupError for a region that is not known."""
        if region not in self.regions:
            raise LookupError(f"region {region!r} is not known; expected one such as us, de or ca-qc")
        chain = [region]
        while parent := self.regions[chain[-1]].parent:
            chain.append(parent)
        return tuple(chain)

    def legal_minimum(
        self, region: str, season: str = "all", vehicle: str = "car", construction: str = "radial"
    ) -> rows.TreadMinimum | None:
        """The legal minimum of the region or, where it has none, of the one it falls back on.

        ``season`` "winter" gives only a rule made for winter. None where there is no such rule.
        """
        for name in self.region_chain(region):
            for row in self.tread_minimum.values():
                wanted = (row.region, row.season, row.vehicle) == (name, season, vehicle)
                if wanted and row.tires in (ANY, construction):
                    return row
        return None

    def advised_depth(self, region: str, season: str) -> rows.TreadAdvice | None:
        """The advised depth for ``season`` ("wet", "winter", "summer"): the region's own, else the general one."""
        for name in (*self.region_chain(region), ANY):
            for row in self.tread_advice.values():
                if (row.region, row.season) == (name, season):
                    return row
        return None

    def matching_rules(self, region: str) -> tuple[rows.MatchingRule, ...]:
        """The matching rules of the region, of those it falls back on, and the general ones, in this order."""
        names = (*self.region_chain(region), ANY)
        return tuple(row for name in names for row in self.matching.values() if row.region == name)

    def rules_in(self, rules: Mapping[str, AnyRule], region: str) -> tuple[AnyRule, ...]:
        """Those of ``rules`` (such as ``repair`` or ``spare``) that hold in the region, its own first."""
        names = (*self.region_chain(region), ANY)
        return tuple(row for name in names for row in rules.values() if row.region == name)

    def rim_ratio_for(self, aspect_percent: float) -> rows.RimRatio | None:
        """The theoretical rim ratio for an aspect; None outside the table."""
        whole = int(aspect_percent)
        return next((row for row in self.rim_ratio if row.aspect_from <= whole <= row.aspect_to), None)


def load_tables(folder: Path | None = None) -> Tables:
    """Read all tables of ``folder`` (the shipped ones by default), once. Raises TableError."""
    return _load(folder if folder is not None else shipped.resources() / "reference")


@functools.cache
def _load(folder: Path) -> Tables:
    def at(name: str) -> Path:
        return folder / f"{name}.csv"

    load_index = reading.LOAD_INDEX.read(at("load_index"))
    speeds = reading.SPEED_SYMBOL.read(at("speed_symbol"))
    rims = reading.RIM_CODE.read(at("rim_code"))
    tables = Tables(
        load_index=load_index,
        speed_symbol=speeds,
        rim_code=rims,
        regions=reading.REGIONS.read(at("regions")),
        tread_minimum=reading.TREAD_MINIMUM.read(at("tread_minimum")),
        tread_advice=reading.TREAD_ADVICE.read(at("tread_advice")),
        new_depth=reading.NEW_DEPTH.read(at("new_depth")),
        measuring=reading.values(at("measuring")),
        matching=reading.MATCHING.read(at("matching")),
        rotation_rule=tuple(reading.ROTATION_RULE.read(at("rotation_rule")).values()),
        rotation_order=reading.ROTATION_ORDER.read(at("rotation_order")),
        rotation_interval=reading.ROTATION_INTERVAL.read(at("rotation_interval")),
        age_advice=reading.AGE_ADVICE.read(at("age_advice")),
        coins=reading.coins(at("coins")),
        repair=reading.rules(at("repair")),
        spare=reading.rules(at("spare")),
        pressure=reading.values(at("pressure")),
        lamp=reading.rules(at("lamp")),
        load_rules=reading.values(at("load_rules")),
        speed_derating=reading.SPEED_DERATING.read(at("speed_derating")),
        hydroplaning=reading.values(at("hydroplaning")),
        rolling=reading.values(at("rolling")),
        design=reading.values(at("design")),
        rim_ratio=tuple(reading.RIM_RATIO.read(at("rim_ratio")).values()),
        speedometer=reading.values(at("speedometer")),
        speedometer_rule=reading.rules(at("speedometer_rule")),
        speed_exception=reading.SPEED_EXCEPTION.read(at("speed_exception")),
        driveline=reading.rules(at("driveline")),
        assumed=reading.values(at("assumed")),
        stopping=reading.values(at("stopping")),
        physics=reading.values(at("physics")),
        cautions=reading.CAUTIONS.read(at("cautions")),
        myths=reading.MYTHS.read(at("myths")),
        wear_patterns=reading.WEAR_PATTERNS.read(at("wear_patterns")),
        condemning=reading.rules(at("condemning")),
        damage=reading.DAMAGE.read(at("damage")),
        gauges=reading.rules(at("gauges")),
        date_code=reading.rules(at("date_code")),
        bounds=reading.BOUNDS.read(at("bounds")),
        load_kg=MappingProxyType({index: row.load_kg for index, row in load_index.items()}),
        speed_kmh=MappingProxyType({symbol: row.speed_kmh for symbol, row in speeds.items()}),
        rim_mm=MappingProxyType({code: row.diameter_mm for code, row in rims.items()}),
    )
    _check_regions(tables)
    return tables


def _check_regions(tables: Tables) -> None:
    """Every region that a table names must be in the table of regions, and no chain of parents may run in a circle."""
    for region in tables.regions.values():
        seen = {region.id}
        while region.parent:
            if region.parent in seen or region.parent not in tables.regions:
                raise TableError(f"regions.csv: parent {region.parent!r} of {region.id!r} leads nowhere")
            region = tables.regions[region.parent]
            seen.add(region.id)
    named = {row.region for row in tables.tread_minimum.values()} | {row.region for row in tables.tread_advice.values()}
    named |= {row.region for row in tables.matching.values()} | {row.region for row in tables.repair.values()}
    named |= {row.region for row in tables.spare.values()} | {row.region for row in tables.age_advice.values()}
    more = (tables.speedometer_rule, tables.speed_exception, tables.condemning, tables.gauges, tables.lamp)
    named |= {row.region for rules in more for row in rules.values()}
    named |= {row.region for row in tables.rotation_interval.values()} | {row.region for row in tables.coins.values()}
    if unknown := sorted(named - set(tables.regions) - {ANY}):
        raise TableError(f"regions.csv: no region {', '.join(unknown)}, which another table names")
