import type { CalibrationBin } from '#server/contract/replay.ts';
import { judgeBin, type Trust } from '#web/charts/judge-bin.ts';
import { formatKm } from '#web/format/format-km.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import type { Units } from '#web/format/units.ts';
import { withUnit } from '#web/format/with-unit.ts';

/** In which range the chances can be taken at their word, from the looks themselves. */
export function sayCalibration(bins: readonly CalibrationBin[], horizonKm: number, units: Units): string {
  const shown = bins.filter(({ n }) => n > 0);
  const of = (trust: Trust) => shown.filter((bin) => judgeBin(bin) === trust);
  if (shown.length === of('untold').length)
    return `Too few vehicles were followed over ${formatKm(horizonKm, units)} to tell whether the chances hold.`;
  const kept = sayRanges(of('kept'));
  const loose = sayRanges(of('loose'));
  const untold = sayRanges(of('untold'));
  return [
    kept === '' ? '' : `Chances of ${kept} can be taken at their word.`,
    loose === '' ? '' : `Nothing speaks against those of ${loose}, but their bounds are wide.`,
    ...of('high').map((bin) => `${sayBin(bin)}: stated too high.`),
    ...of('low').map((bin) => `${sayBin(bin)}: stated too low.`),
    untold === '' ? '' : `Of ${untold} too few were followed to tell.`,
  ]
    .filter((part) => part !== '')
    .join(' ');
}

const sayRange = (from: number, to: number): string =>
  withUnit(`${formatWhole(100 * from)} to ${formatWhole(100 * to)}`, '%');

/** 'Of 101 looks that said 80 to 100 % (mean 96 %), 40 % came (9 to 71 %)' */
const sayBin = ({ from, to, n, stated, seen, low, high }: CalibrationBin): string =>
  `Of ${n === 1 ? 'the one look' : `${formatWhole(n)} looks`} that said ${sayRange(from, to)} (mean ${formatPercent(stated)}), ${formatPercent(seen)} came (${sayRange(low ?? 0, high ?? 1)})`;

/** Neighbours as one range: '0 to 20 %, and 40 to 60 %'. */
function sayRanges(bins: readonly CalibrationBin[]): string {
  const ranges: { from: number; to: number }[] = [];
  for (const { from, to } of bins) {
    const last = ranges.at(-1);
    if (last?.to === from) last.to = to;
    else ranges.push({ from, to });
  }
  return ranges.map(({ from, to }) => sayRange(from, to)).join(' and ');
}
