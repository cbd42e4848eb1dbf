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
    ['drive.log', '(1436509052.249713) vcan0 18FEF100#FFFFFF', 'can'],
    ['drive.log.gz', 'FF00\n (000.000000)  can0  18FEDF00   [8]  8A A0', 'can'],
    ['drive.csv', '(1.5) can0 123#R\n', 'can'],
    ['notes.log', '(see below) can0 is the bus', 'csv'],
  ])('%s that begins with %j is %s', (name, beginning, format) => {
    expect(sniffFormat(name, beginning)).toBe(format);
  });
});
