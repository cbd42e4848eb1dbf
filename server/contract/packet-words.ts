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

/** The same causes as modes of a converter life: short, since groups and curves are named by them. */
export const modeWords: Record<Cause, string> = {
  lining_worn: 'lining worn',
  lining_lost: 'lining broken up',
  piston_cracked: 'piston cracked',
  piston_seal: 'apply seal leaking',
  damper_broken: 'damper broken',
  one_way_clutch: 'one-way clutch failed',
  valve_stuck: 'valve sticking',
  solenoid_failed: 'solenoid failed',
  wiring_fault: 'wiring fault',
  driver_fault: 'control unit fault',
  fluid_wrong: 'fluid wrong',
  cooler_blocked: 'cooler blocked',
  other: 'something else',
  no_fault_found: 'no fault found',
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
