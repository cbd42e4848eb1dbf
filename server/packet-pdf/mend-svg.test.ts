import { describe, expect, it } from 'vitest';
import { mendSvg } from './mend-svg.ts';
import { MORE_FONT } from './paper-fonts.ts';

const label = (words: string) =>
  `<text text-anchor="end" style="font-size:13px;font-weight:600;" y="6.5" transform="translate(60 20)" fill="#111" stroke="#fff" stroke-width="3" paint-order="stroke">${words}</text>`;

describe('mendSvg', () => {
  it('lays the rim of a label as a strip behind it', () => {
    const mended = mendSvg(label('limit'));
    expect(mended).toMatch(/^<rect [^>]*fill="#fff"[^>]*transform="translate\(60 20\)"\/><text/);
    expect(mended).not.toContain('stroke');
    const [, x, width] = /x="(-[\d.]+)"[^>]* width="([\d.]+)"/.exec(mended) ?? [];
    // The strip ends where the text does, at its anchor, a unit wider on both sides.
    expect(Number(x) + Number(width)).toBeCloseTo(1, 6);
  });

  it('leaves a label without a rim without a strip', () => {
    expect(mendSvg('<text y="3" style="font-size:13px;">slip</text>')).toBe(
      '<text y="3" style="font-size:13px;">slip</text>',
    );
  });

  it('sets the strong weight as bold', () => {
    expect(mendSvg(label('limit'))).toContain('font-weight:bold');
  });

  it('drops what is for a pointer', () => {
    expect(mendSvg('<svg><style ><![CDATA[.a:hover{fill:red}]]></style><g/></svg>')).toBe('<svg><g/></svg>');
  });

  it('keeps markup signs and gives letters their face', () => {
    expect(mendSvg('<text>a &lt; ő &amp; Ж</text>')).toBe(
      `<text>a &lt; <tspan font-family="${MORE_FONT}">ő</tspan> &amp; ?</text>`,
    );
  });
});
