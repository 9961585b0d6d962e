"""No name of a car make or model, tire maker, shop, gauge or tool brand, network, or person on a coin stands anywhere.

The names are kept only as hashes, so that none stands here either: single words and pairs of words that follow each
other, in small letters. Left out are names that are words of plain English as well (planets, animals, months, verbs,
first names, places, numbers): of those only pairs are known, such as a make with its model.
"""

import hashlib
import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
_SALT = "names that stay outside"
_NAMES = frozenset(
    """
    015507562271 01d6b1e4d152 028fac5d4ca5 0382292fb1f3 0410614376b5 0460a0afeb73 07c4a3ca5837 07f212d0da2a
    08a206a6ea0d 09127e5ffe42 098f547fb585 0af10dd6a5ea 0c581644a68d 0d2e4f8fe1a2 0eb9bda6e0e5 0ec538aac878
    10c2993cbf76 118c4c0c28a9 12476bc69a30 14581f6c9484 14dc076eabb5 15cee9b3223e 169e01044ff6 175a75667a0e
    184e9e5a9b72 1a423fc52555 1bc80f13a82c 1c30eab49ea0 1d29fe0b6345 1d31b2adea0d 1f0837e7b02f 21168683dff8
    221033b5144b 23304017a3da 240c9de97533 2412ba73139b 250b2b48dbca 25a261c069e1 264465ae2c8b 26b2e640baf6
    270583d95a37 296ebd497875 2a453d730b54 2af3d80ad616 2b5a2127f216 2bc8a428b533 2d1d63fc784a 2d9c1fa5a722
    2f2f5a031476 31217f36ca64 31af7ed2cb12 31b661175199 320023a9f440 3288940a45c4 32f12c5608cf 33072676c756
    336c62392172 340dcc8475c7 34bab9e96ea2 3526ac2359c5 3564345a49b8 35efbb8c16e3 375b79e2a9f3 375bb6c15051
    391e49d5f5a9 39c3475d992e 3c648deb24fe 3c77488d47d9 3c7b218c8777 3d64889b0d1d 3d8522c22659 3dc8379095f4
    3f047137f309 3f54a97d5c1a 400e516916dd 402188554fea 404534b20249 409a73a4b6c3 40ab7e61ab07 40f665032038
    418831416ad9 42afc1583b17 43f5493f20fb 44f1cb7b652e 45c7b2a999fc 460e22a508fb 4671d86d425a 47e6030a362b
    48dbf1cccdb7 490b2988734c 4919feac9dbc 4a8ecf8dc050 4b0dc8cefcc3 4c2f61ab1045 4cdef1a54edd 4f1287d717ab
    4f4676f4a5e7 4fa86d35d1eb 4fc3c9508962 51479cee2d1f 51d85e1a91dc 5244227b5744 52caea8245c5 52ea34052789
    52fc3dfe28f2 53ecb9667810 53fda9326952 5508ea81e148 55257e0d5dc8 55e3a24619d8 563f7b66c1a9 565f1418c64d
    56fea6175be7 5835ab0680ac 58a9e30d7d05 58ab6834d55a 58c005e4f2ca 596da6c89bbd 59ab88479d8b 5b28e2943b72
    5c6b3437adb5 5db12d888e18 5e466aad6ad5 5ecfb1d3ecc1 5fbb39d547fc 60eb969a8185 6244ec77318d 6414c39c5a69
    646ffe65a55b 6549e935fcf8 65eed6f7fd52 669aa7678182 67a6cbff4efd 681db4150a8e 6b50bef0e7c2 6bcbe6687305
    6c824ea02a03 6ca2f1a6b27d 6cae9933225e 6cf028804d91 6e02ecc59a4b 6f3fefb799bc 6f49acfbe6ca 70bab863cc72
    714606c702c8 71d28fa39c6e 7285a2d8a2c2 72b0ad4ecde6 72cc2bc1834d 744f5f5e7388 7573aa7ad4e7 75a7fb3cc307
    7658b9115fc0 782ee91866e5 79b71716eb19 7a31911e49a6 7a98b1034d5e 7b18e1a76d93 7b73cc476473 7bb25a26e186
    7bb8dc52a19e 7d4727915690 7e1cd4b5d91f 7f307019f526 7f7985aad37a 8053ee899a62 805638c16caa 816df69db2b0
    818bacc46e0e 82f23e0456cf 8307c3cba817 83c75901516d 83cc1b4aed99 84bd7036f4aa 859dcdd5f068 861894a0744c
    86ff052e673f 8729f9972ccb 8789a1163d85 87c20764cfb2 8954d3442fac 897c398546bf 8a4f58f8ba91 8acd60d319af
    8ae07c33a763 8ae49d4f5abf 8b27d789bacb 8bcd52d41d7a 8c790103b185 8e05c47e6bdb 8f7f98c622cf 9004c043db6c
    914396011b15 917e6d81fa86 938a4a382347 93e8bbee341e 9452f93fc630 94ecd35dfb91 960a8cbc5f81 96a020f3f2a5
    96cf8329f156 970ac427e16d 982b8e8fc0ee 9887c6ea3fe9 9aafa3cd1c8a 9af22e1bbba0 9c6af8d2747e 9d5349500e12
    9e2195c45f83 9f8320784863 a12c7d85ef9b a23c650cc3f8 a261052d9f04 a3035cc0408d a5798d541f6b a699ae9ef6ba
    a83f7b678d09 a885d7b0656b a8f817b04907 a9b8b4917e02 aa0f418890c8 aac979cb83e5 abf03664c1b5 ad121bc5f0a2
    ada00f41b580 add09e1f7bad af70c47a48c6 afa57ee24d5c b04d4bdf05df b04e2e6057f7 b0654ca43edd b07fdc476447
    b1548d331257 b1d9b61946ce b27b60c02802 b2c38448ee43 b30ccdb0a80e b31bfb5ca582 b3fea2bb8845 b7b052e3e0b8
    b902bc5baec7 b983e5d00aba bb7cf9701fef bc6f6ebaaff0 bcf7ad412ce8 be100c70e30b bed3a337e4e9 bf4801b7efe7
    bf708dfef7b8 c090a50fc1e2 c23213f7afb4 c38289ee7d04 c404ee282a17 c9bb054de5da ca64b5cb9d37 ca8f335520a3
    cb1ee5ee62a3 cb386c8cdd58 cb7065ac304b d00278cf4471 d10de5920c31 d170bc517a20 d1d0627fd2eb d23c9171ca8d
    d265a6fe6a40 d26caea24cee d2c59a3a99ce d467e9cfc98a d49d03f9b0de d5cc11c14f7f d79331babb59 d7e1b0acd637
    d7ffbef1a966 d9952bef591a d9af7a863198 daa54732c72f daad80e36084 dab7e059b88f dad78b3c77b3 db79135c805f
    dbb9239015fe dfd369c71fcc e2639a42d4be e41ece6ee067 e450c3ff0c9b e4b532ac6164 e4f0ee294d79 e566292a66a7
    e6b83d5b6d8e e7b7d0d864a4 e9607fe7364b e96dab4dc725 e9e2b226adc9 eb253ecb0a07 eb8969c35d92 ed47b409659d
    edd033b19f94 ede72b34a881 ede75a97ef0d ef374d8cb097 ef86ef321146 f0acc444b121 f0e0d150f8fd f1246b9ed257
    f1a2bbb6b0c1 f29baf515353 f3236d0c6083 f356dddafd71 f3ccc3e24e94 f3cd24b1be5a f3f819237b37 f4f1721ab2fc
    f52426e58cda f5ca2a5fa437 f614b83eb76c f78e388829e6 f7fef2d11fdf f88dd3cf071f f91254f91bbb fa4a7edd899b
    fc7b3646aefc fda2c3b858c4 fe8e4c993415 feb2b4eb9f9e feeeea07df87 ffd8fc4805fe
    """.split()
)
_WORD = re.compile(r"[^\W_]+")
_ESCAPED = re.compile(r"\\[A-Za-z]")
_JOINED = re.compile(r"(?<=[a-z])(?=[A-Z])")
_NOT_OURS = {".git", ".venv", ".mypy_cache", ".ruff_cache", ".pytest_cache", ".hypothesis", "__pycache__"}


def hashed(name: str) -> str:
    return hashlib.sha256(f"{_SALT}:{name}".encode()).hexdigest()[:12]


def said(text: str) -> set[str]:
    """Every word of ``text`` and every pair: also behind a pattern's escapes (``\\bname``) and joined as in OneName."""
    every: set[str] = set()
    for reading in {text, _ESCAPED.sub(" ", text), _JOINED.sub(" ", text)}:
        words = [word.lower() for word in _WORD.findall(reading)]
        every.update(words)
        every.update(map(" ".join, pairwise(words)))
    return every


def found(text: str, names: frozenset[str] = _NAMES) -> set[str]:
    return {name for name in said(text) if hashed(name) in names}


def texts() -> Iterator[tuple[str, str]]:
    """Every text file of the repository, and its own name."""
    for path in sorted(ROOT.rglob("*")):
        where = path.relative_to(ROOT)
        if _NOT_OURS & set(where.parts) or not path.is_file():
            continue
        content = path.read_bytes()
        yield str(where), str(where) if b"\0" in content[:8000] else f"{where}\n{content.decode('utf-8', 'replace')}"


def test_no_name_stands_in_any_file() -> None:
    where_said: dict[str, str] = {}
    for where, text in texts():
        where_said.update(dict.fromkeys(said(text), where))
    assert len(where_said) > 50_000, "hardly anything was read"
    assert {name: where for name, where in where_said.items() if hashed(name) in _NAMES} == {}


@pytest.mark.parametrize(
    "text",
    ["my Zorblatt is", r"re.compile(r'\bzorblatt\b')", "Quuxel Mart has it", "QuuxelMart", "quuxel_mart"],
)
def test_a_name_is_found_however_it_is_written(text: str) -> None:
    assert found(text, frozenset({hashed("zorblatt"), hashed("quuxel mart")}))


def test_words_that_only_hold_a_name_are_none() -> None:
    assert not found("zorblatting, the quuxel of a mart", frozenset({hashed("zorblatt"), hashed("quuxel mart")}))


def test_enough_names_are_known() -> None:
    assert len(_NAMES) >= 150 and all(len(name) == 12 for name in _NAMES)
