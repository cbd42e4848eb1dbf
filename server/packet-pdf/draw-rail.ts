import type { PacketFlag } from '#server/contract/packets.ts';
import { formatKm } from '#web/format/format-km.ts';
import type { Units } from '#web/format/units.ts';
import { scaleForHorizon, shapeRail } from '#web/ui/rail-geometry.ts';
import { escapeMarkup } from './mend-svg.ts';
import { PLAIN_FONT } from './paper-fonts.ts';
import { paperLook } from './paper-look.ts';

export const RAIL_HEIGHT_PT = 36;
const MIDDLE = 12;
const THICK = 12;
const SIZE = 8;

/** The distance rail with its scale: limit at the left, 80 % interval thick, median notched, horizon faint. */
export function drawRail(
  { km_to_limit, grade, horizon_km }: Pick<PacketFlag, 'km_to_limit' | 'grade' | 'horizon_km'>,
  units: Units,
  widthPt: number,
): string {
  const scaleKm = scaleForHorizon(horizon_km, units);
  const shape = shapeRail(km_to_limit, grade, scaleKm);
  const { ink, inkSoft, hairlineStrong, paper } = paperLook;
  const tone = grade === 'steady' || grade === 'unknown' ? ink : paperLook.grade[grade];
  const left = 1;
  const length = widthPt - left - 14;
  const x = (share: number) => left + share * length;
  const upright = (at: number, from: number, to: number, stroke: string, width: number, dash = '') =>
    `<path d="M${at} ${from}L${at} ${to}" stroke="${stroke}" stroke-width="${width}"${dash}/>`;
  const block = (from: number, width: number, height: number) =>
    `<rect x="${from}" y="${MIDDLE - height / 2}" width="${width}" height="${height}" fill="${tone}"/>`;
  const say = (text: string, at: number, anchor: 'start' | 'middle' | 'end') =>
    `<text x="${at}" y="${RAIL_HEIGHT_PT - 3}" font-size="${SIZE}" font-family="${PLAIN_FONT}" text-anchor="${anchor}"` +
    ` fill="${inkSoft}">${escapeMarkup(text)}</text>`;
  const parts = [
    `<path d="M${left} ${MIDDLE}L${x(1)} ${MIDDLE}" stroke="${hairlineStrong}" stroke-width="1"` +
      `${shape.kind === 'unknown' ? ' stroke-dasharray="2 5"' : ''}/>`,
    upright(
      x(horizon_km / scaleKm),
      MIDDLE - 9,
      MIDDLE + 11,
      hairlineStrong,
      0.8,
      ' stroke-dasharray="1.5 2"',
    ),
    upright(left, 1, 23, ink, 2),
  ];
  if (shape.kind === 'passed') parts.push(block(left, THICK, THICK * 1.4));
  if (shape.kind === 'interval') {
    const from = x(shape.from);
    parts.push(block(from, Math.max(2, x(shape.to) - from), THICK));
    if (shape.notch !== null)
      parts.push(upright(x(shape.notch), MIDDLE - THICK / 2 - 1, MIDDLE + THICK / 2 + 1, paper, 2.2));
  }
  if (shape.kind === 'beyond' || (shape.kind === 'interval' && shape.open))
    parts.push(
      `<path d="M${x(1)} ${MIDDLE - 7}L${x(1) + 10} ${MIDDLE}L${x(1)} ${MIDDLE + 7}Z" fill="${tone}"/>`,
    );
  parts.push(
    say('limit', left, 'start'),
    say(`horizon, ${formatKm(horizon_km, units)}`, x(horizon_km / scaleKm), 'middle'),
    say(formatKm(scaleKm, units), x(1) + 12, 'end'),
  );
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPt}" height="${RAIL_HEIGHT_PT}"` +
    ` viewBox="0 0 ${widthPt} ${RAIL_HEIGHT_PT}">${parts.join('')}</svg>`
  );
}
