import type { Doubt, SeenColumn, SeenName } from '#server/contract/looks.ts';
import { type Given, type Mapping, mapping as mappingSchema } from '#server/contract/mappings.ts';
import { createMissingTest } from '#server/services/intake/mapped/create-cell-reader.ts';
import { unitOf } from '#server/services/intake/mapped/unit-words.ts';
import { stemOfFile } from '#server/services/intake/mapped/vehicle-of-file.ts';
import { cutTable } from './cut-table.ts';
import { decodeSample } from './decode-sample.ts';
import { findHeader } from './find-header.ts';
import { type GuessedColumn, guessColumn, isField } from './guess-column.ts';
import { guessDecimal } from './guess-decimal.ts';
import { guessSeparator, separatorWords } from './guess-separator.ts';
import { findLongColumns, guessNames, listNamed } from './propose-long.ts';
import { proposeTime } from './propose-time.ts';
import { SAMPLE_LINES, type SampleColumn, sampleColumns } from './sample-columns.ts';

export interface Proposal {
  mapping: Mapping;
  columns: SeenColumn[];
  names: SeenName[];
  doubts: Doubt[];
}

const OTHER_MARKS = ['NA', 'n.a.', 'k.A.', '#N/A', '#NV', 'none', 'missing', '?', '.', '–', '—'];

/** How the beginning of a file may be read; `form` is what is settled already. All that may be otherwise is a doubt. */
export function proposeMapping(bytes: Buffer, given: Given, form: Partial<Mapping> = {}): Proposal {
  const { text, encoding, matters } = decodeSample(bytes);
  const doubts: Doubt[] = [];
  const doubtForm = (message: string) => doubts.push({ about: 'form', column: null, message });
  const guessed = guessSeparator(text);
  const separator = form.separator ?? guessed.separator;
  if (guessed.other !== null)
    doubtForm(
      `The cells may be parted by ${separatorWords[guessed.other]}; they are read as parted by ${separatorWords[separator]}.`,
    );
  if (encoding === 'windows-1252' && matters)
    doubtForm(
      'The text is no UTF-8 and is read as Windows-1252; look whether letters with accents are right.',
    );
  const records = cutTable(text, separator, SAMPLE_LINES);
  const found = findHeader(records);
  const skipLines = form.skip_lines ?? found.skipLines;
  const header = form.header ?? found.header;
  if (!header) doubtForm('No line names the columns, so nothing says what they are.');
  if (skipLines > 0)
    doubtForm(
      `The first ${skipLines === 1 ? 'line is' : `${skipLines} lines are`} skipped: the table begins below.`,
    );
  const isFoundForm = skipLines === found.skipLines && header === found.header;
  const unitsBelow = isFoundForm ? found.units : null;
  const unitsLine = form.units_line ?? unitsBelow !== null;
  if (unitsBelow !== null)
    doubtForm(
      `Line ${records[found.at + 1]?.line} has the units of the columns and is ${unitsLine ? 'no row: it is skipped' : 'read as a row'}.`,
    );
  const below = records.slice(found.at + (header ? 1 : 0) + (header && unitsLine ? 1 : 0));
  const { decimal: guessedDecimal, unsure } = guessDecimal(below.flatMap(({ cells }) => cells));
  const decimal = form.decimal ?? guessedDecimal;
  if (unsure !== null)
    doubtForm(
      `'${unsure}' may be a thousand and more, or a number with decimals; it is read with a decimal ${decimal === '.' ? 'point' : 'comma'}.`,
    );
  const missing = form.missing ?? findMarks(below.flatMap(({ cells }) => cells));
  const table = sampleColumns(text, {
    separator,
    skip_lines: skipLines,
    header,
    units_line: unitsLine,
    decimal,
    missing,
  });
  const guesses = table.columns.map((column) =>
    header
      ? guessColumn(column.name, column.cells, decimal, unitOf(unitsBelow?.[column.index] ?? '') ?? null)
      : ({ as: null, unit: null, times: null, why: '', doubts: [] } satisfies GuessedColumn),
  );
  const named = table.columns.map(({ name }, i) => ({ name, guess: guesses[i] as GuessedColumn }));
  const long = form.layout === 'wide' ? null : findLongColumns(table, guesses, decimal);
  const time = proposeTime(named, given);
  const vehicle = proposeVehicle(named, given);
  doubts.push(...vehicle.doubts, ...time.doubts);
  const columns: Mapping['columns'] = [...vehicle.columns, ...time.columns];
  let names: ReturnType<typeof guessNames> = { names: [], taken: [], doubts: [] };
  if (long !== null) {
    columns.push(...listLong(long));
    names = guessNames(listNamed(table, long.name, long.value, missing, long.unit), decimal);
    doubts.push(...names.doubts);
  } else {
    const figures = proposeFigures(named);
    columns.push(...figures.columns);
    doubts.push(...figures.doubts);
  }
  const mapping = mappingSchema.parse({
    separator,
    decimal,
    encoding: form.encoding ?? encoding,
    skip_lines: skipLines,
    header,
    units_line: unitsLine,
    missing,
    layout: form.layout ?? (long === null ? 'wide' : 'long'),
    columns,
    names: names.taken,
    vehicle: vehicle.from,
    time: time.time,
  });
  return {
    mapping,
    columns: table.columns.map((column, i) =>
      toSeen(column, guesses[i] as GuessedColumn, columns, long?.name),
    ),
    names: names.names,
    doubts: doubts.map(toSentence),
  };
}

/** What is said of a column has it for its subject. */
const toSentence = (doubt: Doubt): Doubt =>
  doubt.column === null ? doubt : { ...doubt, message: `'${doubt.column}' ${doubt.message}.` };

const listLong = (long: NonNullable<ReturnType<typeof findLongColumns>>): Mapping['columns'] => [
  { column: long.name.name, takes: 'name', unit: null },
  { column: long.value.name, takes: 'value', unit: null },
  ...(long.unit === null ? [] : [{ column: long.unit.name, takes: 'unit' as const, unit: null }]),
];

function proposeVehicle(named: readonly { name: string; guess: GuessedColumn }[], given: Given) {
  const found = named.find(({ guess }) => guess.as === 'vehicle');
  const byOther = (as: string) => named.find(({ guess }) => guess.as === as);
  const inColumn = found ?? byOther('vin') ?? byOther('device');
  const doubts: Doubt[] = [];
  const doubt = (column: string | null, message: string) =>
    doubts.push({ about: 'vehicle', column, message });
  if (inColumn !== undefined && given.vehicle === undefined) {
    if (found === undefined)
      doubt(
        inColumn.name,
        `${inColumn.guess.as === 'vin' ? 'holds a VIN' : 'names a device'} and is taken for the unit number: no other column names the vehicle`,
      );
    return {
      from: 'column' as const,
      columns: [{ column: inColumn.name, takes: 'vehicle' as const, unit: null }],
      doubts,
    };
  }
  if (inColumn !== undefined)
    doubt(inColumn.name, 'names a vehicle, but the vehicle that was given is taken');
  const stem = given.vehicle === undefined && given.file !== undefined ? stemOfFile(given.file) : '';
  if (stem !== '')
    doubt(null, `No column names the vehicle. The name of the file does: it is taken to be ${stem}.`);
  return { from: stem === '' ? ('given' as const) : ('file_name' as const), columns: [], doubts };
}

/** Slip goes before the two speeds it can come from, which are then left out: a fault in them would refuse a good row. */
function proposeFigures(named: readonly { name: string; guess: GuessedColumn }[]) {
  const doubts: Doubt[] = [];
  const columns: Mapping['columns'] = [];
  const hasSlip = named.some(({ guess }) => guess.as === 'slip_rpm');
  for (const { name, guess } of named) {
    if (!isField(guess.as)) continue;
    if (hasSlip && (guess.as === 'engine_rpm' || guess.as === 'turbine_rpm')) continue;
    const before = columns.find(({ takes }) => takes === guess.as);
    if (before === undefined) columns.push({ column: name, takes: guess.as, unit: guess.unit });
    const messages =
      before === undefined
        ? guess.doubts
        : [`may be ${guess.as} as well as '${before.column}', which is taken`];
    for (const message of messages) doubts.push({ about: 'columns', column: name, message });
  }
  return { columns, doubts };
}

function findMarks(cells: readonly string[]): string[] {
  const own = mappingSchema.shape.missing.parse(undefined);
  const known = createMissingTest(own);
  const seen = new Set(cells.map((cell) => cell.toLowerCase()));
  return [...own, ...OTHER_MARKS.filter((mark) => seen.has(mark.toLowerCase()) && !known(mark))];
}

function toSeen(
  { name, samples }: SampleColumn,
  guess: GuessedColumn,
  taken: Mapping['columns'],
  longName: SampleColumn | undefined,
): SeenColumn {
  const found = taken.find(({ column }) => column === name);
  if (found !== undefined) {
    const why = longName?.name === name ? 'its cells are names of values' : guess.why;
    return { column: name, samples, guess: { takes: found.takes, unit: found.unit }, why };
  }
  if (isField(guess.as))
    return { column: name, samples, guess: { takes: guess.as, unit: guess.unit }, why: guess.why };
  return { column: name, samples, guess: null, why: guess.why };
}
