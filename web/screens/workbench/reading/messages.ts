import type { WorkbenchChoice } from '#server/contract/workbench.ts';
import type { WorkbenchKind } from '#server/contract/workbench-words.ts';
import type { Decimal, ReadOptions, Separator } from './table.ts';
import type { Taken } from './take-rows.ts';

/** Where a table comes from: typed or pasted, or a file. */
export type Source = { name: string } & ({ text: string } | { file: File });

export interface ReadRequest extends ReadOptions {
  id: number;
  does: 'read';
  source: Source;
  kind?: WorkbenchKind | undefined;
}
export interface TakeRequest {
  id: number;
  does: 'take';
  choice: WorkbenchChoice;
}
export type ReaderRequest = ReadRequest | TakeRequest;

/** What the screen shows of a table; the rows stay where they were read. */
export interface Preview {
  columns: readonly string[];
  /** those of them that hold numbers */
  figureColumns: readonly string[];
  separator: Separator;
  hasHeader: boolean;
  decimal: Decimal;
  rows: number;
  first: readonly (readonly string[])[];
  guess: WorkbenchChoice;
  /** the text, for keeping it; null where it is longer than what is kept */
  text: string | null;
  characters: number;
}

export interface TakenRows {
  taken: Taken;
  eventWords: { failed: string[]; running: string[] } | null;
}

export type ReaderReply =
  | { id: number; preview: Preview }
  | { id: number; rows: TakenRows }
  | { id: number; fault: string };
