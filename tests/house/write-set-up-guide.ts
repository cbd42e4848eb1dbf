import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { SetUpColumn } from '#server/contract/set-up-files/set-up-column.ts';
import { type SetUpFile, setUpFiles } from '#server/contract/set-up-files/set-up-files.ts';
import { alignTable } from './align-table.ts';

export const SET_UP_GUIDE = fileURLToPath(new URL('../../docs/guide/set-up-files.md', import.meta.url));
const BEGIN = '## The columns\n';

/** The part of the guide that says what each column is, made of what reads them. */
export const writeSetUpTables = (): string => `${BEGIN}\n${setUpFiles.map(writeTable).join('\n')}`;

const writeTable = ({ kind, lead, columns }: SetUpFile): string =>
  [
    `### ${kind}`,
    '',
    lead,
    '',
    ...alignTable([['column', 'meaning', 'unit or form', 'example'], ...columns.map(writeColumn)]),
    '',
  ].join('\n');

function writeColumn({ name, also, unit, needed, clears, example, meaning }: SetUpColumn): string[] {
  const marks = [...(needed ? ['must be there'] : []), ...(clears ? ['`-` takes it away'] : [])];
  return [
    [name, ...(also === undefined ? [] : [also.name])].map((one) => `\`${one}\``).join(', '),
    [meaning, ...marks].join('; '),
    also === undefined ? unit : `${unit}, ${also.unit}`,
    example,
  ];
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [before = ''] = readFileSync(SET_UP_GUIDE, 'utf8').split(BEGIN);
  writeFileSync(SET_UP_GUIDE, before + writeSetUpTables());
}
