import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openImportFile } from '#server/cli/import/open-import-file.ts';
import { sniffFormat } from '#server/services/intake/sniff-format.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { fuzz, hold, holdEqual } from './fuzz.ts';
import { hostileText } from './hostile-values.ts';
import { mutated } from './mutate-bytes.ts';
import { goodReading, jsonLine } from './reading-arbitraries.ts';

const FORMATS = ['csv', 'ndjson', 'json'];
let folder: string;
beforeAll(() => {
  folder = makeTemporaryFolder();
});
afterAll(() => rmSync(folder, { recursive: true }));

const start = fc.constantFrom('', '\ufeff', '\n', '  ');
const space = fc.constantFrom(undefined, 1, '\t');
const readings = fc.array(goodReading(), { minLength: 1, maxLength: 3 });
/** A good file without a name that tells, and its format. */
const goodFile = fc.oneof(
  fc.tuple(start, readings).map(([before, all]) => ({
    text: before + all.map((one) => JSON.stringify(one)).join('\n'),
    format: 'ndjson',
  })),
  fc.tuple(start, readings, space).map(([before, all, indent]) => ({
    text: before + JSON.stringify(all, null, indent),
    format: 'json',
  })),
  fc.tuple(start, readings, space).map(([before, all, indent]) => ({
    text: before + JSON.stringify({ readings: all }, null, indent),
    format: 'json',
  })),
  fc.tuple(start, readings).map(([before, all]) => ({
    text: `${before}vehicle,at,duty_pct\n${all.map(({ vehicle, at }) => `"${vehicle}",${at},80`).join('\n')}`,
    format: 'csv',
  })),
);

it('tells the format of good files by their text, and of names that tell by their name', async () => {
  const name = fc.tuple(
    hostileText,
    fc.constantFrom('', '.txt', '.csv', '.CSV.gz', '.jsonl', '.ndjson.gz', '.json'),
  );
  await fuzz('fileName', fc.tuple(goodFile, name), ([{ text, format }, [stem, ending]]) => {
    holdEqual(sniffFormat('export', text.slice(0, 4096)), format);
    const named = /\.(csv|ndjson|jsonl)(\.gz)?$/i.exec(stem + ending)?.[1]?.toLowerCase();
    const expected = named === undefined ? format : named === 'csv' ? 'csv' : 'ndjson';
    holdEqual(sniffFormat(stem + ending, text), expected);
  });
});

it('opens any file, gzip or not, and reads all of its bytes', async () => {
  const bytes = fc.tuple(mutated(jsonLine), fc.constantFrom('plain', 'gzip', 'half')).map(([line, how]) => {
    const zipped = gzipSync(line);
    return how === 'plain' ? line : how === 'gzip' ? zipped : zipped.subarray(0, zipped.length / 2);
  });
  const path = () => join(folder, 'export');
  await fuzz('file', bytes, async (content) => {
    writeFileSync(path(), content);
    const file = await openImportFile(path());
    hold(FORMATS.includes(file.format), () => `takes it for ${file.format}`);
    holdEqual(String(file.gzip), String(content[0] === 0x1f && content[1] === 0x8b));
    const got: Uint8Array[] = [];
    for await (const chunk of file.read(() => {})) got.push(chunk);
    hold(Buffer.concat(got).equals(content), () => 'other bytes than the file has');
  });
  await expect(openImportFile(join(folder, 'none'))).rejects.toThrow('does not exist');
});
