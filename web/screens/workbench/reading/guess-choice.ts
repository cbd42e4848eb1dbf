import type { WorkbenchChoice } from '#server/contract/workbench.ts';
import type { WorkbenchKind, WorkbenchPart } from '#server/contract/workbench-words.ts';
import { createEventReader } from './event-words.ts';
import { isBlank, readFigure } from './read-figure.ts';
import type { Table } from './table.ts';

const sampleRows = 300;
/** Some cells may be blank or wrong in a column of figures. */
const leastShare = 0.5;
const leastEvents = 0.8;

const names: Record<WorkbenchPart, RegExp> = {
  x: /^x\b|odo|mileage|kilomet|distance|^km\b|\bkm\b|^time|date|\bday|hour|\bt\b|year|cycle/i,
  y: /^y\b|slip|rpm|value|level|flow|reading|temp|measure/i,
  exit: /exit|removed|failed[ _]?(at|km)|stop|end|time|km\b|mileage|distance|life|age|duration|hours|cycles|^t\b/i,
  entry: /entry|enter|start|begin|from|first|left|since/i,
  event: /event|outcome|status|fail|censor|\bcens|ended|dead|died|\bdelta\b|state/i,
  mode: /mode|cause|reason|failure[ _]?type/i,
  group: /group|platform|type|class|source|supplier|batch|depot|arm|treat|model/i,
  count: /^(count|n|freq|frequency|number|quantity|qty|weight)$/i,
};

interface Column {
  name: string;
  isFigures: boolean;
  isEvent: boolean;
  isUneven: boolean;
  words: number;
}

/** Likely parts of each column, by its name and by what stands in it. */
export function guessChoice(table: Table, kind?: WorkbenchKind): WorkbenchChoice {
  const columns = table.columns.map((name, i) => describeColumn(table, name, i));
  // Words such as failed and running say it themselves; 1 and 0 may be anything.
  const event = columns.find(
    (one) => one.isEvent && (names.event.test(one.name) || (!one.isFigures && one.words > 1)),
  );
  const guessed = kind ?? (event !== undefined && columns.some(isExit) ? 'lives' : 'series');
  const parts = guessed === 'lives' ? guessLives(columns) : guessSeries(columns);
  return {
    kind: guessed,
    columns: Object.fromEntries(Object.entries(parts).filter(([, name]) => name !== undefined)),
    covariates: [],
    header: table.hasHeader,
    decimal: table.decimal,
    event_turned: guessed === 'lives' && /cens/i.test(parts.event ?? ''),
  };
}

/** Columns that hold numbers, and may be exposures. */
export const listFigureColumns = (table: Table): string[] =>
  table.columns.filter((name, i) => describeColumn(table, name, i).isFigures);

const isExit = (one: Column) => one.isFigures && !one.isEvent;

function describeColumn({ rows, decimal }: Table, name: string, i: number): Column {
  const cells = rows.slice(0, sampleRows).map(({ cells }) => cells[i] ?? '');
  const full = cells.filter((cell) => !isBlank(cell));
  const figures = full.flatMap((cell) => readFigure(cell, decimal) ?? []);
  const readEvent = createEventReader(full, false);
  const events = full.filter((cell) => readEvent(cell) !== null).length;
  return {
    name,
    isFigures: full.length > 0 && figures.length >= leastShare * full.length,
    isEvent: full.length > 0 && events >= leastEvents * full.length,
    isUneven: new Set(figures).size > 1,
    words: new Set(full).size,
  };
}

function guessSeries(columns: readonly Column[]): Partial<Record<WorkbenchPart, string>> {
  const figures = columns.filter(({ isFigures }) => isFigures);
  const x =
    figures.find((one) => names.x.test(one.name) && one.isUneven) ??
    (figures.length > 1 ? figures[0] : undefined);
  const others = figures.filter((one) => one !== x);
  const y = others.find((one) => names.y.test(one.name)) ?? others[0];
  return { x: x?.name, y: y?.name } as Partial<Record<WorkbenchPart, string>>;
}

function guessLives(columns: readonly Column[]): Partial<Record<WorkbenchPart, string>> {
  const taken = new Set<Column>();
  const take = (part: WorkbenchPart, fits: (one: Column) => boolean, orElse = false): string | undefined => {
    const free = columns.filter((one) => !taken.has(one) && fits(one));
    const found = free.find((one) => names[part].test(one.name)) ?? (orElse ? free[0] : undefined);
    if (found !== undefined) taken.add(found);
    return found?.name;
  };
  const event = take('event', (one) => one.isEvent, true);
  const count = take('count', (one) => one.isFigures);
  const entry = take('entry', isExit);
  const exit = take('exit', isExit, true);
  const isFew = ({ words }: Column) => words > 1 && words <= 20;
  const mode = take('mode', (one) => one.words <= 20);
  const group = take('group', isFew);
  return { exit, entry, event, mode, group, count } as Partial<Record<WorkbenchPart, string>>;
}
