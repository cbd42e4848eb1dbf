import { type SetUpKind, setUpKinds } from '#server/contract/words.ts';

export interface SetUpSearch {
  /** what the lines of the file are; the first that the reader may set up where left out */
  kind?: SetUpKind;
}

export function parseSetUpSearch(raw: Record<string, unknown>): SetUpSearch {
  const kind = setUpKinds.find((one) => one === raw.kind);
  return kind === undefined ? {} : { kind };
}
