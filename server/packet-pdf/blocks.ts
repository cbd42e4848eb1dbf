import type {
  Content,
  ContentStack,
  ContentTable,
  ContentText,
  CustomTableLayout,
  Margins,
} from 'pdfmake/interfaces.js';
import { paperLook } from './paper-look.ts';

/** Type sizes of the pages, pt: readable at arm's length on paper, and on a phone without turning it. */
export const typePt = { small: 8.5, body: 9.5, large: 12.5, head: 26 } as const;

export const strong = (text: string): Content => ({ text, bold: true });
export const soft = (text: string): ContentText => ({
  text,
  color: paperLook.inkSoft,
  fontSize: typePt.small,
});

/** Room above. */
export const below = (pt: number): { margin: Margins } => ({ margin: [0, pt, 0, 0] });

const headingOf = (title: string): Content => ({
  text: title,
  fontSize: typePt.large,
  bold: true,
  margin: [0, 0, 0, 3],
});

/** A part of the packet: its title is never left at the foot of a page, apart from what it stands over. */
export function section(title: string, first: Content, ...rest: Content[]): Content {
  return {
    stack: [{ stack: [headingOf(title), first], unbreakable: true }, ...rest],
    margin: [0, 11, 0, 0],
  };
}

export const together = (...stack: Content[]): ContentStack => ({ stack, unbreakable: true });

export const smallTitle = (text: string): Content => ({ text, bold: true, margin: [0, 6, 0, 1] });

const rowLines = (above: number): CustomTableLayout => ({
  hLineWidth: (at, { table }) => (at < above || at === table.body.length ? 0 : 0.5),
  vLineWidth: () => 0,
  hLineColor: () => paperLook.hairline,
  paddingLeft: (at) => (at === 0 ? 0 : 8),
  paddingRight: () => 0,
  paddingTop: () => 2,
  paddingBottom: () => 2,
});

type TableColumn = { title: string; width: number | '*' | 'auto' };

/**
 * Rows under their title and a line of column names. Title and names stay with the first row, and stand again on each
 * page that the rows go on to.
 */
export const titledTable = (
  title: Content,
  columns: readonly TableColumn[],
  rows: readonly (readonly Content[])[],
): ContentTable => ({
  layout: rowLines(2),
  table: {
    headerRows: 2,
    keepWithHeaderRows: 1,
    dontBreakRows: true,
    widths: columns.map(({ width }) => width),
    body: [
      columns.map((_, at) => (at === 0 ? { colSpan: columns.length, stack: [title] } : '')),
      columns.map(({ title: name }) => soft(name)),
      ...rows.map((row) => [...row]),
    ],
  },
});

/** A part of the packet that is a table. */
export const tableSection = (
  title: string,
  columns: readonly TableColumn[],
  rows: readonly (readonly Content[])[],
): Content => ({ ...titledTable(headingOf(title), columns, rows), ...below(11) });

/** Name and value, two columns of them where asked for. */
export function factList(facts: readonly { name: string; value: Content }[], nameWidth = 96): ContentTable {
  return {
    layout: rowLines(1),
    table: {
      widths: [nameWidth, '*'],
      dontBreakRows: true,
      body: facts.map(({ name, value }) => [soft(name), value]),
    },
  };
}

const box: CustomTableLayout = {
  hLineWidth: () => 1,
  vLineWidth: () => 1,
  hLineColor: () => paperLook.ink,
  vLineColor: () => paperLook.ink,
  paddingLeft: () => 8,
  paddingRight: () => 8,
  paddingTop: () => 5,
  paddingBottom: () => 6,
};

/** What must not be passed over stands in a box of lines. */
export const boxed = (...stack: Content[]): ContentTable => ({
  layout: box,
  table: { widths: ['*'], dontBreakRows: true, body: [[{ stack }]] },
  margin: [0, 3, 0, 3],
});

export const bullets = (items: readonly string[]): Content => ({ ul: [...items], margin: [0, 1, 0, 1] });

/** A line to write on by hand, with what is to be written. */
export const blank = (
  label: string,
  widthPt: number | '*' = '*',
): { label: string; widthPt: number | '*' } => ({
  label,
  widthPt,
});

const writing: CustomTableLayout = {
  hLineWidth: (at, { table }) => (at === table.body.length ? 0.7 : 0),
  vLineWidth: () => 0,
  hLineColor: () => paperLook.hairlineStrong,
  paddingLeft: (at) => (at === 0 ? 0 : 10),
  paddingRight: () => 0,
  paddingTop: () => 9,
  paddingBottom: () => 2,
};

/** Blanks beside each other on one line. */
export const blankRow = (blanks: readonly ReturnType<typeof blank>[]): ContentTable => ({
  layout: writing,
  table: {
    widths: blanks.map(({ widthPt }) => widthPt),
    body: [blanks.map(({ label }) => soft(label))],
  },
});

export const blankLines = (count: number): Content => ({
  stack: Array.from({ length: count }, () => blankRow([blank(' ')])),
});
