import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { type Font, openSync } from 'fontkit';

export const PLAIN_FONT = 'Atkinson Hyperlegible Next';
/** The letters of Central and Eastern European Latin, which the fonts have apart. */
export const MORE_FONT = 'Atkinson Hyperlegible Next More';

export const fontFolder = join(
  dirname(createRequire(import.meta.url).resolve('@fontsource/atkinson-hyperlegible-next/package.json')),
  'files',
);

const fileOf = (subset: string, weight: number): string =>
  join(fontFolder, `atkinson-hyperlegible-next-${subset}-${weight}-normal.woff`);

/** Bold is 600, the strong weight of the screens. */
export const fontFiles = {
  [PLAIN_FONT]: { normal: fileOf('latin', 400), bold: fileOf('latin', 600) },
  [MORE_FONT]: { normal: fileOf('latin-ext', 400), bold: fileOf('latin-ext', 600) },
};

const open = (file: string) => openSync(file) as Font;

const readCovered = (file: string): ReadonlySet<number> => new Set(open(file).characterSet);

/** Which characters each face has; read when first asked for. */
let covered: { plain: ReadonlySet<number>; more: ReadonlySet<number> } | null = null;

export function readCoverage() {
  covered ??= {
    plain: readCovered(fontFiles[PLAIN_FONT].normal),
    more: readCovered(fontFiles[MORE_FONT].normal),
  };
  return covered;
}

const opened = new Map<string, Font>();

/** Width of a line in the plain face, in the unit of the size; a drawing has no page to measure it. */
export function measureLine(text: string, size: number, isStrong: boolean): number {
  const file = fontFiles[PLAIN_FONT][isStrong ? 'bold' : 'normal'];
  const font = opened.get(file) ?? open(file);
  opened.set(file, font);
  return (font.layout(text).advanceWidth / font.unitsPerEm) * size;
}
