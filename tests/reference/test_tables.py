"""The shipped tables load, hang together, and are what the lookups give."""

import shutil
from pathlib import Path

import pytest

from studio import shipped
from studio.reference import TableError, load_tables
from studio.reference.table import STANDINGS, read_table

TABLES = load_tables()
FOLDER = shipped.resources() / "reference"
FILES = sorted(FOLDER.glob("*.csv"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_shipped_row_says_where_it_was_published(path):
    header = path.read_text(encoding="utf-8").splitlines()[0].split(",")
    key = ("coin", "fact") if path.stem == "coins" else (header[0],)
    rows = read_table(path, header[:-3], key)
    assert rows
    assert all(row.source.title and row.source.locator and row.source.standing in STANDINGS for row in rows)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_advice_of_the_trade_is_never_called_published(path):
    for line in path.read_text(encoding="utf-8").splitlines():
        if "trade practice, no source" in line:
            assert line.endswith(",none,common practice")


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_without_a_source_the_table_does_not_load(path, tmp_path):
    shutil.copytree(FOLDER, tmp_path / "reference")
    target = tmp_path / "reference" / path.name
    lines = target.read_text(encoding="utf-8").splitlines()
    width = lines[0].count(",") + 1
    target.write_text("\n".join([*lines, ",".join(["x"] * (width - 3) + ["", "L", "published"])]), encoding="utf-8")
    with pytest.raises(TableError, match=f"{path.name}, line {len(lines) + 1}: no source"):
        load_tables(tmp_path / "reference")


def test_tables_are_read_once_and_cannot_be_changed():
    assert load_tables() is TABLES
    with pytest.raises(TypeError):
        TABLES.load_index[91] = TABLES.load_index[90]
    with pytest.raises(AttributeError):
        TABLES.load_index = {}


REGIONS = "us us-md eu uk de fr at ch cz sk si se no fi lv hr ee is lt it ca ca-qc ca-bc au nz jp".split()


@pytest.mark.parametrize("region", REGIONS)
def test_every_region_has_a_legal_minimum_of_its_own_or_from_its_parent(region):
    row = TABLES.legal_minimum(region)
    assert row is not None
    assert row.region in TABLES.region_chain(region)
    assert 1.5 <= row.depth.to("mm").value <= 1.6


def test_the_list_of_regions_is_complete():
    assert set(TABLES.regions) == set(REGIONS)


@pytest.mark.parametrize(
    ("region", "chain"),
    [("us", ("us",)), ("de", ("de", "eu")), ("ca-qc", ("ca-qc", "ca")), ("us-md", ("us-md", "us")), ("no", ("no",))],
)
def test_a_region_falls_back_on_its_parent(region, chain):
    assert TABLES.region_chain(region) == chain


def test_an_unknown_region_is_named():
    with pytest.raises(LookupError, match="region 'atlantis' is not known; expected one such as us, de or ca-qc"):
        TABLES.legal_minimum("atlantis")


@pytest.mark.parametrize(
    ("region", "season", "vehicle", "row"),
    [
        ("us", "all", "car", "us_car"),
        ("us-md", "all", "car", "us_car"),
        ("us", "all", "commercial_front", "us_commercial_front"),
        ("us", "winter", "car", None),
        ("de", "all", "car", "de_car"),
        ("de", "winter", "car", "de_winter"),
        ("at", "all", "car", "eu_car"),
        ("at", "winter", "car", "at_winter_radial"),
        ("hr", "winter", "car", None),  # Croatia asks 4 mm of summer tires carried with chains, of winter tires nothing
        ("ca-bc", "all", "car", "ca_car"),
        ("ca-bc", "winter", "car", "ca_bc_winter"),
        ("fr", "all", "car", "fr_car"),
        ("jp", "all", "motorcycle", "jp_motorcycle"),
    ],
)
def test_the_nearest_rule_of_that_season_is_found(region, season, vehicle, row):
    found = TABLES.legal_minimum(region, season, vehicle)
    assert (found.id if found else None) == row


def test_a_diagonal_tire_has_its_own_winter_limit_in_austria():
    found = TABLES.legal_minimum("at", "winter", construction="diagonal")
    assert (found.id, found.value) == ("at_winter_diagonal", 5)


@pytest.mark.parametrize(
    ("region", "season", "row"),
    [("us", "winter", "winter"), ("us", "wet", "wet"), ("us", "summer", None), ("de", "winter", "winter_eu"),
     ("de", "wet", "wet"), ("de", "summer", "summer_eu"), ("ch", "winter", "winter_ch"), ("jp", "wet", "wet")],
)  # fmt: skip
def test_advice_is_the_regions_own_or_the_general_one(region, season, row):
    found = TABLES.advised_depth(region, season)
    assert (found.id if found else None) == row


def test_matching_rules_come_with_the_regions_own_first():
    ids = [row.id for row in TABLES.matching_rules("fr")]
    assert ids[:2] == ["fr_axle_depth", "fr_axle_same"]
    assert "awd_depth" in ids
    assert "sk_axle_diameter" not in ids


def test_rules_of_repair_are_those_of_the_region_and_the_general_ones():
    assert next(iter(TABLES.rules_in(TABLES.repair, "sk"))).id == "speed_after_sk"
    assert "speed_after_cz" not in {row.id for row in TABLES.rules_in(TABLES.repair, "sk")}


@pytest.mark.parametrize(("aspect", "ratio"), [(82, 0.7), (75, 0.7), (60, 0.75), (55, 0.8), (45, 0.85), (35, 0.9)])
def test_rim_ratio_by_aspect(aspect, ratio):
    assert TABLES.rim_ratio_for(aspect).ratio == ratio


def test_no_rim_ratio_outside_the_table():
    assert TABLES.rim_ratio_for(10) is None


CAUTIONS = """worn_tire measuring jacking wheel_nuts mixing temporary_spare over_age inflating repair damage overload
hydroplaning size_change""".split()


@pytest.mark.parametrize("name", CAUTIONS)
def test_the_usual_cautions_are_there_and_short(name):
    caution = TABLES.cautions[name]
    assert caution.signal in ("WARNING", "CAUTION")
    assert 60 <= len(caution.text) <= 160


@pytest.mark.parametrize("name", sorted(TABLES.cautions))
def test_a_caution_defers_to_manual_law_or_professional(name):
    text = TABLES.cautions[name].text
    assert any(who in text for who in ("vehicle's manual", "vehicle's placard", "ocal law", "qualified tire"))


@pytest.mark.parametrize("name", sorted(TABLES.cautions))
def test_a_caution_is_told_to_refer_where_it_names_the_professional(name):
    caution = TABLES.cautions[name]
    assert caution.refers is ("professional" in caution.text)


def test_an_overlong_caution_does_not_load(tmp_path):
    shutil.copytree(FOLDER, tmp_path / "reference")
    path: Path = tmp_path / "reference" / "cautions.csv"
    path.write_text(path.read_text() + f"long,NOTICE,false,{'x' * 161},S,L,common practice\n")
    with pytest.raises(TableError, match="161 characters, a caution has at most 160"):
        load_tables(tmp_path / "reference")


@pytest.mark.parametrize(
    ("file", "line", "complaint"),
    [
        ("regions", "xx,Nowhere,metric,tyre,yy,S,L,common practice", "parent 'yy' of 'xx' leads nowhere"),
        ("regions", "xx,Nowhere,metric,tyre,xx,S,L,common practice", "parent 'xx' of 'xx' leads nowhere"),
        ("regions", "xx,Nowhere,imperial,tyre,,S,L,common practice", "units is 'imperial', expected one of us, metric"),
        ("tread_advice", "a,zz,wet,4,32nds,words,S,L,published", "no region zz, which another table names"),
        ("tread_advice", "a,us,wet,4,furlong,words,S,L,published", "unit is 'furlong'"),
        ("new_depth", "a,9,8,mm,words,S,L,published", "low 9 is above high 8"),
        ("coins", "a,A,us,thickness,9,mm,,,,,S,L,published", "coin 'a' has no diameter"),
        ("load_index", "151,0,S,L,published", "load_kg is '0', expected a number above 0"),
        (
            "wear_patterns",
            "a,A,lowest,,,watch,brief,cause,check,look,S,L,published",
            "inner is 'lowest', expected one of low, mid, high",
        ),
    ],
)
def test_a_row_that_makes_no_sense_does_not_load(tmp_path, file, line, complaint):
    shutil.copytree(FOLDER, tmp_path / "reference")
    path = tmp_path / "reference" / f"{file}.csv"
    path.write_text(path.read_text(encoding="utf-8") + line + "\n", encoding="utf-8")
    with pytest.raises(TableError) as error:
        load_tables(tmp_path / "reference")
    assert complaint in str(error.value)
