"""The climate of a place through a document: each way to say where it stands, and what it asks where that is not enough."""

import pytest

from speccheck.survey import Origin


def at(place: str, more: str = "") -> str:
    return f"""
speccheck: 1
project: {{place: {place}{more}}}
assemblies: {{wall: {{kind: wall, layers: [{{material: concrete, thickness: 200 mm}}]}}}}
"""


def zones(facts) -> tuple[object, object]:
    return facts["climate.zone_2018"].value, facts["climate.zone_2021"].value


# Zones by the county tables of IECC 2018 and 2021 (read); ZIP areas and stations of the shipped tables.
@pytest.mark.parametrize(
    ("place", "old", "new"),
    [
        ('{zip: "04101"}', "6A", "6A"),  # Portland, Cumberland County, Maine
        ('{fips: "23005"}', "6A", "6A"),
        ("{county: Cumberland, state: ME}", "6A", "6A"),
        ("{county: Cumberland County, state: ME}", "6A", "6A"),
        ('{fips: "01031"}', "3A", "2A"),  # Coffee County, Alabama: warmer on the newer map
        ("{county: Coffee, state: AL}", "3A", "2A"),
        ("{zone: 4C}", "4C", "4C"),
        ('{zone: "8"}', "8", "8"),
    ],
)
def test_zones_of_both_maps(facts_of, place, old, new):
    facts = facts_of(at(place))
    assert zones(facts) == (old, new)
    assert facts.value("climate.zone") == new
    assert facts.value("climate.zone_number") == float(new[0])
    assert facts.value("climate.moisture_regime") == new[1:]
    assert facts.value("climate.cold") is (new == "4C" or int(new[0]) >= 5)


def test_a_zone_alone_takes_a_representative_place_and_says_so(facts_of):
    facts = facts_of(at("{zone: 6A}"))
    assert facts["climate.zone"].origin is Origin.COMPUTED
    assert facts["climate.zone_2021"].origin is Origin.DECLARED
    winter = facts["climate.winter_mean_temperature"]
    assert winter.value < 0
    assert len(winter.assumed) == 1
    assert "stands in for zone 6A, since only the zone is given" in winter.assumed[0]
    assert facts["climate.station_distance"].inapplicable


def test_a_station_tells_zone_and_months(facts_of):
    facts = facts_of(at('{station: "726060"}'))  # Portland, Maine, in Cumberland County
    assert zones(facts) == ("6A", "6A")
    assert facts["climate.winter_mean_temperature"].assumed == ()
    assert facts.value("climate.station_distance") == 0.0
    assert (
        facts.value("climate.coldest_month_temperature") <= facts.value("climate.winter_mean_temperature") < 0
    )


def test_a_station_that_is_not_in_the_table(facts_of):
    facts = facts_of(at('{station: "999999"}'))
    assert "No station '999999'" in facts["climate.zone"].missing[0].question


def test_coordinates_take_the_nearest_station_and_say_so(facts_of):
    facts = facts_of(at("{latitude: 43.66, longitude: -70.26}"))
    assert zones(facts) == ("6A", "6A")
    assert facts["climate.zone_2021"].origin is Origin.ASSUMED
    assert "nearest station" in facts["climate.zone_2021"].source
    assert facts.value("climate.station_distance") < 20_000


def test_a_zip_with_its_station_at_a_distance_says_how_far(facts_of):
    winter = facts_of(at('{zip: "04101"}'))["climate.winter_mean_temperature"]
    assert winter.source.endswith("PORTLAND INTL JETPORT") or "Portland" in winter.source
    assert not winter.assumed or "km away" in winter.assumed[0]


class TestBorders:
    """ZIP areas that touch two zones: the county is asked for, and only where the map in question is unsure."""

    def test_both_maps_unsure(self, facts_of):
        facts = facts_of(at('{zip: "03225"}'))  # Belknap, New Hampshire, 6A; a neighbouring county is 5A
        assert zones(facts) == (None, None)
        gap = facts["climate.zone"].missing[0]
        assert gap.question == "ZIP 03225 touches more than one zone (5A and 6A): which county is it?"
        assert gap.path == ("project", "place", "zip")
        assert facts.value("climate.other_zones") == ("5A",)
        assert facts["climate.cold"].missing == (gap,)
        assert facts["climate.warm_humid"].missing == (gap,)

    def test_the_older_map_alone_unsure(self, facts_of):
        facts = facts_of(
            at('{zip: "03104"}')
        )  # Hillsborough, New Hampshire: 5A on both, a neighbour 6A until 2018
        assert zones(facts) == (None, "5A")
        assert "(5A and 6A)" in facts["climate.zone_2018"].missing[0].question
        assert facts.value("climate.zone") == "5A"

    def test_the_newer_map_alone_unsure(self, facts_of):
        facts = facts_of(at('{zip: "03276"}'))  # Merrimack: 6A until 2018, 5A since; a neighbour stays 6A
        assert facts["climate.zone_2021"].value is None
        assert facts["climate.zone_2021"].missing[0].wanted == "county"

    def test_the_county_settles_it(self, facts_of):
        facts = facts_of(at("{county: Belknap, state: NH}"))
        assert zones(facts) == ("6A", "6A")


class TestNotTold:
    """Places that do not tell a zone."""

    def test_no_place(self, facts_of):
        facts = facts_of(
            "speccheck: 1\nassemblies: {wall: {kind: wall, layers: [{material: osb, thickness: 11 mm}]}}\n"
        )
        questions = {
            gap.question
            for name in ("zone", "zone_2018", "cold", "winter_mean_temperature")
            for gap in facts[f"climate.{name}"].missing
        }
        assert questions == {"Where does the building stand (ZIP code, county or climate zone)?"}

    def test_unknown_county_names_those_near_it(self, facts_of):
        gap = facts_of(at("{county: Cumberlend, state: ME}"))["climate.zone"].missing[0]
        assert "Cumberland" in gap.question
        assert gap.path == ("project", "place", "county")

    def test_unknown_zip(self, facts_of):
        gap = facts_of(at('{zip: "00001"}'))["climate.zone"].missing[0]
        assert gap.question == "ZIP 00001 is not in the table of ZIP areas: which county or zone is it?"

    def test_degree_days_alone_tell_no_united_states_zone(self, facts_of):
        # DOE/PNNL zones go by county; never reckoned from degree days where the table decides.
        facts = facts_of(at("{degree-days: 4200 K·d}"))
        assert facts["climate.zone"].value is None
        assert facts.value("climate.heating_degree_days") == 4200
        assert facts["climate.heating_degree_days"].origin is Origin.DECLARED


@pytest.mark.parametrize(
    ("place", "cold"), [("{degree-days: 2999 K·d}", False), ("{degree-days: 3000 K·d}", True)]
)
def test_a_place_told_by_degree_days_is_cold_where_zone_5_begins(facts_of, place, cold):
    # IECC 2021 table R301.3(1): zone 5 from 3000 K·d below 18 °C (read)
    assert facts_of(at(place)).value("climate.cold") is cold


class TestCanada:
    """Canadian towns and bands of degree days: NBC 2020 table 9.36.1.2. (read)."""

    @pytest.mark.parametrize(
        ("town", "state", "days"),
        [("Airdrie", "AB", 5200), ("Banff", "AB", 5500)],  # Appendix C rows, read
    )
    def test_degree_days_of_a_town(self, facts_of, town, state, days):
        facts = facts_of(at(f"{{town: {town}, state: {state}}}"))
        assert facts.value("climate.heating_degree_days") == days
        assert facts.value("climate.degree_day_thousands") == 5.0
        assert facts.value("project.country") == "ca"

    @pytest.mark.parametrize(
        ("days", "band"),
        [
            (2999, "4"),
            (3000, "5"),
            (3999, "5"),
            (4000, "6"),
            (4999, "6"),
            (5000, "7A"),
            (5999, "7A"),
            (6000, "7B"),
            (6999, "7B"),
            (7000, "8"),
        ],
    )
    def test_bands(self, facts_of, days, band):
        assert facts_of(at(f"{{degree-days: {days} K·d}}")).value("climate.canada_band") == band

    def test_a_town_misspelt_names_those_near_it(self, facts_of):
        gap = facts_of(at("{town: Airdri, state: AB}"))["climate.heating_degree_days"].missing[0]
        assert "Airdrie" in gap.question

    def test_a_town_gives_no_temperatures(self, facts_of):
        fact = facts_of(at("{town: Airdrie, state: AB}"))["climate.winter_mean_temperature"]
        assert fact.value is None
        assert "outdoor temperatures" in fact.missing[0].wanted


class TestWeatherFile:
    """A weather file gives the months; the zone comes from the rest of the place."""

    def test_months_of_the_file(self, facts_of, steady_weather):
        facts = facts_of(at("{zone: 5A, weather-file: steady.epw}"), steady_weather(4.0))
        for name in ("winter_mean", "coldest_month", "warmest_month"):
            assert facts.value(f"climate.{name}_temperature") == pytest.approx(4.0, abs=1e-6)
        assert facts.value("climate.months_below_45f") == 12.0
        assert facts["climate.winter_mean_temperature"].source == "weather file steady.epw"
        assert facts.value("climate.zone") == "5A"
        assert facts.value("climate.summer_dew_point") == pytest.approx(2.0, abs=0.1)

    def test_a_file_that_is_not_there(self, facts_of, tmp_path):
        from speccheck.tables.climate import WeatherFileError

        with pytest.raises(WeatherFileError, match=r"gone\.epw"):
            facts_of(at("{zone: 5A, weather-file: gone.epw}"), tmp_path)


def test_warm_humid_goes_by_county(facts_of):
    # Asterisks of the county table (read): Baldwin County, Alabama, carries one; zones 4 and colder never do.
    assert facts_of(at("{county: Baldwin, state: AL}")).value("climate.warm_humid") is True
    assert facts_of(at("{zone: 5A}")).value("climate.warm_humid") is False
    assert facts_of(at("{zone: 2A}"))["climate.warm_humid"].missing[0].wanted == "county"
    assert facts_of(at("{zone: 2B}")).value("climate.warm_humid") is False


def test_cooling_follows_the_zone_only_where_it_is_not_declared(facts_of):
    warm, cold = (facts_of(at(f"{{zone: {zone}}}"))["project.cooling_likely"] for zone in ("2A", "6A"))
    assert (warm.value, cold.value) == (True, False)
    assert warm.assumed
    declared = facts_of(at("{zone: 6A}", ", indoor: {cooled: true}"))["project.cooling_likely"]
    assert declared.value is True
    assert not declared.assumed


class TestStationNames:
    """A station by its name, as the report prints it; the table tells the number."""

    @pytest.mark.parametrize(
        "name", ["Montpelier AP", "montpelier  ap", "Montpelier AP, VT", "726145 Montpelier AP", "726145"]
    )
    def test_number_and_name_lead_to_the_same_place(self, facts_of, name):
        facts = facts_of(at(f'{{station: "{name}"}}'))
        assert zones(facts) == ("6A", "6A")  # Washington County, Vermont
        assert "station 726145 " in facts["climate.winter_mean_temperature"].source

    @pytest.mark.parametrize("name", ["Montpelier", "Monpelier AP"])
    def test_a_name_that_is_not_held_is_asked_for_with_those_near_it(self, facts_of, name):
        gap = facts_of(at(f'{{station: "{name}"}}'))["climate.zone"].missing[0]
        assert f"No station '{name}' is in the table (near it: Montpelier AP" in gap.question
        assert gap.path == ("project", "place", "station")

    def test_a_number_with_the_name_of_another_is_not_taken(self, facts_of):
        assert facts_of(at('{station: "726145 Chicago Midway AP"}'))["climate.zone"].value is None


def test_a_zip_no_table_knows_is_asked_about_once(facts_of):
    wall = "{kind: wall, layers: [{id: brick, material: clay-brick, thickness: 90 mm}]}"
    facts = facts_of(
        f"""speccheck: 1
project: {{place: {{zip: "00001"}}}}
assemblies: {{wall: {wall}}}
"""
    )
    names = ("zone", "winter_mean_temperature", "heating_degree_days", "station_distance")
    asked = {gap.question for name in names for gap in facts[f"climate.{name}"].missing}
    assert asked == {"ZIP 00001 is not in the table of ZIP areas: which county or zone is it?"}
