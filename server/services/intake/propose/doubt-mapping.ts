import { isDeepStrictEqual } from 'node:util';
import type { Doubt } from '#server/contract/looks.ts';
import type { FileUnit, MappedField, Mapping } from '#server/contract/mappings.ts';
import { describeFigures, quantileOf } from './describe-figures.ts';
import { isField } from './guess-column.ts';
import { doubtUnit } from './judge-figures.ts';
import { listNamed, type NamedCells } from './propose-long.ts';
import type { Proposal } from './propose-mapping.ts';
import { type SampleTable, sampleColumns } from './sample-columns.ts';

/** Doubts of a proposal that stand while somebody works on it: those of which nothing was settled otherwise. */
export function keepStanding({ mapping: proposed, doubts }: Proposal, mapping: Mapping): Doubt[] {
  const pick = ({ separator, decimal, encoding, skip_lines, header }: Mapping) => [
    ...[separator, decimal, encoding, skip_lines, header],
  ];
  const takenOf = (of: Mapping, column: string | null) =>
    of.layout === 'long'
      ? of.names.find(({ name }) => name === column)
      : of.columns.find((one) => one.column === column);
  return doubts.filter(({ about, column }) => {
    if (about === 'form') return isDeepStrictEqual(pick(proposed), pick(mapping));
    if (about === 'vehicle') return proposed.vehicle === mapping.vehicle;
    if (about === 'time')
      return (
        proposed.time.order === mapping.time.order &&
        proposed.time.form === mapping.time.form &&
        proposed.time.date === mapping.time.date
      );
    return isDeepStrictEqual(takenOf(proposed, column), takenOf(mapping, column));
  });
}

interface Taken {
  column: string;
  field: MappedField;
  unit: FileUnit | null;
  cells: readonly string[];
}

/** What the figures of a file say against a mapping, less what is said already. */
export function doubtMapping(text: string, mapping: Mapping, said: readonly Doubt[]): Doubt[] {
  const table = sampleColumns(text, mapping);
  const taken = mapping.layout === 'long' ? listTakenNames(table, mapping) : listTakenColumns(table, mapping);
  const medians = new Map<MappedField, { column: string; median: number }>();
  const doubts = taken.flatMap(({ column, field, unit, cells }): Doubt[] => {
    const figures = describeFigures(cells, mapping.decimal);
    medians.set(field, { column, median: quantileOf(figures.values, 0.5) });
    return doubtUnit(field, unit, figures).map((message) => ({
      about: 'columns',
      column,
      message: `'${column}' ${message}.`,
    }));
  });
  doubts.push(...doubtSpeeds(medians));
  return doubts.filter(
    (doubt) => !said.some((one) => one.column === doubt.column && one.about === 'columns'),
  );
}

/** A turbine runs behind its engine, but for coasting. */
export function doubtSpeeds(medians: ReadonlyMap<MappedField, { column: string; median: number }>): Doubt[] {
  const engine = medians.get('engine_rpm');
  const turbine = medians.get('turbine_rpm');
  if (engine === undefined || turbine === undefined || !(turbine.median > engine.median)) return [];
  const message = `'${turbine.column}' runs faster than '${engine.column}' most of the time: the two may be exchanged.`;
  return [{ about: 'columns', column: turbine.column, message }];
}

const listTakenColumns = (table: SampleTable, mapping: Mapping): Taken[] =>
  mapping.columns.flatMap(({ column, takes, unit }) => {
    const found = table.columns.find(({ name }) => name.toLowerCase() === column.toLowerCase());
    return found === undefined || !isField(takes) ? [] : [{ column, field: takes, unit, cells: found.cells }];
  });

/** The names in the column that a mapping takes for them, with the values in the one it takes for these. */
export function listMappedNames(table: SampleTable, mapping: Mapping): NamedCells[] {
  const find = (take: string) => {
    const column = mapping.columns.find(({ takes }) => takes === take)?.column.toLowerCase();
    return table.columns.find(({ name }) => name.toLowerCase() === column);
  };
  const name = find('name');
  const value = find('value');
  if (name === undefined || value === undefined) return [];
  return listNamed(table, name, value, mapping.missing, find('unit') ?? null);
}

function listTakenNames(table: SampleTable, mapping: Mapping): Taken[] {
  const listed = listMappedNames(table, mapping);
  return mapping.names.map(({ name: column, field, unit }) => ({
    column,
    field,
    unit,
    cells: listed.find((one) => one.name.toLowerCase() === column.toLowerCase())?.cells ?? [],
  }));
}
