import type { Cause, FindingResult, Outcome, PartKind } from '#server/contract/words.ts';

export const causeWords: Record<Cause, string> = {
  lining_worn: 'Clutch lining worn or glazed',
  lining_lost: 'Clutch lining came off',
  piston_cracked: 'Clutch piston cracked',
  piston_seal: 'Clutch piston seal leaks',
  damper_broken: 'Damper broken',
  one_way_clutch: 'One-way clutch of the converter failed',
  valve_stuck: 'Valve stuck',
  solenoid_failed: 'Solenoid failed',
  wiring_fault: 'Fault in wiring or a connector',
  driver_fault: 'Fault in the driver of the control unit',
  fluid_wrong: 'Fluid wrong, contaminated, or at the wrong level',
  cooler_blocked: 'Cooler or its lines blocked',
  other: 'Something else',
  no_fault_found: 'No fault found',
};

export const outcomeWords: Record<Outcome, string> = {
  repaired: 'Repaired',
  no_fault_found: 'No fault found',
  declined: 'Not repaired',
};

export const partWords: Record<PartKind, string> = {
  converter: 'Torque converter',
  transmission: 'Whole transmission',
  solenoid: 'Solenoid',
  valve_body: 'Valve body',
  wiring: 'Wiring or connector',
  control_unit: 'Control unit',
  cooler: 'Cooler or its lines',
  fluid_and_filter: 'Fluid and filter',
  other: 'Something else',
};

export const resultWords: Record<FindingResult, string> = {
  fluid_right: 'Fluid is right',
  level_low: 'Fluid level is low',
  level_high: 'Fluid level is high',
  coolant_in_fluid: 'Coolant in the fluid',
  fluid_burnt: 'Fluid is burnt',
  slips: 'Clutch slips',
  slip_raised: 'Slip is more than usual',
  holds: 'Clutch holds',
  too_little_steady: 'Too little steady driving',
  current_right: 'Current is right',
  no_current: 'No current',
  current_low: 'Too little current',
  current_high: 'Too much current',
  current_stays: 'Current whether commanded or not',
  pressure_changes: 'Pressure changes with the command',
  pressure_stays: 'Pressure does not change',
  pressure_unclear: 'Change of pressure cannot be told',
  pan_clean: 'Pan is clean',
  pan_fine: 'Fine grey paste in the pan',
  pan_lining: 'Lining in the pan',
  pan_metal: 'Metal in the pan',
  cooler_flows: 'Cooler flows',
  cooler_restricted: 'Cooler is restricted',
};
