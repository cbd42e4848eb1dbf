import type { Platform } from '#server/contract/fleet.ts';

const amps = new Intl.NumberFormat('en-GB', {
  minimumSignificantDigits: 2,
  maximumSignificantDigits: 3,
  useGrouping: false,
});
const asEntered = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 3, useGrouping: false });

/** The change of current by which the shop judges a solenoid: Ohm's law over coil and wiring, with its tolerance. */
export function sayExpectedCurrent(solenoid: Platform['solenoid']): string {
  if (solenoid === null) return 'Not known: the step then has no figure to judge a current by.';
  const { ohm, supply_v: supplyV, wiring_ohm: wiringOhm, tolerance_pct: tolerancePct } = solenoid;
  const expectedA = supplyV / (ohm + wiringOhm);
  const offA = (expectedA * tolerancePct) / 100;
  const sum = `${asEntered.format(supplyV)} V / (${asEntered.format(ohm)} + ${asEntered.format(wiringOhm)}) ohm`;
  return `Expected current: ${sum} = ${amps.format(expectedA)} A; right from ${amps.format(expectedA - offA)} to ${amps.format(expectedA + offA)} A.`;
}
