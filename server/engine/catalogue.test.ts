import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { catalogue } from './catalogue.ts';

const folder = new URL('./', import.meta.url);
const parts = ['@param', '@returns', 'Source:', 'Edges', 'rrors:'];

const entries = Object.entries(catalogue).flatMap(([subject, functions]) =>
  Object.entries(functions).map(([name, one]) => ({ subject, name, one })),
);

describe.each(entries)('$name', ({ subject, name, one }) => {
  it('is named after the file it lies in', () => {
    expect(one.name).toBe(name);
    const file = name.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
    expect(existsSync(new URL(`${subject}/${file}.ts`, folder)), `${subject}/${file}.ts`).toBe(true);
  });
});

const exported = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts') && !file.endsWith('.test.ts'))
  .flatMap((file) => {
    const text = readFileSync(new URL(file, folder), 'utf8');
    return [...text.matchAll(/^export (?:function (\w+)|const (\w+) = (?:\(|async|function))/gm)].map(
      (match) => {
        const before = text.slice(0, match.index).trimEnd();
        const note = before.endsWith('*/') ? before.slice(before.lastIndexOf('/**')) : '';
        return { file, name: match[1] ?? match[2] ?? '', note };
      },
    );
  });

describe.each(exported)('$name in $file', ({ name, note }) => {
  it('carries its full note, and no function is exported without', () => {
    for (const part of [...parts, `@example ${name}(`]) expect(note, part).toContain(part);
  });
});
