import type { Outlook, OutlookRules } from './outlook.ts';
import { reachShare } from './reach-share.ts';
import { slipAt } from './slip-at.ts';
import type { Growth, WearCase, WearPoint } from './wear-model.ts';

const EVEN: Growth = { law: 'power', value: 1 };
/** The last so many points tell where slip stands now. */
export const LAST_POINTS = 5;
/** How far a clutch may stand from its path: this share of its rise, and at least so much. Own choice. */
const STRAY_SHARE = 0.2;
const STRAY_LEAST_RPM = 2;
/** Three equally likely values with mean 0 and variance 1. */
const LEVELS = [-Math.sqrt(1.5), 0, Math.sqrt(1.5)] as const;
/** A level this little uncertain, rpm, needs no three values. */
const SURE_RPM = 1;
const SURE = [0] as const;
const MOST_WAY_SD = 1.2;
/** A path whose healthy slip is the limit, or nearly, has no way to go. */
const LEAST_ROOM_RPM = 1;
/** What jumped wears faster than what drifts: share of the usual span, shape of its rate's prior. Own choice. */
const JUMP_SPAN = 0.73;
const JUMP_SHAPE = 4;

/**
 * Cases of wear set where the last points stand, for looking ahead.
 *
 * Level. Linings break up unevenly: slip strays from any smooth path, and stays away for a while. The stray d of each
 * case has the prior N(0, (2 rpm + 0.2 rise)^2) and is seen in the last 5 points by their precision-weighted mean
 * residual r with variance v: d = r * p / (p + v), p its prior variance. What the conditions and instruments mislead
 * as a whole, `levelShare` of the rise, no point can tell: each case stands for three, at that much below, at and
 * above the level.
 *
 * Way left. The path is shifted along the kilometres until it passes through the level now. A jump of share h of the
 * way from healthy to the limit, T km ago, goes on in such jumps: their rate, Gamma with shape 4 about one in h * S
 * km, S 0.73 of the usual span, becomes one in h * S + T / 4 after T km without another, and (1 - h) / h more of them
 * take (1 - h) (S + T / (4 h)) km. The way differs from that by a lognormal factor of variance waySd^2 + ln(1 + J /
 * (limit - level)): the second part is that of first passage by a rise in jumps of J rpm, J the raggedness of this
 * clutch, or the height of its one jump.
 *
 * @param cases  of one clutch, weights summing to 1
 * @param points that they were fitted to, in order of km
 * @param rules  of the platform and the clutch
 * @returns outlooks, weights summing to 1; not for telling the past
 * Source: local level beside a trend, Harvey (1989), Forecasting, Structural Time Series Models and the Kalman Filter,
 * section 2.3; coefficient of variation of an inverse Gaussian first passage, Whitmore (1995), Lifetime Data Analysis
 * 1, 307-319 (both from memory). Edges: no change, and a path that has not begun, stay as they are; healthy slip
 * within 1 rpm of the limit or past it leaves no way to go; a level stays 1
 * rpm above healthy at least; limit - level counts as 1 rpm at the least, and the deviation of the factor as 1.2 at
 * the most; what may mislead by less than 1 rpm needs no three. Errors: none.
 * @example settleCases([flatCase], flatPoints, rules)[0].spanKm // Infinity
 */
export function settleCases(
  cases: readonly WearCase[],
  points: readonly WearPoint[],
  rules: OutlookRules,
): Outlook[] {
  const { limitRpm } = rules;
  const nowKm = points.at(-1)?.km ?? Number.NEGATIVE_INFINITY;
  const recent = points.slice(-LAST_POINTS);
  const information = recent.reduce((sum, point) => sum + 1 / point.variance, 0);
  const outlooks: Outlook[] = [];
  for (const one of cases) {
    const { weight, baselineRpm } = one;
    const hasRoom = limitRpm - baselineRpm > LEAST_ROOM_RPM;
    if (one.kind === 'flat' || one.onsetKm >= nowKm || !hasRoom) {
      const isFlat = one.kind !== 'drift' || !hasRoom;
      outlooks.push({
        weight,
        baselineRpm,
        levelRpm: one.levelRpm,
        levelSd: one.levelSd,
        growth: isFlat ? EVEN : one.growth,
        goneKm: isFlat ? 0 : nowKm - one.onsetKm,
        spanKm: isFlat ? Number.POSITIVE_INFINITY : one.spanKm,
        waySd: rules.waySd,
      });
      continue;
    }
    let residual = 0;
    for (const point of recent)
      residual += (point.slipRpm - slipAt(one, point.km, limitRpm)) / point.variance / information;
    const rise = Math.max(0, one.levelRpm - baselineRpm);
    const prior = (STRAY_LEAST_RPM + STRAY_SHARE * rise) ** 2;
    const share = prior / (prior + 1 / information);
    const middle = Math.max(baselineRpm + 1, one.levelRpm + share * residual);
    const levelSd = Math.sqrt(one.levelSd ** 2 + share / information);
    const wrongRpm = rules.levelShare * (middle - baselineRpm);
    const levels = wrongRpm < SURE_RPM ? SURE : LEVELS;
    const isDrift = one.kind === 'drift';
    const growth = isDrift ? one.growth : EVEN;
    for (const deviate of levels) {
      const levelRpm = Math.max(baselineRpm + 1, middle + deviate * wrongRpm);
      const height = (levelRpm - baselineRpm) / (limitRpm - baselineRpm);
      const spanKm = isDrift
        ? one.spanKm
        : JUMP_SPAN * Math.exp(rules.logSpanMean) + (nowKm - one.onsetKm) / height / JUMP_SHAPE;
      const jumpRpm = isDrift ? rules.raggedRpm : levelRpm - baselineRpm;
      outlooks.push({
        weight: weight / levels.length,
        baselineRpm,
        levelRpm,
        levelSd,
        growth,
        goneKm: reachShare(growth, height, spanKm),
        spanKm,
        waySd: Math.min(
          MOST_WAY_SD,
          Math.sqrt(rules.waySd ** 2 + Math.log1p(jumpRpm / Math.max(1, limitRpm - levelRpm))),
        ),
      });
    }
  }
  return outlooks;
}
