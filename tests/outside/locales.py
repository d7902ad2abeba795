"""Names of persons and places of many locales, from Debian's python3-fake-factory, and what no face of the catalogue draws.

usage: locales.py SEED CATALOGUE; prints JSON: [{"locale", "text", "undrawn": [code points]}]
"""

import json
import re
import sys
from pathlib import Path

from faker import Faker
from fontTools.ttLib import TTFont

LOCALES = """ar_EG ar_SA bg_BG bs_BA cs_CZ de_AT de_CH de_DE dk_DK el_GR en_GB en_IE en_US es_ES es_MX et_EE fa_IR fi_FI fr_CH
fr_FR he_IL hi_IN hr_HR hu_HU id_ID it_IT ja_JP ka_GE ko_KR lt_LT lv_LV ne_NP nl_BE nl_NL no_NO pl_PL pt_BR pt_PT ro_RO ru_RU
sk_SK sl_SI sv_SE th_TH tr_TR tw_GH uk_UA zh_CN zh_TW""".split()
NAMES, PLACES = 40, 8
UNDRAWN = "Ada \U00013080"  # an Egyptian hieroglyph, which the catalogue has no face for


def drawn(catalogue):
    """All code points that a face of the catalogue maps to a glyph."""
    points = set()
    for file in set(re.findall(r'^file = "(.*)"', Path(catalogue).read_text(encoding="utf-8"), re.M)):
        path = Path("/usr/share/fonts") / file
        if path.exists():
            points |= set(TTFont(path, fontNumber=0, lazy=True).getBestCmap())
    return points


def texts(locale, seed):
    fake = Faker(locale)
    fake.seed_instance(seed)
    return [fake.name() for _ in range(NAMES)] + [fake.city() for _ in range(PLACES)]


def main():
    seed, points = int(sys.argv[1]), drawn(sys.argv[2])
    items = [{"locale": "none", "text": UNDRAWN, "undrawn": sorted({ord(c) for c in UNDRAWN} - points)}]
    for locale in LOCALES:
        for text in texts(locale, seed):
            undrawn = sorted({ord(c) for c in text} - points)
            items.append({"locale": locale, "text": text, "undrawn": undrawn})
    print(json.dumps(items))


main()
