"""The exemplar characters of every locale in Unicode's CLDR 41 (Debian: unicode-cldr-core), main and auxiliary ones, as
patterns of ICU's UnicodeSet, one a line."""
import glob
import xml.etree.ElementTree as Tree

for file in sorted(glob.glob("/usr/share/unicode/cldr/common/main/*.xml")):
    for characters in Tree.parse(file).iter("exemplarCharacters"):
        if characters.get("type") in (None, "auxiliary") and (characters.text or "").strip().startswith("["):
            print(characters.text.strip())
