import type { WorkbenchChoice } from '#server/contract/workbench.ts';
import {
  type WorkbenchKind,
  type WorkbenchPart,
  workbenchKinds,
  workbenchParts,
} from '#server/contract/workbench-words.ts';

/** What the address of the screen says: everything but the text itself. An empty column is none. */
export type WorkbenchSearch = Partial<Record<WorkbenchPart, string>> & {
  kind?: WorkbenchKind;
  example?: string;
  /** a kept table */
  set?: number;
  /** names of columns, each encoded, with commas between */
  covariates?: string;
  header?: 'yes' | 'no';
  decimal?: 'point' | 'comma';
  /** whether 1 means that it ran on */
  turned?: 'yes' | 'no';
  confidence?: number;
};

export const confidences = [0.8, 0.9, 0.95, 0.99] as const;
const mostName = 200;
const mostCovariates = 10;

/** Takes what is sound from an address that anyone may have typed; what is not falls away by itself. */
export function parseWorkbenchSearch(raw: Record<string, unknown>): WorkbenchSearch {
  const search: WorkbenchSearch = {};
  const kind = workbenchKinds.find((one) => one === raw.kind);
  if (kind !== undefined) search.kind = kind;
  if (typeof raw.example === 'string' && /^[a-z-]{1,40}$/.test(raw.example)) search.example = raw.example;
  const set = Number(raw.set);
  if (Number.isSafeInteger(set) && set > 0) search.set = set;
  for (const part of workbenchParts) {
    const name = raw[part];
    if (typeof name === 'string' && name.length <= mostName) search[part] = name;
  }
  if (typeof raw.covariates === 'string' && raw.covariates.length <= mostCovariates * 3 * mostName)
    search.covariates = raw.covariates;
  if (raw.header === 'yes' || raw.header === 'no') search.header = raw.header;
  if (raw.decimal === 'point' || raw.decimal === 'comma') search.decimal = raw.decimal;
  if (raw.turned === 'yes' || raw.turned === 'no') search.turned = raw.turned;
  const confidence = confidences.find((one) => one === Number(raw.confidence));
  if (confidence !== undefined && confidence !== 0.95) search.confidence = confidence;
  return search;
}

export const joinNames = (names: readonly string[]): string => names.map(encodeURIComponent).join(',');

export function splitNames(text: string): string[] {
  if (text === '') return [];
  try {
    return text.split(',').map(decodeURIComponent).slice(0, mostCovariates);
  } catch {
    return [];
  }
}

/** What was guessed of a table, or kept with it, with what the address says instead. Names that the table lacks fall away. */
export function mergeChoice(
  guess: WorkbenchChoice,
  search: WorkbenchSearch,
  columns: readonly string[],
): WorkbenchChoice {
  const named = Object.fromEntries(
    workbenchParts.flatMap((part) => {
      const said = search[part];
      const name =
        said === '' ? undefined : said !== undefined && columns.includes(said) ? said : guess.columns[part];
      return name === undefined || !columns.includes(name) ? [] : [[part, name]];
    }),
  );
  const covariates = search.covariates === undefined ? guess.covariates : splitNames(search.covariates);
  return {
    ...guess,
    columns: named,
    covariates: covariates.filter((name) => columns.includes(name)),
    event_turned: search.turned === undefined ? guess.event_turned : search.turned === 'yes',
  };
}
