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
    """A number written in digits, in words: ``4.0`` is ``four``, ``-1.25`` is ``minus one point two five``."""
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
