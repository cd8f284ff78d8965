"""The allowed list: every spelling of a unit that is understood, and what kind of thing it measures.

The conversion factors are pint's; this module only says which words stand for which pint unit, because
a units library that guesses (``5 mil`` as an angle, ``2 fl oz`` as femtolitre-ounces) is no door for a shop.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple


class Kind(NamedTuple):
    """What is measured: name in a sentence, the SI unit used inside, an example to show in a message."""

    phrase: str
    si: str
    example: str


KINDS: dict[str, Kind] = {
    "length": Kind("a length", "meter", "0.30 mm or 12 thou"),
    "area": Kind("an area", "meter**2", "0.3 mm^2"),
    "volume": Kind("a volume", "meter**3", "25 cm^3 or 100 mL"),
    "mass": Kind("a mass", "kilogram", "8 g"),
    "time": Kind("a time", "second", "60 s"),
    "temperature": Kind("a temperature", "kelvin", "20 degC or 68 degF"),
    "temperature difference": Kind("a difference of temperature", "kelvin", "3 K"),
    "angle": Kind("an angle", "radian", "25 deg"),
    "rotational speed": Kind("a speed of rotation", "radian/second", "800 rpm"),
    "frequency": Kind("a frequency", "hertz", "50 Hz"),
    "speed": Kind("a speed", "meter/second", "12 m/s"),
    "pressure": Kind("a pressure", "pascal", "120 psi or 8.3 bar"),
    "force": Kind("a force", "newton", "200 N"),
    "torque": Kind("a torque", "newton*meter", "4 N*m or 35 lbf*in"),
    "energy": Kind("an energy", "joule", "7 mJ"),
    "power": Kind("a power", "watt", "750 W"),
    "voltage": Kind("a voltage", "volt", "12 kV"),
    "current": Kind("a current", "ampere", "4 A"),
    "resistance": Kind("a resistance", "ohm", "2.6 kohm"),
    "inductance": Kind("an inductance", "henry", "1.0 mH"),
    "capacitance": Kind("a capacitance", "farad", "50 pF"),
    "magnetic flux": Kind("a magnetic flux", "weber", "87 uWb"),
    "flux density": Kind("a flux density", "tesla", "1.0 T"),
    "conductivity": Kind("a conductivity", "siemens/meter", "58 MS/m"),
    "resistance per length": Kind("a resistance per length", "ohm/meter", "0.54 ohm/m"),
    "mass flow": Kind("a mass flow", "kilogram/second", "0.5 kg/h"),
    "volume flow": Kind("a volume flow", "meter**3/second", "40 mL/min"),
    "density": Kind("a density", "kilogram/meter**3", "1.2 kg/m^3"),
    "ratio": Kind("a plain number", "", "0.25"),
}


class Word(NamedTuple):
    """One allowed unit: the pint expression and its kind."""

    pint: str
    kind: str
    prefixed: bool = False


class UnknownUnitError(Exception):
    """Private: carries the hint; the doors in :mod:`twostroke.units` turn it into their own error."""


_PREFIXES = {
    "p": "pico", "n": "nano", "μ": "micro", "u": "micro", "m": "milli", "c": "centi", "d": "deci",
    "h": "hecto", "k": "kilo", "M": "mega", "G": "giga",
}  # fmt: skip

# kind, pint unit, symbols, words (a plural s is added), prefixes allowed before symbol and word
_METRIC: list[tuple[str, str, str, str, str]] = [
    ("length", "meter", "m", "metre meter", "nμumcdk"),
    ("mass", "gram", "g", "gram gramme", "mk"),
    ("time", "second", "s sec", "second", "nμum"),
    ("volume", "liter", "L l", "litre liter", "μumcd"),
    ("frequency", "hertz", "Hz", "hertz", "kM"),
    ("pressure", "pascal", "Pa", "pascal", "hkM"),
    ("pressure", "bar", "bar", "bar", "m"),
    ("force", "newton", "N", "newton", "mk"),
    ("energy", "joule", "J", "joule", "μumk"),
    ("power", "watt", "W", "watt", "mk"),
    ("voltage", "volt", "V", "volt", "μumk"),
    ("current", "ampere", "A", "ampere amp", "μumk"),
    ("resistance", "ohm", "Ω ohm Ohm", "ohm", "μumkMG"),
    ("inductance", "henry", "H", "henry", "nμum"),
    ("capacitance", "farad", "", "farad", "pnμum"),
    ("magnetic flux", "weber", "Wb", "weber", "μum"),
    ("flux density", "tesla", "T", "tesla", "μum"),
]
_FARAD_SYMBOLS = {f"{prefix}F": f"{_PREFIXES[prefix]}farad" for prefix in "pnμum"}

# kind, pint expression, spellings separated by a bar
_FIXED: list[tuple[str, str, str]] = [
    ("length", "inch", 'in|inch|inches|"'),
    ("length", "foot", "ft|foot|feet"),
    ("length", "thou", "thou|thous|mil|mils|thousandths of an inch|thousandth of an inch"),
    ("length", "micrometer", "micron|microns"),
    ("area", "millimeter**2", "sq mm|square mm|square millimetre|square millimetres"),
    ("area", "inch**2", "sq in|square inch|square inches"),
    ("volume", "centimeter**3", "cc|ccm|cu cm|cubic centimetre|cubic centimetres|cubic centimeters|ccs"),
    ("volume", "inch**3", "cu in|cuin|cubic inch|cubic inches"),
    ("volume", "gallon", "US gal|US gals|US gallon|US gallons|USgal"),
    ("volume", "quart", "US qt|US quart|US quarts"),
    ("volume", "pint", "US pt|US pint|US pints"),
    ("volume", "fluid_ounce", "US fl oz|US floz|US fluid ounce|US fluid ounces|US oz"),
    ("volume", "imperial_gallon",
     "imp gal|imp gals|imperial gal|imperial gallon|imperial gallons|UK gal|UK gallon"),
    ("volume", "imperial_quart", "imp qt|imperial quart|imperial quarts|UK qt"),
    ("volume", "imperial_pint", "imp pt|imperial pint|imperial pints|UK pt|UK pint"),
    ("volume", "imperial_fluid_ounce",
     "imp fl oz|imp floz|imperial fl oz|imperial fluid ounce|imperial fluid ounces|UK fl oz|UK floz|imp oz"),
    ("mass", "pound", "lb|lbs|pound|pounds"),
    ("time", "minute", "min|mins|minute|minutes"),
    ("time", "hour", "h|hr|hrs|hour|hours"),
    ("time", "microsecond", "usec|μsec"),
    ("time", "millisecond", "msec"),
    ("temperature", "degree_Celsius",
     "°C|C|degC|deg C|degree C|degrees C|celsius|degree celsius|degrees celsius|° C"),
    ("temperature", "degree_Fahrenheit",
     "°F|F|degF|deg F|degree F|degrees F|fahrenheit|degree fahrenheit|degrees fahrenheit|° F"),
    ("temperature", "kelvin", "K|kelvin|kelvins"),
    ("temperature difference", "delta_degree_Celsius", "delta_degC|Δ°C|delta_degree_Celsius"),
    ("temperature difference", "delta_degree_Fahrenheit", "delta_degF|Δ°F|delta_degree_Fahrenheit"),
    ("angle", "degree", "°|deg|degs|degree|degrees|crank degrees|deg crank"),
    ("angle", "radian", "rad|radian|radians"),
    ("rotational speed", "revolutions_per_minute",
     "rpm|rev/min|revs/min|r/min|1/min|/min|min^-1|min-1|rev per min"),
    ("rotational speed", "revolution/second", "rps|rev/s|revs/s|r/s"),
    ("rotational speed", "radian/second", "rad/s"),
    ("rotational speed", "degree/second", "deg/s|°/s"),
    ("pressure", "psi", "psi|lb/in^2|lb/in2|lbs/in^2|lbf/in^2|lbf/in2|lb/sq in|lbs/sq in|lbf per sq in"),
    ("pressure", "inHg", 'inHg|in Hg|inches Hg|inch Hg|inches of mercury|"Hg|" Hg'),
    ("pressure", "mmHg", "mmHg|mm Hg"),
    ("pressure", "torr", "torr"),
    ("pressure", "atm", "atm|atmosphere|atmospheres"),
    ("pressure", "kilogram_force/centimeter**2", "kgf/cm^2|kgf/cm2|kg/cm^2|kg/cm2"),
    ("force", "kilogram_force", "kgf"),
    ("force", "pound_force", "lbf"),
    ("torque", "newton*meter", "N*m|Nm|N m|N-m|newton metre|newton metres|newton meters"),
    ("torque", "newton*centimeter", "N*cm|Ncm|N cm|N-cm"),
    ("torque", "pound_force*inch",
     "lbf*in|in*lbf|lbf in|in lbf|lbf-in|in-lbf|lb*in|in*lb|lb in|in lb|in-lb|lb-in|in lbs|in-lbs|inlb"
     "|inch pounds|inch-pounds|lbfin"),
    ("torque", "pound_force*foot",
     "lbf*ft|ft*lbf|lbf ft|ft lbf|lbf-ft|ft-lbf|lb*ft|ft*lb|lb ft|ft lb|ft-lb|lb-ft|ft lbs|ft-lbs|lbft|ftlb"
     "|foot pounds|foot-pounds|lbfft"),
    ("torque", "ounce_force*inch", "ozf*in|ozf in|ozf-in"),
    ("torque", "kilogram_force*meter", "kgf*m|kgf m|kgf-m|m*kgf"),
    ("torque", "kilogram_force*centimeter", "kgf*cm|kgf cm|kgf-cm"),
    ("conductivity", "megasiemens/meter", "MS/m"),
    ("conductivity", "siemens/meter", "S/m"),
    ("resistance", "kiloohm", "k ohm|k Ω|k ohms|kilohm|kilohms|kilo ohm|kilo ohms|kilo-ohm|kilo-ohms"),
    ("resistance", "megaohm", "M ohm|M Ω|M ohms|megohm|megohms|meg ohm|mega ohm"),
    ("voltage", "volt", "v"),
    ("current", "ampere", "a"),
    ("power", "watt", "w"),
    ("ratio", "percent", "%|percent|per cent|pct"),
]  # fmt: skip

_ASK = {
    "gal": "US gal or imp gal", "gals": "US gal or imp gal", "gallon": "US gal or imp gal",
    "gallons": "US gal or imp gal", "oz": "US fl oz or imp fl oz", "ounce": "US fl oz or imp fl oz",
    "ounces": "US fl oz or imp fl oz", "fl oz": "US fl oz or imp fl oz", "floz": "US fl oz or imp fl oz",
    "fluid ounce": "US fl oz or imp fl oz", "fluid ounces": "US fl oz or imp fl oz", "qt": "US qt or imp qt",
    "quart": "US qt or imp qt", "quarts": "US qt or imp qt", "pt": "US pt or imp pt",
    "pint": "US pt or imp pt", "pints": "US pt or imp pt",
}  # fmt: skip
_HINTS = {
    "k": "thousands of what? For a resistance write kohm",
    "'": "a single mark can mean feet or minutes; write ft or min",
    "us": "for microseconds write us in small letters, for a US measure write the measure too (US gal)",
    "thousandths": "write thou for thousandths of an inch, or mm",
    "hundredths": "write hundredths of a millimetre as a decimal with mm, such as 0.30 mm",
    "tenths": "tenths of what? write the value with mm or in",
    "turn": "for a count write the number alone; for a speed write rpm",
    "turns": "for a count write the number alone; for a speed write rpm",
}
NOT_LISTED = "it is not one of the units that are understood here"
_RMS = re.compile(r"(?i)k?v\s*(?:ac|dc|rms|pp|pk|p)$")
_CAPITALS_MEAN_SMALL = {"MM", "ML"}
_COMPOUND_ATOMS = re.compile(r"^(.*?)(?:\^?([23]))?$")
_NOT_IN_COMPOUNDS = {"temperature", "temperature difference", "ratio", "rotational speed", "frequency"}
_COMPOUND_KINDS = {
    "length^2": "area", "length^3": "volume", "length/time": "speed",
    "resistance/length": "resistance per length",
    "volume/time": "volume flow", "length^3/time": "volume flow", "mass/volume": "density",
    "mass/length^3": "density", "mass/time": "mass flow", "force/length^2": "pressure",
    "force*length": "torque", "length*force": "torque",
}  # fmt: skip


@lru_cache(maxsize=1)
def spellings() -> dict[str, Word]:
    """Every allowed spelling with its word, made once.

    Examples
    --------
    >>> spellings()["kΩ"].pint, spellings()["US fl oz"].pint
    ('kiloohm', 'fluid_ounce')
    """
    table: dict[str, Word] = {}
    for kind, unit, symbols, words, prefixes in _METRIC:
        for symbol in symbols.split():
            table[symbol] = Word(unit, kind)
            table.update({p + symbol: Word(_PREFIXES[p] + unit, kind, True) for p in prefixes})
        for word in words.split():
            for spelled in (word, word + "s"):
                table.setdefault(spelled, Word(unit, kind))
                for prefix in prefixes:
                    table.setdefault(_PREFIXES[prefix] + spelled, Word(_PREFIXES[prefix] + unit, kind))
                    if kind == "resistance":
                        table.setdefault(prefix + spelled, Word(_PREFIXES[prefix] + unit, kind, True))
    table.update({symbol: Word(unit, "capacitance", True) for symbol, unit in _FARAD_SYMBOLS.items()})
    for kind, expression, spelled_out in _FIXED:
        table.update({spelled: Word(expression, kind) for spelled in spelled_out.split("|")})
    return table


@lru_cache(maxsize=1)
def _folded() -> dict[str, list[tuple[str, Word]]]:
    folded: dict[str, list[tuple[str, Word]]] = {}
    for spelled, word in spellings().items():
        folded.setdefault(spelled.casefold(), []).append((spelled, word))
    return folded


@lru_cache(maxsize=2048)
def look_up(text: str) -> Word:
    """Find the unit that cleaned text stands for.

    Parameters
    ----------
    text : str
        Unit text in the plain form of :func:`twostroke._number_text.clean`.

    Returns
    -------
    Word
        The pint expression and the kind.

    Raises
    ------
    UnknownUnitError
        With a hint, when it is not in the list or could mean two things.

    Examples
    --------
    >>> look_up("PSI").pint, look_up("cm^3/min").kind
    ('psi', 'volume flow')
    """
    text = re.sub(r"\.(?=\s|$)", "", text.replace("U.S.", "US")).replace(".", "*")
    text = re.sub(r"\s+", " ", text).strip()
    if text in spellings():
        return spellings()[text]
    if text.casefold() in _ASK:
        raise UnknownUnitError(f"{text} is not the same everywhere; write {_ASK[text.casefold()]}")
    if text.casefold() in _HINTS:
        raise UnknownUnitError(_HINTS[text.casefold()])
    if _RMS.match(text):
        raise UnknownUnitError("write V or kV alone; peak, RMS and peak-to-peak are different values")
    return _any_case(text) or _compound(text)


def _any_case(text: str) -> Word | None:
    candidates = _folded().get(text.casefold(), []) if len(text) > 1 else []
    fitting = {
        word.pint: word
        for spelled, word in candidates
        if not word.prefixed
        or spelled[0] == text[0]
        or spelled[0] not in "mM"
        or text in _CAPITALS_MEAN_SMALL
    }
    if len(fitting) == 1:
        return next(iter(fitting.values()))
    if candidates:
        names = " or ".join(sorted({spelled for spelled, _ in candidates if len(spelled) == len(text)}))
        raise UnknownUnitError(
            f"in {text} capital and small letters make a difference; write for instance {names}"
        )
    return None


def _compound(text: str) -> Word:
    """Products and one quotient of allowed units, such as ``mL/min`` or ``kg/m^3``."""
    pieces = re.split(r"\s*(\*|/| per )\s*", text)
    operators, atoms = pieces[1::2], pieces[::2]
    divisions = [i for i, operator in enumerate(operators) if operator != "*"]
    if len(divisions) > 1 or (divisions and divisions[0] != len(operators) - 1) or len(atoms) > 3:
        raise UnknownUnitError("write one unit, at most one division, such as mL/min")
    expression, kinds = "", ""
    for operator, atom in zip(["", *operators], atoms, strict=True):
        match = _COMPOUND_ATOMS.match(atom)
        base, power = (match.group(1), match.group(2)) if match else (atom, None)
        word = spellings().get(base)
        if (
            word is None
            or word.kind in _NOT_IN_COMPOUNDS
            or (not operators and power is None)
            or base in ("lb", "lbs")
        ):
            raise UnknownUnitError(NOT_LISTED)
        if power and (word.kind != "length" or "*" in word.pint):
            raise UnknownUnitError("only a length can be squared or cubed here")
        joiner = "" if not operator else "*" if operator == "*" else "/"
        expression += f"{joiner}({word.pint})" + (f"**{power}" if power else "")
        kinds += joiner + word.kind + (f"^{power}" if power else "")
    if kinds not in _COMPOUND_KINDS:
        raise UnknownUnitError(NOT_LISTED)
    return Word(expression, _COMPOUND_KINDS[kinds])
