"""How unequal the manual lets the tires be: first its form, then its number. Neither is made up for the other."""

from typing import Any

from msgspec.structs import replace

from studio.model.car import Car, Tolerance, ToleranceForm
from studio.model.quantity import Kind, Quantity
from studio.window.subject import Subject
from studio.window.value_fields import ChoiceField, QuantityField
from studio.window.words import TOLERANCES

_KINDS: dict[str, Kind] = {"depth": "depth", "circumference": "length", "percent": "share"}


class ToleranceFields:
    """A choice of the form and a field for the number; the car has a tolerance once both are known."""

    def __init__(self, subject: Subject) -> None:
        self._waiting: ToleranceForm | None = None
        self.form = ChoiceField(subject, "tolerance.form", "tolerance", TOLERANCES, chars=26)
        self.limit = QuantityField(subject, "tolerance.limit", "tolerance", "depth")
        self.form.through(self._form, self._with_form)
        self.limit.through(self._limit, self._with_limit)

    def _form(self, car: Car) -> ToleranceForm | None:
        form = car.tolerance.form if car.tolerance else self._waiting
        if form and hasattr(self, "limit"):
            self.limit.kind = _KINDS[form]
        return form

    def _with_form(self, car: Car, form: Any) -> Car:
        """The number of another form means another thing, so it is asked for anew."""
        self._waiting = form
        return replace(car, tolerance=None)

    def _limit(self, car: Car) -> Quantity | None:
        return car.tolerance.limit if car.tolerance else None

    def _with_limit(self, car: Car, limit: Quantity | None) -> Car:
        form = car.tolerance.form if car.tolerance else self._waiting
        if limit is None:
            self._waiting = form
            return replace(car, tolerance=None)
        if form is None:
            raise ValueError(f"{limit.text()} was read; expected the form of the tolerance first, such as percent")
        return replace(car, tolerance=Tolerance(form=form, limit=limit))
