import type { Cause, CoreState, Outcome, PartKind } from './words.ts';

/** The words of the shop's closed lists, the same on screen, on paper and in the history. */

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
  declined: 'Declined',
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
  other: 'Another part',
};

export const coreWords: Record<CoreState, string> = {
  none: 'no deposit on it',
  to_return: 'to be returned',
  returned: 'returned',
  kept: 'kept here',
};
