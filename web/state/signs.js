// Signs by where a person looks for them; a sign the engine adds later stands under "eyes".

const PLACES = {
  panel: "breaker_tripped fuse_open overload_tripped module_locked_out high_pressure_tripped line_side_dead contactor_not_pulled_in auxiliary_contact_open second_contactor_late contacts_pitted contacts_burnt_one_pole contacts_burnt_all_poles jumper_on joint_discoloured sequence_alarm burnt_smell",
  eyes: "motor_turned fan_not_turning fan_backwards condenser_dirty frost_on_crankcase terminal_leak terminal_box_wet terminal_cover_on valves_stated crankcase_above_atmosphere bulb_loose leads_cleared_ground unloader_stuck commanded_unloaded pressures_moved flash_gas_seen loud_and_equal_pressures",
  oil: "oil_glass_full oil_line_not_seen oil_foam oil_low_here_only oil_low_everywhere oil_was_added regulator_strainer_cold oil_gauge_disagrees_with_control net_oil_falls_as_oil_warms heater_cold",
  ears: "hums_no_rotation knock growl contactor_chatter head_cold head_uneven motor_still_hot injection_line_warm",
  log: "reset_before_arrival zero_current_before_alarm trips_instantly trips_in_seconds trips_after_minutes trips_after_defrost trips_when_hot on_generator storm_or_outage lights_dipped defrost_running all_machines_hot twins_same_pattern",
};
const PLACE_OF = new Map(Object.entries(PLACES).flatMap(([place, signs]) => signs.split(" ").map((sign) => [sign, place])));

/** @param {{sign: string, text: string}[]} signs */
export const signShelves = (signs) =>
  Object.keys(PLACES)
    .map((place) => ({ place, signs: signs.filter(({ sign }) => (PLACE_OF.get(sign) ?? "eyes") === place) }))
    .filter((shelf) => shelf.signs.length > 0);
