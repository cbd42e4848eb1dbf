import type { Preview } from './reading/messages.ts';

const whole = new Intl.NumberFormat('en-GB');
const words = { ',': 'commas', ';': 'semicolons', '\t': 'tabs' } as const;

/** '38 rows, 3 columns, parted by commas' */
export const sayTableShape = ({ rows, columns, separator }: Preview): string =>
  [
    `${whole.format(rows)} ${rows === 1 ? 'row' : 'rows'}`,
    columns.length === 1 ? '1 column' : `${columns.length} columns, parted by ${words[separator]}`,
  ].join(', ');
