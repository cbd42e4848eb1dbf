import { z } from 'zod';
import { moment, plainText, vehicleUnit } from './readings.ts';

/** Fields of a reading that a column or a named value of a foreign file can bring, in our own units. */
export const mappedFields = [
  'odometer_km',
  'slip_rpm',
  'engine_rpm',
  'turbine_rpm',
  'duty_pct',
  'fluid_c',
  'load_pct',
  'torque_pct',
  'throttle_pct',
  'speed_kmh',
  'gear',
  'shifting',
  'seconds',
  'codes',
] as const;
export type MappedField = (typeof mappedFields)[number];

/** Units that figures of a foreign file may be in; a ratio is 0 to 1 where we write 0 to 100 %. */
export const fileUnits = [
  'km',
  'mi',
  'm',
  'rpm',
  'rps',
  '%',
  'ratio',
  'degC',
  'degF',
  'K',
  'km/h',
  'mph',
  'm/s',
  's',
  'ms',
  'min',
] as const;
export type FileUnit = (typeof fileUnits)[number];

/** What a column can be taken for beside the fields: the moment, whole or in two parts; the parts of a long layout. */
const columnRoles = ['vehicle', 'time', 'date', 'clock', 'name', 'value', 'unit'] as const;
export const columnTakes = [...columnRoles, ...mappedFields] as const;
export type ColumnTake = (typeof columnTakes)[number];

const unit = z
  .enum(fileUnits)
  .nullable()
  .default(null)
  .meta({ description: 'null: our own unit; a unit written in a cell goes before it' });

const heading = plainText.trim().min(1).max(200);

export const mappingName = plainText
  .trim()
  .min(1)
  .max(64)
  .regex(/^[\p{L}\p{N}][\p{L}\p{N} ._-]*$/u, {
    error: 'must begin with a letter or digit and hold only letters, digits, space . _ -',
  });

/** How the files of one sender are read. */
export const mapping = z
  .object({
    separator: z.enum([',', ';', '\t', '|']).default(','),
    decimal: z.enum(['.', ',']).default('.'),
    encoding: z.enum(['utf-8', 'windows-1252']).default('utf-8'),
    skip_lines: z
      .int()
      .min(0)
      .max(100)
      .default(0)
      .meta({ description: 'lines before the names of the columns, or before the first row' }),
    header: z.boolean().default(true).meta({
      description: 'false: no line names the columns; they are called "column 1", "column 2" and so on',
    }),
    units_line: z
      .boolean()
      .default(false)
      .meta({ description: 'the line below the names of the columns has their units and is no row' }),
    missing: z
      .array(z.string().max(20))
      .max(20)
      .default(['-', '--', 'NaN', 'N/A', 'null'])
      .meta({ description: 'cells that say that there is no value, in any case; empty cells always do' }),
    layout: z
      .enum(['wide', 'long'])
      .default('wide')
      .meta({ description: 'wide: one row a moment; long: one row a value, with its name in a column' }),
    columns: z
      .array(z.object({ column: heading, takes: z.enum(columnTakes), unit }))
      .max(200)
      .meta({ description: 'columns that are taken; all others are left out' }),
    names: z
      .array(z.object({ name: heading, field: z.enum(mappedFields), unit }))
      .max(200)
      .default([])
      .meta({ description: 'long: values that are taken, by their name; all others are left out' }),
    join_within_s: z.number().min(0).max(3600).default(0).meta({
      description: 'long: values of one vehicle within so many seconds of the first make one reading',
    }),
    vehicle: z
      .enum(['column', 'file_name', 'given'])
      .default('column')
      .meta({ description: 'where the vehicle is named; given: with each file, by whoever brings it' }),
    time: z
      .object({
        date: z.enum(['column', 'file_name', 'given']).default('column').meta({
          description: 'where the day is; a clock that falls back begins the next day',
        }),
        form: z.enum(['text', 'unix_s', 'unix_ms', 'sheet_days', 'seconds']).default('text').meta({
          description:
            'text: written out; unix_s, unix_ms: since 1970; sheet_days: days since 1899-12-30; seconds: since the start, which is given with the file',
        }),
        order: z.enum(['ymd', 'dmy', 'mdy']).default('ymd').meta({
          description: 'of day, month and year where they are written in figures',
        }),
        zone: z.string().max(64).nullable().default(null).meta({
          description:
            'IANA time zone, or an offset such as +02:00, for times that carry none; null: given with the file',
        }),
      })
      .prefault({}),
  })
  .meta({ id: 'Mapping', description: 'How the files of one sender are read' });
export type Mapping = z.output<typeof mapping>;
export type MappingInput = z.input<typeof mapping>;

export const storedMapping = z
  .object({ name: mappingName, mapping, changed_at: moment, changed_by: z.string() })
  .meta({ id: 'StoredMapping' });
export type StoredMapping = z.infer<typeof storedMapping>;

/** What only whoever brings a file can say of it. */
export const given = z
  .object({
    file: plainText.max(255).optional().meta({ description: 'its name' }),
    vehicle: vehicleUnit.optional().meta({ description: 'of files that name none' }),
    date: z.iso.date({ error: 'must be a day such as 2026-03-04' }).optional().meta({
      description: 'day of the first row, of files that have the time of day alone',
    }),
    zone: z.string().max(64).optional().meta({ description: 'of times that carry none' }),
    start: moment.optional().meta({ description: 'moment at which the clock of the file stood at 0' }),
    window_s: z.coerce.number().min(1).max(600).optional().meta({
      description: 'CAN log: length of the windows that readings are made of; 10 where left out',
    }),
  })
  .meta({ id: 'GivenWithFile' });
export type Given = z.output<typeof given>;
