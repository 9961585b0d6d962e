"""How deep rain stands on a road: the film above the tips of its texture, by two published forms."""

import msgspec

from studio.decide.audience import Audience
from studio.decide.wording import on_paper, paper_number
from studio.model.circumstances import Circumstances
from studio.model.quantity import MINUS, Quantity, length
from studio.reference import numbers
from studio.reference.rows import Value
from studio.reference.tables import Tables
from studio.tires.water import WaterFilm

_SURFACE = "asphalt"


class Road(msgspec.Struct, frozen=True, kw_only=True):
    """The road and the rain on it, as far as the episode says."""

    rain: Quantity | None = None
    texture: Quantity | None = None
    drainage: Quantity | None = None
    slope: Quantity | None = None

    @classmethod
    def of(cls, circumstances: Circumstances) -> "Road":
        """The road of an episode's circumstances."""
        return cls(
            rain=circumstances.rain, texture=as_length(circumstances.texture_depth),
            drainage=circumstances.drainage_length, slope=circumstances.road_slope,
        )  # fmt: skip

    def texture_or_assumed(self, tables: Tables) -> Quantity:
        """The texture depth; that of dense asphalt where none is given."""
        return self.texture or length(texture_row(tables).value)

    @property
    def given(self) -> tuple[str, ...]:
        """Paths to what the episode says."""
        names = {"rain": self.rain, "texture_depth": self.texture, "drainage_length": self.drainage,
                 "road_slope": self.slope}  # fmt: skip
        return tuple(f"circumstances.{name}" for name, value in names.items() if value is not None)


class Film(msgspec.Struct, frozen=True, kw_only=True):
    """The film of a rain. Each form may give less than nothing: then the water stays within the texture."""

    rain: Quantity
    texture: Quantity
    drainage: Quantity
    slope: Quantity
    roughness: float
    by_gallaway_mm: float
    by_kinematic_mm: float
    assumed: tuple[Value, ...]

    @property
    def above(self) -> Quantity:
        """The film above the texture by the form of 1979; 0 where the water stays within the texture."""
        return length(max(self.by_gallaway_mm, 0.0))

    @property
    def other(self) -> Quantity:
        """The same by the kinematic wave."""
        return length(max(self.by_kinematic_mm, 0.0))

    @property
    def apart_mm(self) -> float:
        """How far the two forms are apart."""
        return abs(self.above.value - self.other.value)


def as_length(given: Quantity | None) -> Quantity | None:
    """A depth of water or texture, which no tread gauge reads, as a length; None where it is nothing."""
    if given is None or given.to("in").value <= 0:
        return None
    return Quantity(given.value, given.unit, "length")


def texture_row(tables: Tables) -> Value:
    """The texture that is taken where the episode gives none."""
    return tables.hydroplaning[f"{_SURFACE}_texture_mm"]


def film_of(road: Road, tables: Tables) -> Film | None:
    """The film of the road's rain; None without rain."""
    if road.rain is None:
        return None
    drain, fall = tables.assumed["drainage_length_ft"], tables.assumed["road_slope_percent"]
    rough = tables.hydroplaning[f"{_SURFACE}_roughness"]
    assumed = [rough]
    assumed += [texture_row(tables)] if road.texture is None else []
    assumed += [drain] if road.drainage is None else []
    assumed += [fall] if road.slope is None else []
    texture = road.texture_or_assumed(tables)
    drainage, slope = road.drainage or Quantity(drain.value, "ft"), road.slope or Quantity(fall.value, "%")
    return _film(road.rain, texture, drainage, slope, rough.value, tuple(assumed), tables)


def _film(
    rain: Quantity, texture: Quantity, drainage: Quantity, slope: Quantity, roughness: float,
    assumed: tuple[Value, ...], tables: Tables,
) -> Film:  # fmt: skip
    forms = WaterFilm.from_numbers(numbers(tables.hydroplaning))
    mm, meters, mm_per_h, share = (
        texture.to("mm").value, drainage.to("m").value, rain.to("mm/h").value, slope.value / 100
    )  # fmt: skip
    return Film(
        rain=rain, texture=texture, drainage=drainage, slope=slope, roughness=roughness, assumed=assumed,
        by_gallaway_mm=forms.above_texture_mm(texture_mm=mm, path_m=meters, rain_mm_per_h=mm_per_h, slope=share),
        by_kinematic_mm=forms.kinematic_mm(
            roughness=roughness, path_m=meters, rain_mm_per_h=mm_per_h, slope=share, texture_mm=mm
        ),
    )  # fmt: skip


def working(film: Film, audience: Audience, tables: Tables) -> tuple[str, ...]:
    """The steps of both forms."""
    row = {key: paper_number(Quantity(abs(value.value), "")) for key, value in tables.hydroplaning.items()}
    mm, meters = paper_number(film.texture.to("mm")), paper_number(film.drainage.to("m"))
    hourly, slope = paper_number(film.rain.to("mm/h")), paper_number(Quantity(film.slope.value / 100, ""))
    scale, rough = f"{tables.hydroplaning['film_scale_mm'].value:g}", f"{film.roughness:g}"
    factors = (f"{mm}^{row['film_texture_exponent']}", f"{meters}^{row['film_length_exponent']}",
               f"{hourly}^{row['film_rain_exponent']}")  # fmt: skip
    flow = f"{rough} × {meters} × {hourly} / ({row['pavdrn_divisor']} × √{slope})"
    return (
        *_assumed(film),
        f"Rain {audience.both(film.rain)}, texture {on_paper(film.texture.to('mm'))}, run-off over "
        f"{audience.both(film.drainage)} at {film.slope.text()}",
        f"Film of 1979 (Gallaway), in mm: {scale} × {' × '.join(factors)} / {slope}^{row['film_slope_exponent']} "
        f"{MINUS} {mm} = {paper_number(length(film.by_gallaway_mm))}",
        f"Kinematic wave (PAVDRN), in mm: ({flow})^{row['pavdrn_exponent']} {MINUS} {mm} = "
        f"{paper_number(length(film.by_kinematic_mm))}",
        "Both are for water that runs off an even road; ruts and hollows hold more",
    )


def _assumed(film: Film) -> list[str]:
    return [
        f"Assumed: {row.means}, {f'{row.value:g} {row.unit}'.strip()} ({row.source.standing})" for row in film.assumed
    ]
