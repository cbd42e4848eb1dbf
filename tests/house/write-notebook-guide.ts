import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type NotebookView, postgresTypes } from '#db/notebook/view.ts';
import { notebookViews } from '#db/notebook/views.ts';
import { alignTable } from './align-table.ts';

const GUIDE = fileURLToPath(new URL('../../docs/guide/notebooks.md', import.meta.url));
const BEGIN = '## The views\n';

/** The part of the guide that says what each view holds, made of what the views are made of. */
export const writeGuideTables = (): string => `${BEGIN}\n${notebookViews.map(writeTable).join('\n')}`;

function writeTable({ name, meaning, columns, narrow }: NotebookView): string {
  const since = narrow.since === undefined ? '' : ` \`--since\`: ${narrow.since.meaning}.`;
  return [
    `### ${name}`,
    '',
    `${meaning}.${since}`,
    '',
    ...alignTable([
      ['column', 'type', 'unit', 'meaning'],
      ...columns.map((one) => [one.name, postgresTypes[one.type], one.unit, one.meaning]),
    ]),
    '',
  ].join('\n');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [before = ''] = readFileSync(GUIDE, 'utf8').split(BEGIN);
  writeFileSync(GUIDE, before + writeGuideTables());
}
