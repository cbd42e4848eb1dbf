import type { FieldError } from '#server/contract/problems.ts';
import { celsiusFromFahrenheit, kmFromMiles } from '#server/contract/units.ts';
import { SlipdriftError } from '#server/errors.ts';
import { createGrowingColumn } from './growing-column.ts';
import { readTraceFlag, readTraceNumber, readTraceStamp } from './trace-cells.ts';
import type { TraceColumn, TraceColumns } from './trace-columns.ts';
import type { TraceField } from './trace-names.ts';

const FAULTS_SHOWN = 20;
const needed: readonly TraceField[] = ['time', 'slip', 'engine', 'turbine', 'duty'];

/** A cell that cannot be read: its row is left out. */
class CellFault extends Error {
  readonly field: string;
  constructor(column: TraceColumn, message: string) {
    super(message);
    this.field = column.header;
  }
}

/** Takes the rows of a trace one by one into columns in our units. */
export function createTraceRows(columns: TraceColumns, decimalComma: boolean) {
  const tMs = createGrowingColumn();
  const slipRpm = createGrowingColumn();
  const dutyPct = createGrowingColumn();
  const others = (['throttle', 'speed', 'load', 'fluid', 'gear', 'shifting'] as const).flatMap((field) => {
    const column = columns[field];
    return column === undefined ? [] : [{ field, column, values: createGrowingColumn() }];
  });
  const gears = new Map<string, number>();
  const faults: (FieldError & { line: number })[] = [];
  const told = tellAssumed(columns);
  let unreadable = 0;
  /** the first row that can be read says which */
  let readsStamps: boolean | null = null;

  const number = (field: TraceField, column: TraceColumn, cells: readonly string[]): number => {
    const cell = cells[column.index] ?? '';
    const value = readTraceNumber(cell, decimalComma);
    if (!Number.isNaN(value)) return value;
    if (cell.trim() !== '') throw new CellFault(column, `${quote(cell)} is not a number`);
    if (needed.includes(field)) throw new CellFault(column, 'is empty');
    return Number.NaN;
  };
  const readTime = (column: TraceColumn, cells: readonly string[]): number => {
    const cell = cells[column.index] ?? '';
    const stamp =
      column.unit === null && readsStamps !== false ? readTraceStamp(cell, decimalComma) : Number.NaN;
    if (!Number.isNaN(stamp)) {
      readsStamps = true;
      return stamp;
    }
    if (readsStamps === true) throw new CellFault(column, `${quote(cell)} is not a time`);
    const value = number('time', column, cells) * (column.unit === 'ms' ? 1 : 1000);
    readsStamps = false;
    return value;
  };
  const readSlip = (cells: readonly string[]): number => {
    if (columns.slip !== undefined) return number('slip', columns.slip, cells);
    if (columns.engine === undefined || columns.turbine === undefined) return Number.NaN;
    return number('engine', columns.engine, cells) - number('turbine', columns.turbine, cells);
  };
  const readOther = ({ field, column }: (typeof others)[number], cells: readonly string[]): number => {
    const cell = cells[column.index] ?? '';
    switch (field) {
      case 'gear': {
        const text = cell.trim();
        if (!gears.has(text)) gears.set(text, gears.size);
        return gears.get(text) ?? 0;
      }
      case 'shifting': {
        const flag = readTraceFlag(cell);
        if (Number.isNaN(flag)) throw new CellFault(column, `${quote(cell)} is neither true nor false`);
        return flag;
      }
      default: {
        const value = number(field, column, cells);
        if (column.unit === 'mph') return kmFromMiles(value);
        return column.unit === 'degF' ? celsiusFromFahrenheit(value) : value;
      }
    }
  };
  const { time, duty } = columns;
  if (time === undefined || duty === undefined) throw new Error('createTraceRows requires time and duty');

  return {
    columns,
    told,
    faults,
    get count(): number {
      return tMs.length;
    },
    get unreadable(): number {
      return unreadable;
    },
    get timeUnitAssumed(): boolean {
      return time.unit === null && readsStamps === false;
    },
    add: (cells: readonly string[], line: number): void => {
      if (cells.every((cell) => cell.trim() === '')) return;
      let read: { ms: number; slip: number; duty: number; others: number[] };
      try {
        read = {
          ms: readTime(time, cells),
          slip: readSlip(cells),
          duty: number('duty', duty, cells),
          others: others.map((one) => readOther(one, cells)),
        };
      } catch (error) {
        if (!(error instanceof CellFault)) throw error;
        unreadable += 1;
        const { field, message } = error;
        if (faults.length < FAULTS_SHOWN) faults.push({ line, field, message });
        return;
      }
      if (read.ms < tMs.last) throw refuseTime(time, line);
      tMs.push(read.ms);
      slipRpm.push(read.slip);
      dutyPct.push(read.duty);
      others.forEach(({ values }, i) => {
        values.push(read.others[i] ?? Number.NaN);
      });
    },
    samples: () => {
      const of = (field: TraceField): Float64Array | null =>
        others.find((one) => one.field === field)?.values.values ?? null;
      return {
        tMs: tMs.values,
        slipRpm: slipRpm.values,
        dutyPct: dutyPct.values,
        throttlePct: of('throttle'),
        speedKmh: of('speed'),
        loadPct: of('load'),
        fluidC: of('fluid'),
        gear: of('gear'),
        shifting: of('shifting'),
      };
    },
  };
}

const quote = (cell: string): string => `'${cell.trim().slice(0, 40)}'`;

function refuseTime(column: TraceColumn, line: number): SlipdriftError {
  const message = 'goes back; rows must be in the order of time';
  return new SlipdriftError(
    'invalid_request',
    `Time goes back in line ${line}. Nothing was stored; put the rows in order, or send one recording at a time.`,
    { errors: [{ line, field: column.header, message }] },
  );
}

/** What the file leaves open and was assumed, and what it lacks that the gate asks for. */
function tellAssumed({ slip, engine, turbine, speed, fluid, load, gear, shifting }: TraceColumns): string[] {
  const told: string[] = [];
  if (slip === undefined && engine !== undefined && turbine !== undefined)
    told.push(`Slip was taken as '${engine.header}' less '${turbine.header}'.`);
  if (speed !== undefined && speed.unit === null)
    told.push(`'${speed.header}' names no unit; it was taken as km/h.`);
  if (fluid !== undefined && fluid.unit === null)
    told.push(`'${fluid.header}' names no unit; it was taken as °C.`);
  if (fluid === undefined) told.push('No fluid temperature: whether the fluid was warm is not known.');
  if (load === undefined) told.push('No load: overrun was told by slip alone.');
  if (gear === undefined && shifting === undefined)
    told.push('Neither gear nor shifting: shifts were told by the command alone.');
  return told;
}
