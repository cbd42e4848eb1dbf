import type { LivesRequest } from '#server/contract/lives.ts';
import type { WorkbenchChoice } from '#server/contract/workbench.ts';
import type { WorkbenchPart } from '#server/contract/workbench-words.ts';
import { createEventReader } from './event-words.ts';
import { isBlank, readFigure } from './read-figure.ts';
import type { Row, RowFault, Table } from './table.ts';

/** Bounds of the two calls; what is beyond them is a row that cannot be used, not a refusal of all. */
const largest = { series: 1e60, lives: 1e12 };
const mostWord = 120;
const shownFaults = 20;

export type TakenLife = Pick<LivesRequest['lives'][number], 'exit' | 'event'> & {
  entry?: number;
  mode?: string;
  group?: string;
  count?: number;
  covariates?: Record<string, number | null>;
};

export type Taken = {
  /** rows that can be used */
  good: number;
  /** rows that cannot */
  bad: number;
  /** the first of them */
  faults: readonly RowFault[];
} & ({ kind: 'series'; x: number[]; y: number[] } | { kind: 'lives'; lives: TakenLife[] });

/** A row that cannot be used. */
class Unusable extends Error {
  readonly column: string;
  constructor(column: string, reason: string) {
    super(reason);
    this.column = column;
  }
}

/** What the chosen columns hold, row by row; rows that cannot be used are counted, the first of them with line and reason. */
export function takeRows(table: Table, choice: WorkbenchChoice): Taken {
  const faults: RowFault[] = [];
  let bad = 0;
  const each = <One>(read: (row: Row, i: number) => One): One[] =>
    table.rows.flatMap((row, i) => {
      try {
        return [read(row, i)];
      } catch (error) {
        if (!(error instanceof Unusable)) throw error;
        bad++;
        if (faults.length < shownFaults)
          faults.push({ line: row.line, column: error.column, reason: error.message });
        return [];
      }
    });
  if (choice.kind === 'lives') {
    const lives = each(createLifeReader(table, choice));
    return { kind: 'lives', lives, good: lives.length, bad, faults };
  }
  const points = each(createPointReader(table, choice));
  const [x, y] = [points.map((point) => point.x), points.map((point) => point.y)];
  return { kind: 'series', x, y, good: points.length, bad, faults };
}

function createPointReader(table: Table, choice: WorkbenchChoice) {
  const readX = choice.columns.x === undefined ? null : createFigureReader(table, choice, 'x');
  const readY = createFigureReader(table, choice, 'y');
  return (row: Row, i: number) => ({ x: readX === null ? i + 1 : readX(row), y: readY(row) });
}

function createLifeReader(table: Table, choice: WorkbenchChoice) {
  const readExit = createFigureReader(table, choice, 'exit');
  const readEntry = createOptional(table, choice, 'entry');
  const readCount = createOptional(table, choice, 'count');
  const readEvent = createEventOf(table, choice);
  const mode = createWordReader(table, choice, 'mode');
  const group = createWordReader(table, choice, 'group');
  const covariates = choice.covariates.map((name) => ({ name, at: columnAt(table, name) }));
  return (row: Row): TakenLife => {
    const exit = readExit(row);
    if (exit <= 0) throw new Unusable(choice.columns.exit ?? '', `is ${exit}, but must be above 0`);
    const entry = readEntry(row);
    if (entry !== undefined && (entry < 0 || entry >= exit))
      throw new Unusable(choice.columns.entry ?? '', `is ${entry}, but must be 0 or more and below ${exit}`);
    const event = readEvent(row);
    const count = readCount(row);
    if (count !== undefined && !(Number.isInteger(count) && count >= 1 && count <= 1e6))
      throw new Unusable(choice.columns.count ?? '', `is ${count}, but must be a whole number from 1`);
    const named = { mode: event ? mode(row) : undefined, group: group(row), entry, count };
    const known = Object.fromEntries(Object.entries(named).filter(([, value]) => value !== undefined));
    if (covariates.length === 0) return { exit, event, ...known };
    const read = covariates.map(({ name, at }) => [name, readCovariate(row, at, name, table)] as const);
    return { exit, event, ...known, covariates: Object.fromEntries(read) };
  };
}

/** Every row is an event where no column says which. */
function createEventOf(table: Table, { columns, event_turned }: WorkbenchChoice) {
  const name = columns.event;
  if (name === undefined) return () => true;
  const at = columnAt(table, name);
  const read = createEventReader(
    table.rows.map(({ cells }) => cells[at] ?? ''),
    event_turned,
  );
  return ({ cells }: Row): boolean => {
    const cell = cells[at] ?? '';
    if (cell === '') throw new Unusable(name, 'is empty');
    const event = read(cell);
    if (event === null)
      throw new Unusable(name, `is '${shorten(cell)}', which says neither failed nor running`);
    return event;
  };
}

function createFigureReader(table: Table, { kind, columns }: WorkbenchChoice, part: WorkbenchPart) {
  const name = columns[part] ?? '';
  const at = columnAt(table, name);
  const most = largest[kind];
  return ({ cells }: Row): number => readCell(cells[at] ?? '', name, most, table);
}

function createOptional(table: Table, choice: WorkbenchChoice, part: WorkbenchPart) {
  const name = choice.columns[part];
  if (name === undefined) return () => undefined;
  const at = columnAt(table, name);
  return ({ cells }: Row): number | undefined =>
    isBlank(cells[at] ?? '') ? undefined : readCell(cells[at] ?? '', name, largest.lives, table);
}

function createWordReader(table: Table, { columns }: WorkbenchChoice, part: WorkbenchPart) {
  const at = columns[part] === undefined ? -1 : columnAt(table, columns[part]);
  return ({ cells }: Row): string | undefined => cells[at]?.slice(0, mostWord).trim() || undefined;
}

const readCovariate = ({ cells }: Row, at: number, name: string, table: Table): number | null =>
  isBlank(cells[at] ?? '') ? null : readCell(cells[at] ?? '', name, largest.lives, table);

function readCell(cell: string, name: string, most: number, { decimal }: Table): number {
  const value = readFigure(cell, decimal);
  if (value === null)
    throw new Unusable(name, isBlank(cell) ? sayBlank(cell) : `is '${shorten(cell)}', which is no number`);
  if (Math.abs(value) > most) throw new Unusable(name, `is ${value}, but must be at most ${most}`);
  return value;
}

const sayBlank = (cell: string): string => (cell.trim() === '' ? 'is empty' : `is '${shorten(cell)}'`);
const shorten = (cell: string): string => (cell.length > 30 ? `${cell.slice(0, 30)}…` : cell);
const columnAt = (table: Table, name: string): number => table.columns.indexOf(name);
