import type {
  Cause,
  CoreState,
  LifeSource,
  Outcome,
  PartKind,
  TestStep,
  Verdict,
} from '#server/contract/words.ts';

export const stepNames: Record<TestStep, string> = {
  fluid: 'Fluid',
  road_test: 'Road test',
  solenoid_current: 'Solenoid current',
  pressure: 'Pressure',
  pan: 'Pan',
  cooler: 'Cooler flow',
};

export const verdictWords: Record<Verdict, string> = {
  passed: 'passed',
  failed: 'failed',
  unclear: 'unclear',
};

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

export const outcomeWords: Record<Outcome, { label: string; words: string }> = {
  repaired: { label: 'Repaired', words: 'Something was replaced or put right.' },
  no_fault_found: { label: 'No fault found', words: 'The steps were done and show nothing wrong.' },
  declined: { label: 'Declined', words: 'The work was not done. The reason is kept.' },
};

export const partKindWords: Record<PartKind, string> = {
  converter: 'Torque converter',
  transmission: 'Whole transmission',
  solenoid: 'Solenoid',
  valve_body: 'Valve body',
  wiring: 'Wiring',
  control_unit: 'Control unit',
  cooler: 'Cooler or lines',
  fluid_and_filter: 'Fluid and filter',
  other: 'Other part',
};

/** A converter or a whole transmission ends the converter life. */
export const endsLife = (kind: PartKind): boolean => kind === 'converter' || kind === 'transmission';

export const sourceWords: Record<Exclude<LifeSource, 'original'>, string> = {
  new: 'new',
  rebuilt: 'rebuilt',
  used: 'used',
};

export const coreWords: Record<CoreState, string> = {
  none: 'no deposit on it',
  to_return: 'to be returned',
  returned: 'returned',
  kept: 'kept here',
};

export const optionsOf = <T extends string>(
  words: Readonly<Record<T, string>>,
): { value: T; label: string }[] =>
  (Object.keys(words) as T[]).map((value) => ({ value, label: words[value] }));
