"""Numbers in English words, as a presenter says them."""

_ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
    "seventeen eighteen nineteen"
).split()
_TENS = "zero ten twenty thirty forty fifty sixty seventy eighty ninety".split()
_LARGE = ((1_000_000_000, "billion"), (1_000_000, "million"), (1_000, "thousand"), (100, "hundred"))


def spell_integer(value: int) -> str:
    """``value`` (0 or more) in words: ``fifty-five``, ``two hundred forty``."""
    if value < 20:
        return _ONES[value]
    if value < 100:
        tens, ones = divmod(value, 10)
        return _TENS[tens] + (f"-{_ONES[ones]}" if ones else "")
    for size, name in _LARGE:
        if value >= size:
            head, rest = divmod(value, size)
            return f"{spell_integer(head)} {name}" + (f" {spell_integer(rest)}" if rest else "")
    raise AssertionError("unreachable: values below 100 were handled above")


def spell_number(digits: str) -> str:
    """A number written in digits, in words: ``4.0`` is ``four``, ``-1.25`` is ``minus one point two five``.

    ``1e308`` is ``one times ten to the power of three hundred eight``.
    """
    digits, _, power = digits.partition("e")
    if power:
        return f"{spell_number(digits)} times ten to the power of {spell_number(power)}"
    sign = "minus " if digits[:1] in ("-", "−") else ""
    whole, _, decimals = digits.lstrip("-−").partition(".")
    decimals = decimals.rstrip("0")
    words = spell_integer(int(whole))
    if decimals:
        words += " point " + " ".join(_ONES[int(digit)] for digit in decimals)
    return sign + words


def spell_thirty_seconds(digits: str) -> str:
    """A number of thirty-seconds of an inch: ``two thirty-seconds of an inch``."""
    words = spell_number(digits)
    return f"{words} thirty-second{'' if words == 'one' else 's'} of an inch"


_PARTS = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty-second", 10: "tenth"}
_CURRENCIES = {
    "USD": ("dollar", "dollars"), "CAD": ("dollar", "dollars"), "AUD": ("dollar", "dollars"), "EUR": ("euro", "euros"),
    "GBP": ("pound", "pounds"), "CHF": ("franc", "francs"),
}  # fmt: skip


def spell_fraction(top: int, bottom: int) -> str:
    """A fraction below one as people say it: ``an eighth``, ``three quarters``, ``half``."""
    name = _PARTS[bottom]
    if top == 1:
        return name if bottom == 2 else f"{'an' if name.startswith('e') else 'a'} {name}"
    return f"{spell_integer(top)} {name}s"


def spell_mixed(whole: int, top: int, bottom: int) -> str:
    """A whole number with a fraction: ``two and a half``; the fraction alone where the whole is nothing."""
    if not top:
        return spell_integer(whole)
    fraction = f"{'a ' if bottom == 2 and whole else ''}{spell_fraction(top, bottom)}"
    return f"{spell_integer(whole)} and {fraction}" if whole else fraction


def spell_money(digits: str, currency: str) -> str:
    """An amount in words, without cents where there are none: ``one hundred ninety-six dollars``."""
    whole, _, cents = digits.partition(".")
    words = spell_number(digits) if cents.strip("0") else spell_number(whole)
    one, many = _CURRENCIES.get(currency, (currency, currency))
    return f"{words} {one if words == 'one' else many}".strip()
