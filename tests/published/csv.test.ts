import { expect, it } from 'vitest';
import { splitCells } from '#server/services/intake/split-cells.ts';
import { expectCase, readCase } from './published-case.ts';

// RFC 4180, section 2, rules 1, 2 and 6, printed values marked a. A record ends where its quotes are closed; the reader
// that finds these ends in a stream is held against csv-parse beside it.
it.each([',', ';', '\t', '|'])('cuts the records of RFC 4180 into cells, parted by %j', (separator) => {
  const one = readCase('19-csv-rfc4180-a');
  const { texts } = one.input as { texts: string[] };
  const records = texts.map((text) =>
    cutRecords(text).map((record) => splitCells(record.replaceAll(',', separator), separator)),
  );
  expect(expectCase(one, { records })).toEqual(['records/0', 'records/1', 'records/2']);
});

const cutRecords = (text: string): string[] =>
  text.split(/\r\n(?=(?:[^"]*"[^"]*")*[^"]*$)/).filter((record) => record !== '');
