"""The currency codes of ISO 4217, to tell a currency from a misspelt unit.

From memory, not seen: the list of active codes changes by one or two in a year; a code that is
missing here is refused with the near match.
"""

_CODES = """
AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN
BZD CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS
GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW
KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD
NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD
SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VED
VES VND VUV WST XAF XCD XCG XOF XPF YER ZAR ZMW ZWG
"""
CURRENCIES = frozenset(_CODES.split())

_CENTS = ("cent", "cents", "c", "ct", "¢")
_WITH_CENTS = "AUD BBD BSD BZD CAD EUR FJD HKD JMD NZD SGD TTD TWD USD ZAR"
CENTS: dict[str, tuple[str, ...]] = dict.fromkeys(_WITH_CENTS.split(), _CENTS)
CENTS["GBP"] = ("p", "pence", "penny")
"""What the hundredth of a currency is called, where it is priced in it."""

SIGNS = "$€£¥₹"
"""Signs that people write for a currency; each may mean several."""
