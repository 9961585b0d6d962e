"""All reference tables in one frozen value."""

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from studio import shipped
from studio.model.caution import Caution
from studio.reference import rows
from studio.reference.reading import read_coins, read_rows
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
    barriers: Mapping[str, rows.BarrierKind]
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

    load_index = read_rows(at("load_index"), rows.LoadIndex)
    speeds = read_rows(at("speed_symbol"), rows.SpeedSymbol)
    rims = read_rows(at("rim_code"), rows.RimCode)
    tables = Tables(
        load_index=load_index,
        speed_symbol=speeds,
        rim_code=rims,
        regions=read_rows(at("regions"), rows.Region),
        tread_minimum=read_rows(at("tread_minimum"), rows.TreadMinimum),
        tread_advice=read_rows(at("tread_advice"), rows.TreadAdvice),
        new_depth=read_rows(at("new_depth"), rows.NewDepth),
        measuring=read_rows(at("measuring"), rows.Value),
        matching=read_rows(at("matching"), rows.MatchingRule),
        rotation_rule=tuple(read_rows(at("rotation_rule"), rows.RotationRule).values()),
        rotation_order=read_rows(at("rotation_order"), rows.RotationOrder),
        rotation_interval=read_rows(at("rotation_interval"), rows.RotationInterval),
        age_advice=read_rows(at("age_advice"), rows.AgeAdvice),
        coins=read_coins(at("coins")),
        repair=read_rows(at("repair"), rows.Rule),
        spare=read_rows(at("spare"), rows.Rule),
        pressure=read_rows(at("pressure"), rows.Value),
        lamp=read_rows(at("lamp"), rows.Rule),
        load_rules=read_rows(at("load_rules"), rows.Value),
        speed_derating=read_rows(at("speed_derating"), rows.SpeedDerating),
        hydroplaning=read_rows(at("hydroplaning"), rows.Value),
        rolling=read_rows(at("rolling"), rows.Value),
        design=read_rows(at("design"), rows.Value),
        rim_ratio=tuple(read_rows(at("rim_ratio"), rows.RimRatio).values()),
        speedometer=read_rows(at("speedometer"), rows.Value),
        speedometer_rule=read_rows(at("speedometer_rule"), rows.Rule),
        speed_exception=read_rows(at("speed_exception"), rows.SpeedException),
        driveline=read_rows(at("driveline"), rows.Rule),
        assumed=read_rows(at("assumed"), rows.Value),
        stopping=read_rows(at("stopping"), rows.Value),
        physics=read_rows(at("physics"), rows.Value),
        cautions=read_rows(at("cautions"), Caution),
        myths=read_rows(at("myths"), rows.Myth),
        barriers=read_rows(at("barriers"), rows.BarrierKind),
        wear_patterns=read_rows(at("wear_patterns"), rows.WearPattern),
        condemning=read_rows(at("condemning"), rows.Rule),
        damage=read_rows(at("damage"), rows.DamageKind),
        gauges=read_rows(at("gauges"), rows.Rule),
        date_code=read_rows(at("date_code"), rows.Rule),
        bounds=read_rows(at("bounds"), rows.Bound),
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
