import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { paperTokens } from './paper-look.ts';

const css = readFileSync(new URL('../../web/ui/tokens.css', import.meta.url), 'utf8');
const light = css.slice(0, css.indexOf('@media'));
const tokenOf = (name: string) => new RegExp(`${name}: ([^;]+);`).exec(light)?.[1];
const ownOnPaper = new Set(['--paper', '--paper-sunk', '--font']);

it.each(Object.entries(paperTokens).filter(([name]) => !ownOnPaper.has(name)))(
  'draws on paper with the light tone %s of the screens',
  (name, value) => {
    expect(value).toBe(tokenOf(name));
  },
);

it('writes with the face that the screens name first', () => {
  expect(tokenOf('--font')).toContain(`'${paperTokens['--font']}'`);
});
