import { ByteWriter, ParquetWriter } from 'hyparquet-writer';
import type { ColumnType, NotebookColumn, NotebookView } from '#db/notebook/view.ts';
import type { NotebookRow } from '#db/queries/read-notebook-rows.ts';

/** Held in memory, one group at a time. */
const ROWS_A_GROUP = 50_000;

type SchemaElement = ConstructorParameters<typeof ParquetWriter>[0]['schema'][number];
type Leaf = Omit<SchemaElement, 'name' | 'repetition_type'>;

const TEXT: Leaf = { type: 'BYTE_ARRAY', converted_type: 'UTF8', logical_type: { type: 'STRING' } };
const INTEGER: Leaf = { type: 'INT32' };
const DOUBLE: Leaf = { type: 'DOUBLE' };

const leaves: Record<ColumnType, { leaf: Leaf; isList?: true }> = {
  text: { leaf: TEXT },
  texts: { leaf: TEXT, isList: true },
  integer: { leaf: INTEGER },
  integers: { leaf: INTEGER, isList: true },
  long: { leaf: { type: 'INT64' } },
  real: { leaf: { type: 'FLOAT' } },
  double: { leaf: DOUBLE },
  doubles: { leaf: DOUBLE, isList: true },
  boolean: { leaf: { type: 'BOOLEAN' } },
  instant: {
    leaf: {
      type: 'INT64',
      converted_type: 'TIMESTAMP_MILLIS',
      logical_type: { type: 'TIMESTAMP', isAdjustedToUTC: true, unit: 'MILLIS' },
    },
  },
  day: { leaf: { type: 'INT32', converted_type: 'DATE', logical_type: { type: 'DATE' } } },
  json: { leaf: { type: 'BYTE_ARRAY', converted_type: 'JSON', logical_type: { type: 'JSON' } } },
};

export interface ParquetAbout {
  program: string;
  writtenAt: Date;
}

/** Rows as a Parquet file, a piece for each group of rows; what each column means is in the file. */
export async function* writeParquetRows(
  view: NotebookView,
  rows: AsyncIterable<readonly NotebookRow[]>,
  about: ParquetAbout,
): AsyncGenerator<Buffer> {
  const out = new ByteWriter();
  const parquet = new ParquetWriter({
    writer: out,
    schema: [{ name: view.name, num_children: view.columns.length }, ...view.columns.flatMap(toSchema)],
    kvMetadata: describeFile(view, about),
    createdBy: `Slipdrift ${about.program}`,
  });
  let group: NotebookRow[] = [];
  for await (const some of rows) {
    group.push(...some);
    if (group.length < ROWS_A_GROUP) continue;
    writeGroup(parquet, view, group);
    group = [];
    yield takeBytes(out);
  }
  // A file without a row has its columns all the same.
  writeGroup(parquet, view, group);
  parquet.finish();
  yield takeBytes(out);
}

function writeGroup(parquet: ParquetWriter, { columns }: NotebookView, rows: readonly NotebookRow[]): void {
  const columnData = columns.map(({ name, type }) => ({
    name,
    data: rows.map((row) => toValue(row[name], type)),
  }));
  parquet.write({ columnData, rowGroupSize: Math.max(1, rows.length) });
}

function toValue(value: unknown, type: ColumnType): unknown {
  if (value === null || value === undefined) return null;
  if (type === 'long') return BigInt(value as number);
  if (type === 'day') return Date.parse(String(value)) / 86_400_000;
  return value;
}

/** A list is three levels deep, as readers expect (Parquet format, LogicalTypes.md, Lists). */
function toSchema({ name, type }: NotebookColumn): SchemaElement[] {
  const { leaf, isList } = leaves[type];
  if (isList === undefined) return [{ ...leaf, name, repetition_type: 'OPTIONAL' }];
  return [
    {
      name,
      repetition_type: 'OPTIONAL',
      num_children: 1,
      converted_type: 'LIST',
      logical_type: { type: 'LIST' },
    },
    { name: 'list', repetition_type: 'REPEATED', num_children: 1 },
    { ...leaf, name: 'element', repetition_type: 'OPTIONAL' },
  ];
}

function describeFile({ name, meaning, columns }: NotebookView, { program, writtenAt }: ParquetAbout) {
  const described = columns.map((one) => ({ name: one.name, unit: one.unit, meaning: one.meaning }));
  return Object.entries({
    'slipdrift.table': name,
    'slipdrift.meaning': meaning,
    'slipdrift.columns': JSON.stringify(described),
    'slipdrift.version': program,
    'slipdrift.written_at': writtenAt.toISOString(),
  }).map(([key, value]) => ({ key, value }));
}

/** The library counts on from where it was, so that places in the file stay right. */
function takeBytes(out: ByteWriter): Buffer {
  const bytes = Buffer.from(out.getBytes());
  out.index = 0;
  return bytes;
}
