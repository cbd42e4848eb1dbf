import { expect, it } from 'vitest';
import { paperLook } from '#server/packet-pdf/paper-look.ts';
import { composePicture } from './compose-picture.ts';

const picture = {
  drawing: '<svg width="600" height="300"/>',
  widthPx: 600,
  heightPx: 300,
  title: 'Slip < limit & "so on"',
  reading: ['A dot is one stretch.'],
  legend: [],
  source: ['Slipdrift, Vehicle B-12, 4 Mar 2026', 'slipdrift.test/vehicles/B-12?band=70-85&life=2'],
  label: 'Slip against mileage.',
  fontFaces: '@font-face{}',
  look: paperLook,
};

it('puts title, reading and source around the drawing, on paper, and writes them for XML', () => {
  const { svg, widthPx, heightPx } = composePicture(picture);
  expect(svg).toContain('<title>Slip &lt; limit &amp; &quot;so on&quot;</title>');
  const texts = [...svg.matchAll(/<text [^>]*y="([\d.]+)"[^>]*>([^<]*)<\/text>/g)];
  expect(texts.map(([, , text]) => text)).toEqual([
    'Slip &lt; limit &amp; &quot;so on&quot;',
    'A dot is one stretch.',
    'Slipdrift, Vehicle B-12, 4 Mar 2026',
    'slipdrift.test/vehicles/B-12?band=70-85&amp;life=2',
  ]);
  const [title, reading, first, second] = texts.map(([, y]) => Number(y));
  const drawn = Number(/translate\(20 ([\d.]+)\)/.exec(svg)?.[1]);
  expect([title, reading, drawn, drawn + 300, first, second]).toEqual(
    [title, reading, drawn, drawn + 300, first, second].toSorted((a = 0, b = 0) => a - b),
  );
  expect(widthPx).toBe(640);
  expect(heightPx).toBeGreaterThan((second ?? 0) + 10);
  expect(svg).toContain(`<rect width="100%" height="100%" fill="${paperLook.paper}"/>`);
});

it('breaks a long line where the drawing ends, and drops what XML has no place for', () => {
  const { svg } = composePicture({ ...picture, source: ['depot one of many, '.repeat(12), 'a\u0000b'] });
  expect(svg.match(/<text /g)).toHaveLength(6);
  expect(svg).toContain('>ab</text>');
});

it('says what marks mean, beside their shapes, on as many lines as they need', () => {
  const entry = (words: string) => ({
    marks: [{ kind: 'fill' as const, widthPx: 14, heightPx: 11, color: '#a12' }],
    words,
  });
  const few = composePicture({ ...picture, legend: [entry('hold'), entry('free bay days')] });
  const [, at] = /<text x="([\d.]+)"[^>]*>free bay days</.exec(few.svg) ?? [];
  expect(few.svg.match(/<rect [^>]*fill="#a12"/g)).toHaveLength(2);
  expect(few.heightPx - composePicture(picture).heightPx).toBe(25);
  const many = composePicture({
    ...picture,
    legend: Array.from({ length: 8 }, () => entry('free bay days')),
  });
  const places = [...many.svg.matchAll(/<text x="([\d.]+)"[^>]*>free bay days</g)].map(([, x]) => Number(x));
  expect(Math.max(...places)).toBeLessThan(540);
  expect(new Set(places).size).toBeLessThan(8);
  expect(Number(at)).toBeGreaterThan(20 + 14 + 14);
});
