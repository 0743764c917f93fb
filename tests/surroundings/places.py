"""What machines, accounts and folders differ in, each by a name."""

from __future__ import annotations

import shutil
import subprocess
from functools import cache
from pathlib import Path

# Zones at the ends of what there is, and what is no zone. Offsets with seconds were in force until
# 1937 (tz database, Europe/Amsterdam: +0:19:32); POSIX allows up to 24 hours either way
# (IEEE 1003.1, 8.3, TZ), which Python's datetime does not (library reference, tzinfo.utcoffset).
ZONES = {
    "farthest east": "Pacific/Kiritimati",
    "farthest west": "Etc/GMT+12",
    "quarter hours": "Asia/Kathmandu",
    "seconds": "AMT-0:19:32",
    "nearly a day": "FAR-23:59:59",
    "a whole day": "FAR-24",
    "a whole day back": "FAR+24:59:59",
    "no such zone": "Nowhere/At all",
    "a file that is none": ":/etc/passwd",
    "nothing": "",
    "half a rule": "CET-1CEST,M3.5",
}
# Without UTF-8 mode and without the coercion of PEP 538 Python takes the locale as it is.
RAW: dict[str, str | None] = {"PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
LOCALES: dict[str, dict[str, str | None]] = {
    "C": {"LC_ALL": "C", **RAW},
    "POSIX": {"LC_ALL": "POSIX", **RAW},
    "C, mended by Python": {"LC_ALL": "C", "PYTHONUTF8": None},
    "not installed": {"LC_ALL": "xx_YY.UTF-8", **RAW},
    "no word": {"LC_ALL": "", "LANG": "", "LANGUAGE": "", **RAW},
    "an ASCII screen": {"PYTHONIOENCODING": "ascii"},
    "a western screen": {"PYTHONIOENCODING": "cp1252"},
    "every encoding said": {"PYTHONWARNDEFAULTENCODING": "1", "PYTHONWARNINGS": "error"},
    "a narrow, dumb terminal": {"COLUMNS": "1", "LINES": "1", "TERM": "dumb"},
    "no terminal's name": {"COLUMNS": "x", "TERM": ""},
}
# Made by localedef where it and its sources are (Debian: the package locales). Turkish has another
# small I than the others; the rest write otherwise than in UTF-8.
MADE = {
    "tr_TR.ISO-8859-9": ("tr_TR", "ISO-8859-9"),
    "tr_TR.UTF-8": ("tr_TR", "UTF-8"),
    "de_DE.ISO-8859-1": ("de_DE", "ISO-8859-1"),
    "ja_JP.EUC-JP": ("ja_JP", "EUC-JP"),
    "ar_SA.ISO-8859-6": ("ar_SA", "ISO-8859-6"),
}
NAMES = {
    "spaces": " a  shop ",
    "quotes": 'it\'s "a" `shop`',
    "a shell's signs": "$(exit 1); x & y | z > *?{a,b} !1 ~ \\",
    "markup": "[bold red]x[/] <b>&amp;</b> %s {0} {file}",
    "two lines": "first\nsecond\rthird\tend",
    "umlauts": "Hof Süd, 第二工場",
    "decomposed": "Su\u0308d",
    "no text at all": "\udcff\udc80 raw",
    "right to left": "a\u202elmay.\u2066b",
    "separators": "a:b=c,d;e#f@g%h",
    "a dash": "-o",
    "a number": "1.0",
    "as long as one name may be": "n" * 255,
}


@cache
def made_locale(name: str, folder: Path) -> bool:
    """Whether the locale could be made in the folder, which is then the value of LOCPATH."""
    if shutil.which("localedef") is None:
        return False
    source, encoding = MADE[name]
    command = ["localedef", "-i", source, "-f", encoding, str(folder / name)]
    return subprocess.run(command, capture_output=True, check=False).returncode == 0
