"""The vocabulary of facts: every name a rule may use, with its type, unit and meaning.

Names are ``subject.name``. The first part says what the fact is about: the project, its climate, an assembly,
a layer, a junction, an opening or a penetration. A rule that looks at a layer also sees the facts of the
layer's assembly, of the climate and of the project.
"""

from typing import NamedTuple

__all__ = ["SEEN_FROM", "SUBJECTS", "VOCABULARY", "Declared", "names_seen_from"]

SUBJECTS = (
    "project", "climate", "assembly", "layer", "junction", "opening", "penetration", "product", "waiver",
)  # fmt: skip

SEEN_FROM: dict[str, tuple[str, ...]] = {
    "project": ("project", "climate"),
    "assembly": ("assembly", "project", "climate"),
    "layer": ("layer", "assembly", "project", "climate"),
    "junction": ("junction", "project", "climate"),
    "opening": ("opening", "assembly", "project", "climate"),
    "penetration": ("penetration", "assembly", "project", "climate"),
    "product": ("product", "project", "climate"),
    "waiver": ("waiver", "project", "climate"),
    "edition": ("project", "climate"),
}
"""What a rule that looks at the key may name."""


class Declared(NamedTuple):
    """A fact name: its CEL type (number, text, truth, texts), its unit kind and its meaning."""

    name: str
    type: str
    kind: str
    meaning: str

    @property
    def subject(self) -> str:
        """What the fact is about."""
        return self.name.partition(".")[0]


_NUMBERS = """
project.adopted_count | number | How many code editions the project adopts.
project.assembly_count | number | How many assemblies are declared.
project.junction_count | number | How many junctions are declared.
project.indoor_temperature | temperature | Winter set-point of the rooms.
project.indoor_rh | fraction | Relative humidity kept indoors in winter.
project.indoor_dew_point | temperature | Dew point of the room air in winter.
project.indoor_vapour_pressure | pressure | Vapour pressure of the room air in winter.
project.humidity_class | number | Internal humidity class of ISO 13788, 1 to 5.
project.airtightness_target | air-change | Target of the fan-pressurisation test, air changes per hour at 50 Pa.
project.airtightness_target_area | air-permeance | Target of the fan-pressurisation test per enclosure area.
project.airtightness_target_50 | air-permeance | The same, brought to 50 Pa.
project.airtightness_target_75 | air-permeance | The same, brought to 75 Pa.
project.air_leakage_50 | air-permeance | Leakage through a square metre of the enclosure at 50 Pa, by the target or assumed.
project.volume | volume | Volume inside the air barrier.
project.floor_area | area | Conditioned floor area.
project.enclosure_area | area | Area of the air barrier.
project.storeys | number | Storeys above ground.
project.built | number | Year of construction of an existing building.
project.annual_rain | length | Rain in a year.
project.air_gap_count | number | Places where the best line of the air barrier is shown to stop.
project.air_unshown_count | number | Questions open on places where no connection of the air barrier is shown.
project.air_closed_lines | number | Lines of air-control layers that are closed; two are redundancy.
project.enclosure_parts | number | Groups of assemblies that meet one another; a single building is one.
project.water_gap_count | number | Places where the water barrier is shown to stop.
project.water_unshown_count | number | Places where it is not shown how the water barrier goes on.
project.water_laps_unsaid | number | Connections of the water barrier that do not say which laps over which.
project.vapour_gap_count | number | Junctions where the vapour-control layer is shown to stop.
project.vapour_unshown_count | number | Junctions where it is not shown how the vapour-control layer goes on.
project.thermal_gap_count | number | Junctions where the insulation is interrupted.
project.thermal_unshown_count | number | Junctions where thermal continuity is not shown.
project.sealing_limit | temperature | Warmest of the lowest temperatures of application, of all means of sealing named and of the products of the air barrier that state theirs.
project.air_line_count | number | Separate lines of air-control layers joined to each other.
climate.zone_number | number | Number of the climate zone.
climate.heating_degree_days | degree-days | Heating degree days below 18 °C.
climate.degree_day_thousands | number | Heating degree days below 18 °C in whole thousands, rounded down.
climate.winter_mean_temperature | temperature | Mean outdoor temperature of the three coldest months.
climate.winter_mean_vapour_pressure | pressure | Mean outdoor vapour pressure of the three coldest months.
climate.coldest_month_temperature | temperature | Mean of the coldest month.
climate.warmest_month_temperature | temperature | Mean of the warmest month.
climate.sealing_temperature | temperature | Mean of the coldest of the months in which the air barrier is sealed.
climate.summer_dew_point | temperature | Mean outdoor dew point of the three warmest months.
climate.months_below_45f | number | Months whose mean lies below 7.2 °C (45 °F).
climate.station_distance | length | Distance from the place to the weather station used.
assembly.film_inside | thermal-resistance | Inside surface film.
assembly.film_outside | thermal-resistance | Outside surface film.
assembly.layer_count | number | Layers declared.
assembly.stud_depth | length | Depth of the framing.
assembly.framing_spacing | length | Framing, centre to centre.
assembly.framing_fraction | fraction | Share of the area that is framing.
assembly.cavity_r | thermal-resistance | Nominal resistance of the insulation between the framing.
assembly.continuous_r | thermal-resistance | Resistance of all insulation not cut by framing.
assembly.slab_edge_r | thermal-resistance | Resistance of the insulation shown at the edge of a slab.
assembly.slab_edge_depth | length | How far that insulation runs from the top of the slab.
assembly.continuous_r_outboard | thermal-resistance | Resistance of the insulation not cut by framing, outboard of the framed layer or the condensing plane.
assembly.insulation_r | thermal-resistance | Sum of nominal resistances of all insulation layers.
assembly.foam_outboard_r | thermal-resistance | Part of continuous_r_outboard that is foam plastic.
assembly.air_impermeable_r | thermal-resistance | Resistance of air-impermeable insulation in contact with the condensing plane or outboard of it.
assembly.insulation_r_beyond_plane | thermal-resistance | Resistance of all insulation, air-impermeable or not, in contact with the condensing plane or outboard of it.
assembly.effective_r | thermal-resistance | Effective resistance, air to air, by the method named in the fact.
assembly.u_factor | transmittance | Thermal transmittance, air to air, the reciprocal of effective_r.
assembly.r_series | thermal-resistance | Sum of resistances through the insulated path, films included.
assembly.r_parallel | thermal-resistance | Parallel-path resistance, films included.
assembly.r_isothermal | thermal-resistance | Isothermal-planes resistance, films included.
assembly.r_iso_6946 | thermal-resistance | Combined-method resistance of ISO 6946 (mean of the limits).
assembly.r_modified_zone | thermal-resistance | Modified-zone resistance of a metal-framed assembly, films included.
assembly.r_correction_factor | thermal-resistance | Resistance of a metal-framed assembly by cavity correction factors, films included.
assembly.stated_r | thermal-resistance | Effective resistance the drawing or compliance paper states.
assembly.stated_u | transmittance | Transmittance the drawing or compliance paper states.
assembly.inboard_r | thermal-resistance | Resistance from the room to the condensing plane, inside film included.
assembly.outboard_r | thermal-resistance | Resistance from the condensing plane to outdoors, outside film included.
assembly.outboard_share | fraction | outboard_r over the whole resistance.
assembly.outboard_ratio | number | outboard_r over inboard_r.
assembly.required_outboard_share | fraction | Share at which the plane just reaches the dew point of the room at the winter mean.
assembly.plane_temperature | temperature | Temperature of the condensing plane at the winter mean.
assembly.plane_margin | temperature-difference | plane_temperature less the indoor dew point.
assembly.critical_indoor_rh | fraction | Indoor humidity at which the condensing plane reaches its dew point at the winter mean.
assembly.temperature_factor | fraction | Temperature factor fRsi of the plain section, one-dimensional.
assembly.surface_rh | fraction | Relative humidity at the inside surface at the mean of the coldest month.
assembly.warm_side_share | fraction | Share of the resistance on the warm side of the inside vapour retarder.
assembly.interior_permeance_dry | permeance | Permeance of all layers inboard of the main insulation, dry cup.
assembly.interior_permeance_wet | permeance | The same, wet cup.
assembly.retarder_permeance_dry | permeance | Permeance of the tightest layer inboard of the main insulation, dry cup.
assembly.retarder_permeance_wet | permeance | Permeance of that same layer, wet cup.
assembly.exterior_permeance_dry | permeance | Permeance of all layers from the main insulation out to the ventilated cavity, dry cup.
assembly.exterior_permeance_wet | permeance | The same, wet cup.
assembly.interior_drying_permeance | permeance | Permeance of all layers inboard of the main insulation, each by its wet cup, by its dry cup where the wet cup is not shown.
assembly.exterior_drying_permeance | permeance | The same for all layers outboard, up to the ventilated cavity.
assembly.exterior_tightest_dry | permeance | Permeance of the tightest layer outboard of the main insulation, dry cup.
assembly.exterior_tightest_wet | permeance | The same layer side, tightest, wet cup.
assembly.sd_inside | sd | Equivalent air layer thickness of the layers inboard of the main insulation, dry cup.
assembly.sd_outside | sd | Equivalent air layer thickness of the layers outboard of it up to the ventilated cavity, wet cup where shown, else dry.
assembly.sd_ratio | number | sd_inside over sd_outside.
assembly.total_permeance_dry | permeance | Permeance of the whole section up to the ventilated cavity, dry cup.
assembly.cavity_depth | length | Depth of the drained, vented or ventilated cavity behind the cladding.
assembly.air_barrier_permeance | permeance | Dry-cup permeance of the outermost air-control layer outboard of the main insulation.
assembly.air_control_count | number | Layers named to control air.
assembly.stated_air_leakage | air-permeance | Leakage at 75 Pa of the assembly tested with its joints, as stated.
assembly.tightest_air_permeance | air-permeance | Lowest air permeance among the layers named to control air.
assembly.moisture_peak | area-mass | Most water that condenses at one place by the monthly balance.
assembly.moisture_residual | area-mass | Water left after twelve months of the monthly balance.
assembly.moisture_yearly_gain | area-mass | What a second year adds to it; next to nothing where the balance has settled.
assembly.enclosed_water_months | number | Months until 1 kg/m² of water in the middle of the main insulation is gone; 120 where some is left after ten years.
assembly.plane_rh_max | fraction | Monthly mean humidity at the inner face of the condensing plane, dampest month.
assembly.plane_wood_moisture | fraction | Moisture content wood there takes on in that month, by mass.
assembly.plane_moisture_limit | fraction | Moisture content that the wood at the condensing plane bears, by the material table.
assembly.plane_damp_months | number | Months in which the condensing plane is at 80 % humidity or more while at 5 to 40 °C.
assembly.plane_damp_run | number | Most of those months in a row.
assembly.sheathing_rh_max | fraction | Monthly mean humidity at the inner face of wooden_sheathing, away from framing, dampest month.
assembly.sheathing_wood_moisture | fraction | Most moisture content wood there takes on in any month, by mass.
assembly.sheathing_moisture_limit | fraction | Moisture content that the sheathing bears, by the material table.
assembly.sheathing_moisture_margin | fraction | sheathing_moisture_limit less sheathing_wood_moisture.
assembly.framing_rh_max | fraction | Monthly mean humidity at the outer face of wooden framing, dampest month.
assembly.framing_wood_moisture | fraction | Most moisture content the framing takes on there in any month, by mass.
assembly.framing_moisture_limit | fraction | Moisture content that the framing bears, by the material table.
assembly.framing_moisture_margin | fraction | framing_moisture_limit less framing_wood_moisture.
assembly.frsi | fraction | Temperature factor of the plain section by the inside film of the mould check, 0.25 m²·K/W.
assembly.frsi_required | fraction | Temperature factor the governing month asks of the inside surface, 80 % humidity there.
assembly.frsi_margin | number | frsi less frsi_required.
assembly.drying_inward | area-mass | Water that in a year would reach the indoor air from the condensing plane, were it wet throughout.
assembly.drying_outward | area-mass | Water that in a year would reach the outdoor air from the wet condensing plane.
assembly.drying_moved | area-mass | Water that would leave the wet condensing plane and condense at another place of the section.
assembly.drying_net | area-mass | What the wet condensing plane would give to either air in the months in which it dries, less what comes from it.
assembly.drying_months | number | Months in which the wet condensing plane would dry.
assembly.humidity_without_condensation | fraction | Winter humidity indoors up to which the monthly balance shows no condensation.
assembly.humidity_surface_bears | fraction | Winter humidity indoors up to which no month has 80 % at the inner surface.
assembly.humidity_wood_bears | fraction | Winter humidity indoors up to which wooden faces stay within what they bear.
assembly.humidity_drying_in_year | fraction | Winter humidity indoors up to which what condenses dries within the year.
assembly.outboard_r_to_add | thermal-resistance | Resistance, open to vapour, that added outboard ends condensation; none where a roof covering or a layer of class I closes the outside.
assembly.period_condensed | area-mass | Water that condenses in the winter of the two-season period balance.
assembly.period_evaporable | area-mass | Water that could evaporate in its summer.
assembly.period_reserve | area-mass | Drying reserve: evaporable less condensed.
assembly.period_wood_gain | fraction | Gain in moisture content, by mass, of the wood at the wettest plane.
assembly.reserve_after_leakage | area-mass | Drying reserve less what leaking indoor air may bring at the declared or assumed tightness.
assembly.summer_margin | temperature-difference | Outer face of the inside retarder less the outdoor dew point, rooms cooled.
layer.drying_inward | area-mass | Water that in a year would reach the indoor air from the inner face of the layer, were it wet throughout.
layer.drying_outward | area-mass | Water that in a year would reach the outdoor air from the wet inner face of the layer.
layer.drying_moved | area-mass | Water that would leave the wet inner face of the layer and condense at another place of the section.
layer.drying_net | area-mass | What that wet face would give to either air in the months in which it dries, less what comes from it.
layer.inner_share | fraction | Resistance inboard of it over all of the assembly but its own, films included.
layer.outboard_ratio | number | Resistance from its inner face outward over that inboard of it, films included.
layer.position | number | Place of the layer from the inside, the first is 1.
layer.thickness | length | Thickness.
layer.resistance | thermal-resistance | Thermal resistance of the layer away from framing.
layer.resistance_usual_high | thermal-resistance | Upper end of what the material table gives this material at this thickness.
layer.gypsum_inboard | length | Of a foam plastic: thickness of gypsum board between it and the room.
layer.wood_panel_inboard | length | Of a foam plastic: thickness of wood panels between it and the room.
layer.masonry_inboard | length | Of a foam plastic: thickness of masonry or concrete between it and the room.
layer.conductivity | conductivity | Thermal conductivity.
layer.permeability | permeability | Stated vapour permeability.
layer.framing_fraction | fraction | Of a layer cut by wood framing: share of its area that is framing.
layer.member_conductivity | conductivity | Conductivity of the framing that crosses the layer.
layer.member_resistance | thermal-resistance | Resistance of the framing that crosses the layer, over its thickness.
layer.permeance_dry | permeance | Permeance, dry cup.
layer.permeance_wet | permeance | Permeance, wet cup.
layer.permeance_unstated | permeance | Permeance whose cup is not stated.
layer.sd_dry | sd | Equivalent air layer thickness, dry cup.
layer.sd_wet | sd | Equivalent air layer thickness, wet cup.
layer.air_permeance | air-permeance | Air permeance at 75 Pa.
layer.density | density | Density.
layer.moisture_content | fraction | Moisture content by mass when closed in.
layer.exposure | duration | Days planned in the weather before cover.
layer.exposure_limit | duration | Days in the weather its data sheet allows.
junction.joined_count | number | Sides that meet here.
junction.air_connection_count | number | Connections of the air barrier shown here.
junction.water_connection_count | number | Connections of the water barrier shown here.
junction.vapour_connection_count | number | Connections of the vapour-control layer shown here.
opening.u_factor | transmittance | Stated transmittance.
opening.water_connection_count | number | Connections of the water barrier shown at its frame.
opening.air_connection_count | number | Connections of the air barrier shown at its frame.
penetration.air_connection_count | number | Connections of the air barrier shown at it.
waiver.days_left | number | Days until the waiver ends; negative once it has ended.
product.permeance_dry | permeance | Permeance by dry cup, stated or read from its curve.
product.permeance_wet | permeance | Permeance by wet cup, stated or read from its curve.
product.air_permeance | air-permeance | Stated air permeance at 75 Pa.
product.evidence_count | number | Test documents named.
"""

_TEXTS = """
project.use | text | What the building is used for.
project.ventilation | text | Whole-building ventilation: mechanical or none.
project.combustion | text | How combustion appliances take their air.
project.adopted_not_held | texts | Adopted editions for which no pack is held.
project.adopted | texts | Code editions the project adopts.
project.air_leakage_by | text | How the leakage reckoned with is known: `target` or `assumed`.
project.airtightness_measure | text | Measure of the air-tightness target: air-change, area, or none where no target is shown.
project.indoor_humidity_by | text | What tells the humidity of the rooms: class, humidity, monthly or none.
project.indoor_model | text | Model behind the indoor climate through the year, where no humidity is declared.
project.country | text | Country of the place: us, ca, or empty where the place does not tell.
project.air_best_line | texts | Layers of the line of the air barrier that wants least to be closed.
project.air_gap_places | texts | Places where that line is shown to stop.
project.air_missing_connections | texts | Shortest list of connections that would close a line.
project.air_unable_layers | texts | Layers named to control air that air passes.
project.water_unshown_places | texts | Places where it is not shown how the water barrier goes on.
project.sides_unshown | texts | Sides of assemblies that no junction names.
project.enclosure_groups | texts | The groups of assemblies that meet one another.
project.sealing_limit_means | texts | The means of sealing, or the products, with that lowest temperature.
climate.zone | text | Climate zone on the newest map, with its moisture letter where it has one.
climate.zone_2018 | text | Climate zone on the map of the 2009 to 2018 editions.
climate.zone_2021 | text | Climate zone on the map of the 2021 and 2024 editions.
climate.moisture_regime | text | Moisture letter of the zone: A moist, B dry, C marine, or empty.
climate.canada_band | text | Canadian zone by degree days: 4, 5, 6, 7A, 7B, 8.
climate.other_zones | texts | Other zones the ZIP area touches.
assembly.kind | text | wall, roof, ceiling, floor, slab or below-grade-wall.
assembly.outside | text | What it parts the rooms from: outdoors, ground, garage, attic, crawlspace, neighbour, balcony.
assembly.framing_material | text | softwood, hardwood, engineered-wood, steel, or none.
assembly.framing_family | text | wood, metal or none.
assembly.stud_size | text | 2x4 or 2x6 by the depth of the framing: 2x4 up to 115 mm, 2x6 above; none without framing.
assembly.effective_r_method | text | Method behind effective_r.
assembly.condensing_plane | text | Layer whose inner face moving room air first finds cold.
assembly.plane_material | text | Material of that layer.
assembly.plane_group | text | Material group of that layer.
assembly.main_insulation | text | Layer taken as the main insulation.
assembly.main_insulation_material | text | Its material.
assembly.interior_retarder | text | Tightest layer inboard of the main insulation.
assembly.interior_retarder_material | text | Its material.
assembly.interior_class | text | Vapour-retarder class of that layer by dry cup: I, II, III or none.
assembly.interior_class_wet | text | Class that layer would have by its wet cup.
assembly.exterior_class | text | Class of the tightest layer outboard of the main insulation, dry cup.
assembly.exterior_retarder | text | Tightest layer outboard of the main insulation.
assembly.sheathing_material | text | Material of the first board outboard of the framed or main insulation.
assembly.wooden_sheathing | text | First layer of wood outboard of the main insulation, else the condensing plane where it is of wood, else none.
assembly.sheathing_kind | text | Kind of that board as vapour tables tell them apart: wood-panel, fibreboard, gypsum, other or none.
assembly.cladding_material | text | Material of the outermost layer.
assembly.cavity_ventilation | text | none, drained, vented or ventilated; the air layer behind the cladding.
assembly.drying_stated | text | Which way the designer means it to dry: inward, outward or both.
assembly.groups | texts | Material groups present.
assembly.materials | texts | Materials present.
assembly.air_barrier | texts | Layers named to control air; not shown where there is none.
assembly.water_barrier | texts | Layers named to control water; not shown where there is none.
assembly.layers_of_unknown_material | texts | Layers of which no generic material is shown.
assembly.air_control_layers | texts | Layers named to control air.
assembly.water_control_layers | texts | Layers named to control water.
assembly.vapour_control_layers | texts | Layers named to control vapour.
assembly.thermal_control_layers | texts | Layers named to control heat.
assembly.moisture_verdict | text | Monthly balance: none, dries, or accumulates.
assembly.moisture_peak_place | text | Where the most water condenses.
assembly.moisture_peak_month | text | Month of the most water.
assembly.moisture_dry_month | text | Month in which the last of it is gone.
assembly.moisture_path | text | Path that governs: insulation or framing.
assembly.moisture_by_dry_cup | text | Verdict with every layer by its dry cup.
assembly.moisture_by_wet_cup | text | Verdict with every layer by its wet cup.
assembly.moisture_by_higher_load | text | Verdict were the excess of vapour in the rooms over outdoors a quarter greater; where it is another, the verdict stands within a fifth of its limit.
assembly.plane_rh_month | text | Month of plane_rh_max.
assembly.sheathing_rh_month | text | Month of sheathing_rh_max.
assembly.framing_rh_month | text | Month of framing_rh_max.
assembly.frsi_required_month | text | Month that governs the inside surface.
assembly.period_place | text | Wettest plane of the period balance.
assembly.period_wood_kind | text | wood or panel, at the wettest plane.
assembly.summer_plane | text | First tight layer vapour meets from outside: the inside retarder.
layer.inner_neighbour | text | Material of the layer next inside it; room for the innermost.
layer.outer_neighbour | text | Material of the layer next outside it; beyond for the outermost.
layer.id | text | Name of the layer.
layer.material | text | Material or product family id.
layer.group | text | Material group.
layer.side | text | Where it lies: inboard, insulation (the main one), outboard, or beyond (outside a ventilated cavity).
layer.vapour_class | text | Vapour-retarder class by dry cup: I, II, III or none.
layer.vapour_class_wet | text | Class its wet cup would give.
layer.ventilation | text | Of an air layer: none, drained, vented or ventilated.
layer.controls | texts | What it is meant to control.
layer.sealed | texts | Where it is sealed: laps, edges, penetrations.
layer.interrupted_by | texts | What passes through it.
junction.kind | text | Kind of junction.
junction.sides | texts | Sides that meet here.
junction.air_means | texts | Sealing means shown for the air barrier.
junction.air_sole_means | texts | Those of them on which a connection rests alone.
junction.air_unable | texts | Ends of connections here that air passes, so that they carry no line.
junction.air_no_seal | texts | Words shown here that name no seal, such as staples.
junction.air_unsuited | texts | Means shown here on a material they do not suit.
junction.air_unaided | texts | Means shown here that want a primer or a clamp, which is not named.
junction.air_unrated | texts | Means shown here that the sealing table does not rate on that material.
junction.air_unknown_means | texts | Means shown here that the sealing table does not know.
junction.air_wanted | texts | Connections here that would close the best line.
junction.air_layers | texts | Air-control layers joined here.
junction.air_unconnected | texts | What meets here and no connection reaches that can carry the line.
junction.air_systems_mixed | texts | Means shown here on a product of another tested system.
junction.air_systems_unsaid | texts | Means shown here without their system, on a product that names one.
junction.water_lap_order | text | Of the laps that the kind of junction orders: shingled, turned, unsaid, or none.
junction.kind_id | text | Kind of junction by the junction table.
junction.near_kinds | texts | Kinds of the junction table that an unknown kind comes close to.
junction.reviewer_question | text | What a reviewer asks of this kind of junction.
junction.assembly_kinds | texts | Kinds of the assemblies that meet here.
junction.framing_families | texts | Framing of the assemblies that meet here: wood, metal or none.
junction.outsides | texts | What the assemblies that meet here part the rooms from.
junction.sides_shared | texts | Sides named here that another junction names too.
junction.water_unconnected | texts | What meets here and is not reached by the water barrier.
junction.water_laps_turned | texts | Laps of the water barrier shown the wrong way round.
junction.water_laps_unsaid | texts | Connections of the water barrier that do not say which laps over which.
junction.vapour_unconnected | texts | Assemblies that meet here whose vapour-control layer no connection reaches.
junction.thermal | text | continuous, reduced or interrupted.
opening.kind | text | window, door, hatch, skylight or overhead-door.
opening.assembly | text | Assembly it sits in.
opening.air_means | texts | Sealing means shown.
opening.air_sole_means | texts | Those of them on which a connection rests alone.
opening.air_open_parts | texts | Parts of the frame that no connection joins: head, jambs, sill.
opening.water_unconnected | texts | What meets here and is not reached by the water barrier.
opening.air_unable | texts | Ends of connections here that air passes, so that they carry no line.
opening.air_no_seal | texts | Words shown here that name no seal, such as staples.
opening.air_unsuited | texts | Means shown here on a material they do not suit.
opening.air_unaided | texts | Means shown here that want a primer or a clamp, which is not named.
opening.air_unrated | texts | Means shown here that the sealing table does not rate on that material.
opening.air_unknown_means | texts | Means shown here that the sealing table does not know.
opening.air_wanted | texts | Connections here that would close the best line.
opening.air_layers | texts | Air-control layers joined here.
opening.air_unconnected | texts | What meets here and no connection reaches that can carry the line.
opening.air_systems_mixed | texts | Means shown here on a product of another tested system.
opening.air_systems_unsaid | texts | Means shown here without their system, on a product that names one.
penetration.kind | text | pipe, duct, cable, electrical-box, flue, recessed-light, beam or other.
penetration.assembly | text | Assembly it crosses.
penetration.air_means | texts | Sealing means shown.
penetration.air_sole_means | texts | Those of them on which a connection rests alone.
penetration.air_unable | texts | Ends of connections here that air passes, so that they carry no line.
penetration.air_no_seal | texts | Words shown here that name no seal, such as staples.
penetration.air_unsuited | texts | Means shown here on a material they do not suit.
penetration.air_unaided | texts | Means shown here that want a primer or a clamp, which is not named.
penetration.air_unrated | texts | Means shown here that the sealing table does not rate on that material.
penetration.air_unknown_means | texts | Means shown here that the sealing table does not know.
penetration.air_wanted | texts | Connections here that would close the best line.
penetration.air_layers | texts | Air-control layers joined here.
penetration.air_unconnected | texts | What meets here and no connection reaches that can carry the line.
penetration.air_systems_mixed | texts | Means shown here on a product of another tested system.
penetration.air_systems_unsaid | texts | Means shown here without their system, on a product that names one.
penetration.sealed_by | text | Trade that seals it.
waiver.rule | text | Rule the waiver names.
waiver.place | text | Place the waiver names.
product.permeance_by_cup | text | Cups by which its permeance is stated, or told by its curve: dry, wet, both or none.
product.family | text | Generic family.
product.evidence_properties | texts | Properties for which a test document is named.
product.properties_stated | texts | Properties stated: permeance, air-permeance, thermal-resistance, conductivity.
"""

_TRUTHS = """
project.cooled | Are the rooms cooled in summer?
project.humidified | Is moisture added on purpose?
project.cooling_likely | Cooled as declared; where not declared, true in zones 0 to 3.
project.built_shown | Is a year of construction stated?
project.air_line_closed | Is there one surface of air-control layers, joined at every side of every assembly and round every opening and penetration?
project.air_lead_named | Is one person named who answers for the air barrier on site?
climate.warm_humid | Is the county marked warm-humid?
climate.cold | Zones 4C, 5, 6, 7 and 8: heating governs the moisture rules.
assembly.above_grade | Is it exposed to outdoor air (a wall, roof, ceiling or floor)?
assembly.encloses_wood | Does it hold layers that moisture harms (wood, paper-faced gypsum, cellulose)?
assembly.has_insulation | Is there an insulation layer?
assembly.has_air_permeable_insulation | Is any insulation air-permeable?
assembly.has_fibre_insulation | Is any insulation air-permeable that is no foam plastic?
assembly.has_ventilated_cavity | Is there an air layer outboard of the insulation, open at base and top?
assembly.has_vented_cavity | Is there such an air layer open at least at the base (vented or ventilated)?
assembly.reservoir_cladding | Does the outermost layer soak up rain?
assembly.foam_outboard | Is there foam plastic outboard of the framing?
assembly.plane_freezes | Is the condensing plane below 0 °C at the winter mean?
assembly.air_barrier_named | Is at least one layer named to control air?
assembly.water_barrier_named | Is at least one layer named to control water?
assembly.air_barrier_inside | Does an air-control layer lie inboard of the main insulation?
assembly.air_barrier_outside | Does an air-control layer lie outboard of the main insulation?
assembly.insulation_touches_air_barrier | Does an air-control layer touch the insulation, with no air layer between?
assembly.space_ventilated | Of an attic or crawlspace beyond it: is that space open to outdoor air?
assembly.air_barrier_connected | Is the air barrier of the assembly joined at each of its sides, openings and penetrations?
assembly.junctions_shown | Is any junction declared that this assembly takes part in?
assembly.responsive_retarder | Is the inside retarder one whose permeance rises with humidity (wet cup above 1 perm by declaration or table)?
assembly.continuous_interrupted | Is insulation counted as continuous crossed by more than fasteners?
assembly.slab_edge_shown | Does the document say what insulation lies at the edge of the slab?
assembly.slab_below_grade | Does the slab meet a wall below grade at a junction, so that it is a basement floor?
assembly.cavity_full | Is there insulation between the framing?
assembly.all_insulation_outboard | Does all insulation lie outboard of the first air-tight layer, with none between the framing?
assembly.moisture_settled | Did the layers that follow their humidity settle in every month?
assembly.moisture_rests_on_cup | Do the verdicts by dry cup and by wet cup differ?
assembly.moisture_rests_on_variable_layer | Does a layer that opens with humidity change the verdict its dry cup would give?
assembly.enclosed_water_dries | Is 1 kg/m² of water in the middle of the main insulation gone within ten years?
assembly.period_dries | Does all that condenses in the period balance evaporate in the same year?
assembly.period_beside_nonabsorbent | Does a layer at the wettest plane take up no water?
layer.framed | Is the layer cut by framing?
layer.insulation | Is it an insulation?
layer.foam_plastic | Is it a foam plastic?
layer.membrane | Is it a sheet, film, coating or facing?
layer.air_impermeable | Is its air permeance at or below 0.02 L/(s·m²) at 75 Pa?
layer.moisture_sensitive | Does moisture harm it?
layer.reservoir | Does it soak up rain?
layer.controls_air | Is it named to control air?
layer.controls_water | Is it named to control water?
layer.controls_vapour | Is it named to control vapour?
layer.exposure_planned | Are the days planned in the weather stated?
layer.moisture_content_shown | Is its moisture content at closing in stated?
layer.exposure_limited | Does its data sheet state how many days it may stay in the weather?
layer.faces_moving_air | Of an insulation: does outdoor air move along its outer face?
layer.resistance_declared | Is its thermal resistance or conductivity declared (not from a table)?
layer.permeance_declared | Is its permeance declared (not from a table)?
layer.air_permeance_declared | Is its air permeance declared (not from a table)?
layer.product_named | Is it a declared product?
layer.responsive | Does its permeance rise with humidity?
layer.faced | Does a facing govern its permeance?
junction.air_shown | Does the document say how the air barrier crosses here?
junction.air_connected | Are the air barriers of all assemblies that meet here joined by means that can carry the line?
junction.kind_known | Does the junction table hold this kind of junction?
junction.hollow | Does a hollow run through junctions of this kind?
junction.blocked | Are the hollows that run through here blocked and sealed?
junction.blocked_shown | Does the document say whether they are?
junction.drained | Does water behind the cladding find its way out here?
junction.drained_shown | Does the document say whether it does?
junction.kick_out | Is there a kick-out flashing here?
junction.kick_out_shown | Does the document say whether there is one?
junction.water_connected | Are the water barriers of all that meets here joined?
junction.vapour_shown | Does the document say how the vapour-control layer crosses here?
junction.vapour_connected | Are the vapour-control layers of all assemblies that meet here joined?
junction.water_shown | Does the document say how the water barrier crosses here?
junction.thermal_shown | Does the document say how the insulation crosses here?
opening.air_shown | Does the document say how its frame meets the air barrier?
opening.air_connected | Is its frame connected to an air-control layer of its assembly?
opening.water_shown | Does the document say how its frame meets the water barrier?
opening.water_connected | Is its frame joined to the water barrier of its assembly?
opening.sill_pan | Is there a pan under its sill?
opening.sill_pan_shown | Does the document say whether there is one?
opening.drained | Is the gap below the frame open to drain?
penetration.air_shown | Does the document say how it is sealed?
penetration.air_connected | Is it connected to an air-control layer of its assembly?
penetration.hot | Does its surface get hot?
penetration.sealer_named | Is the trade named that seals it?
waiver.rule_known | Is there such a rule in force?
waiver.place_known | Is there such a place in the document?
waiver.needed | Is there a finding that it sets aside, or would, had it not ended?
product.evidence_for_permeance | Is a test document named for its permeance?
product.evidence_for_air | Is a test document named for its air permeance?
product.states_one_cup_only | Is its permeance stated, or told by its curve, for one cup only?
product.cup_not_stated | Is a permeance stated without its cup?
"""


def _read() -> dict[str, Declared]:
    found: dict[str, Declared] = {}
    for line in _NUMBERS.strip().splitlines():
        name, kind, meaning = (part.strip() for part in line.split("|", 2))
        found[name] = Declared(name, "number", kind, meaning)
    for line in _TEXTS.strip().splitlines():
        name, type_, meaning = (part.strip() for part in line.split("|", 2))
        found[name] = Declared(name, type_, type_, meaning)
    for line in _TRUTHS.strip().splitlines():
        name, meaning = (part.strip() for part in line.split("|", 1))
        found[name] = Declared(name, "truth", "truth", meaning)
    return found


VOCABULARY: dict[str, Declared] = _read()
"""Every fact name a rule may use."""


def names_seen_from(subject: str) -> dict[str, Declared]:
    """Return the facts that a rule looking at ``subject`` may name."""
    seen = SEEN_FROM[subject]
    return {name: fact for name, fact in VOCABULARY.items() if fact.subject in seen}
