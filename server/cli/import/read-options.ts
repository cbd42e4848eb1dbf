import { CommandError } from '#server/cli/command-error.ts';
import { type Given, given } from '#server/contract/mappings.ts';

export interface GivenFlags {
  vehicle?: string;
  date?: string;
  zone?: string;
  start?: string;
  window?: string;
}

/** How files are read, the same for all of them. */
export interface ReadOptions {
  ignoreUnknownColumns: boolean;
  /** name of the saved mapping; null for our own form */
  mapping: string | null;
  given: Given;
}

/** What the command line says of the files that they do not say themselves. */
export function readGivenFlags({ window, ...flags }: GivenFlags): Given {
  const all = { ...flags, window_s: window };
  const said = Object.fromEntries(Object.entries(all).filter(([, text]) => text !== undefined));
  const found = given.safeParse(said);
  if (found.success) return found.data;
  const [issue] = found.error.issues;
  const flag = String(issue?.path[0] ?? '').replace('window_s', 'window');
  throw new CommandError(`--${flag} ${issue?.message}.`);
}

/** With the name of the file, which may say the vehicle or the day. */
export const givenWith = (options: ReadOptions, file: { name: string }): Given => ({
  file: file.name.slice(0, 255),
  ...options.given,
});
