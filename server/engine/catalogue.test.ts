import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { catalogue } from './catalogue.ts';

const entries = Object.entries(catalogue).flatMap(([subject, functions]) =>
  Object.entries(functions).map(([name, one]) => ({ subject, name, one })),
);

function noteOf(subject: string, name: string): string {
  const file = name.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  const path = new URL(`${subject}/${file}.ts`, import.meta.url);
  expect(existsSync(path), `${subject}/${file}.ts`).toBe(true);
  const text = readFileSync(path, 'utf8');
  const before = text.slice(0, text.indexOf(`export function ${name}(`));
  return before.slice(before.lastIndexOf('/**'));
}

describe.each(entries)('$name', ({ subject, name, one }) => {
  it('is named after the file it lies in and carries its full note', () => {
    expect(one.name).toBe(name);
    const note = noteOf(subject, name);
    for (const part of ['@param', '@returns', 'Source:', 'Edges', 'rrors:', `@example ${name}(`]) {
      expect(note, part).toContain(part);
    }
  });
});
