import { describe, expect, it } from 'vitest';
import { sniffFormat } from './sniff-format.ts';

describe('the format of a file', () => {
  it.each([
    ['a.csv', '[', 'csv'],
    ['a.csv.gz', '', 'csv'],
    ['a.NDJSON', '[', 'ndjson'],
    ['a.jsonl.gz', '', 'ndjson'],
    ['a.json', ' [{"vehicle":1}]', 'json'],
    ['a.json', '\ufeff{"readings": [', 'json'],
    ['a.json', '{"readings":[]}\n', 'json'],
    ['a.json', '{\n  "readings": [', 'json'],
    ['a.json', '{"vehicle":"B-1"}\n{"vehicle":"B-1"}', 'ndjson'],
    ['a.txt', '{broken}\n', 'ndjson'],
    ['export', 'vehicle,at', 'csv'],
  ])('%s that begins with %j is %s', (name, beginning, format) => {
    expect(sniffFormat(name, beginning)).toBe(format);
  });
});
