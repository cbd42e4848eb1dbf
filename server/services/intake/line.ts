/** One line of a body on its way to becoming a reading: its value, or what was wrong with it already. */
export interface Line {
  /** line of the body, from 1; of a JSON array the number of the element */
  line: number;
  /** as it came */
  raw: string;
  value: unknown;
  errors: LineError[] | null;
}

export interface LineError {
  /** empty where the whole line is at fault */
  field: string;
  message: string;
}

/** A longer line is refused; nothing that a gateway sends as one reading comes near. */
export const LINE_LIMIT_BYTES = 65_536;
/** So much of a refused line is kept. */
export const RAW_KEPT_CHARACTERS = 4096;
/** So much of a line that is too long is held until it ends: enough to see that it was cut. */
export const LONG_LINE_HELD_BYTES = 4 * RAW_KEPT_CHARACTERS;

export const TOO_LONG = `is longer than ${LINE_LIMIT_BYTES / 1024} KiB`;
export const NOT_UTF8 = 'is not UTF-8 text';
export const BREAKS_OFF = 'breaks off: the body ended within this line';
export const MOMENT_BREAKS_OFF = 'breaks off: the body ended before this moment was whole';
/** What comes again, whole, with the body that was cut. */
export const CUT_OFF: readonly string[] = [BREAKS_OFF, MOMENT_BREAKS_OFF];

export const goodLine = (line: number, raw: string, value: unknown): Line => ({
  line,
  raw,
  value,
  errors: null,
});

export const badLine = (line: number, raw: string, message: string, field = ''): Line => ({
  line,
  raw,
  value: undefined,
  errors: [{ field, message }],
});
