/** What a column holds, by its name in PostgreSQL. */
export const postgresTypes = {
  text: 'text',
  texts: 'text[]',
  integer: 'integer',
  integers: 'integer[]',
  long: 'bigint',
  real: 'real',
  double: 'double precision',
  doubles: 'double precision[]',
  boolean: 'boolean',
  instant: 'timestamp with time zone',
  day: 'date',
  json: 'jsonb',
} as const;
export type ColumnType = keyof typeof postgresTypes;

export interface NotebookColumn {
  name: string;
  type: ColumnType;
  /** empty where it has none */
  unit: string;
  meaning: string;
  sql: string;
}

/** Where the rows of a view can be narrowed: conditions on a parameter. */
interface Narrowing {
  depot: string;
  platform: string;
  since: { meaning: string; condition: (parameter: string) => string };
}

/**
 * One view for notebooks, and one table that `export` writes: the views, their comments, the headers of files and the
 * tables of the guide are all made of this.
 */
export interface NotebookView {
  name: string;
  meaning: string;
  columns: readonly NotebookColumn[];
  from: string;
  /** along a primary key, so that a large table is read in order without being sorted */
  order: string;
  narrow: Partial<Narrowing>;
}

export const column = (
  name: string,
  type: ColumnType,
  unit: string,
  meaning: string,
  sql: string,
): NotebookColumn => ({ name, type, unit, meaning, sql });

/** The vehicle that a row is of, and where it belongs now; of the table `public.vehicles v`. */
export const vehicleColumns = [
  column('vehicle', 'text', '', "the fleet's own unit number", 'v.unit'),
  column('depot', 'text', '', 'depot that the vehicle belongs to now', 'v.depot'),
  column('platform', 'text', '', 'platform of the vehicle', 'v.platform'),
] as const;

export const ofVehicle = { depot: 'v.depot', platform: 'v.platform' } as const;
