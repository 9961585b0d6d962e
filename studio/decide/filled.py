"""The pressure that a tire was last found to hold, cold."""

import datetime as dt

import msgspec

from studio.decide.measured import known
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.model.specimen import Specimen
from studio.reference.tables import Tables


class Filled(msgspec.Struct, frozen=True, kw_only=True):
    """A cold pressure with the day it was read and the path to it."""

    pressure: Quantity
    on: dt.date
    path: str

    @property
    def kpa(self) -> float:
        """The pressure in kPa."""
        return self.pressure.to("kPa").value


class PressureDoubt(msgspec.Struct, frozen=True, kw_only=True):
    """How far off a hand-held pressure gauge may be, and who says so."""

    half_width: Quantity
    source: Source

    @property
    def kpa(self) -> float:
        """The half width in kPa."""
        return self.half_width.to("kPa").value


def latest_cold(specimen: Specimen, path: str, on: dt.date) -> Filled | None:
    """The last cold pressure read up to ``on``; None where there is none. One read warm says nothing about the fill."""
    for number, reading in reversed(known(specimen, on)):
        read = reading.pressure
        if read is not None and read.cold:
            where = f"{path}.readings[{number}].pressure.pressure"
            return Filled(pressure=read.pressure, on=reading.on, path=where)
    return None


def pressure_doubt(tables: Tables) -> PressureDoubt:
    """How sure a pressure is that was read by hand."""
    row = tables.assumed["pressure_gauge_psi"]
    return PressureDoubt(half_width=Quantity(row.value, "psi"), source=row.source)
