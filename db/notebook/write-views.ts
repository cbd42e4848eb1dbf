import { createHash } from 'node:crypto';
import { quoteName } from '#db/backup/quote-name.ts';
import type { NotebookColumn, NotebookView } from './view.ts';

/** Schema of the views. */
export const NOTEBOOK = 'notebook';

export const qualifiedName = ({ name }: NotebookView): string => `${NOTEBOOK}.${quoteName(name)}`;

/** As the comment of a column, the head of a file and the guide say it: `mileage at fitting (km)`. */
export const sayColumn = ({ meaning, unit }: NotebookColumn): string =>
  unit === '' ? meaning : `${meaning} (${unit})`;

/** The statement that answers the rows of a view, without order. */
export const selectView = ({ columns, from }: NotebookView): string =>
  `select ${columns.map(({ name, sql }) => `${sql} as ${quoteName(name)}`).join(', ')} from ${from}`;

/** The statements that make a view and say what it holds. */
export function writeView(view: NotebookView): string[] {
  const name = qualifiedName(view);
  return [
    `create view ${name} as ${selectView(view)}`,
    `comment on view ${name} is ${quoteText(view.meaning)}`,
    ...view.columns.map(
      (one) => `comment on column ${name}.${quoteName(one.name)} is ${quoteText(sayColumn(one))}`,
    ),
  ];
}

/** Differs where any statement does. */
export const hashViews = (views: readonly NotebookView[]): string =>
  createHash('sha256').update(views.flatMap(writeView).join(';\n')).digest('hex').slice(0, 16);

export const quoteText = (text: string): string => `'${text.replaceAll("'", "''")}'`;
