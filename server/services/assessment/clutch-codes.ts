/**
 * Trouble codes that name the torque converter clutch or its solenoid: SAE J2012 numbers, from memory; to be
 * checked against the standard.
 */
const clutchCodes = new Set([
  'P0740',
  'P0741',
  'P0742',
  'P0743',
  'P0744',
  'P0894',
  'P2761',
  'P2762',
  'P2763',
  'P2764',
]);

/** True where a code counts as evidence against the converter clutch. */
export function namesClutch(code: string): boolean {
  return clutchCodes.has(code.toUpperCase());
}
