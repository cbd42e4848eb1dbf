/** Lines that are no data frame with a 29-bit identifier, and how a person is told of them. */
export const lineKinds = {
  broken: 'broken lines',
  cut_off: 'a line within which the file breaks off',
  remote: 'remote frames',
  flexible: 'CAN FD frames',
  short_identifier: 'frames with an 11-bit identifier',
  error_frame: 'error frames of the interface',
  no_time: 'frames without a time',
  dropped: 'notes of frames that the logger dropped',
  text: 'other text',
  empty: 'empty lines',
  many_buses: 'frames of more than 32 interfaces',
} as const;
export type LineKind = keyof typeof lineKinds;

const NO_TIME = /^\s*[\w-]{1,16}\s+[0-9A-F]{3,8}(?:#|\s+\[\d+\])/i;

/** What a line is that is no frame; it may be slow, as such lines are few. */
export function findLineKind(bytes: Buffer): LineKind {
  const text = bytes.toString('latin1', 0, 200).trim();
  if (text === '') return bytes.length > 200 ? 'broken' : 'empty';
  if (text.startsWith('DROPCOUNT')) return 'dropped';
  if (text.startsWith('(')) return 'broken';
  if (NO_TIME.test(text)) return 'no_time';
  return /^[ -~]+$/.test(text) ? 'text' : 'broken';
}
