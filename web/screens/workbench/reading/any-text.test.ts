import fc from 'fast-check';
import { expect, it } from 'vitest';
import { guessChoice } from './guess-choice.ts';
import { readTable } from './read-table.ts';
import { TableFault } from './table.ts';
import { takeRows } from './take-rows.ts';

const cell = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 8 }),
  fc.double().map(String),
  fc.constantFrom('', '"', '""', ' ', '1,5', '1.234,5', '-', 'NA', '1e999', 'failed', '0', '\r', '__proto__'),
);
const text = fc
  .array(fc.array(cell, { maxLength: 5 }), { maxLength: 8 })
  .chain((rows) =>
    fc
      .tuple(fc.constantFrom(',', ';', '\t'), fc.constantFrom('\n', '\r\n', '\r'))
      .map(([separator, end]) => rows.map((cells) => cells.join(separator)).join(end)),
  );

it('reads any text or says why not, and every row is taken or counted', () => {
  fc.assert(
    fc.property(text, fc.constantFrom('series' as const, 'lives' as const), (given, kind) => {
      try {
        const table = readTable(given);
        expect(new Set(table.columns).size).toBe(table.columns.length);
        const taken = takeRows(table, guessChoice(table, kind));
        expect(taken.good + taken.bad).toBe(table.rows.length);
        const numbers =
          taken.kind === 'series' ? [...taken.x, ...taken.y] : taken.lives.map(({ exit }) => exit);
        expect(numbers.every(Number.isFinite)).toBe(true);
      } catch (error) {
        if (!(error instanceof TableFault)) throw error;
        expect(error.message.length).toBeGreaterThan(20);
      }
    }),
    { seed: 7, numRuns: 400 },
  );
});
